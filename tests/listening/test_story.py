"""Whole stories: what is taken from them, and what must never be."""

from __future__ import annotations

import time

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.listening.scoring import COUNTING, ONLY_COUNTED, WORKED_TOWARDS, of_kind, written
from triage.errors import BadInput
from triage.knowledge.model import NOTHING_SEEN, KnowledgeBase
from triage.listening.events import heard_events
from triage.listening.figures import figures_in
from triage.listening.replies import question_in
from triage.listening.statements import Asked, BoatFact, Denied, Found, Measured, NotLooked, Passed, Time, Told, Unheard
from triage.listening.story import MOST, hear
from triage.listening.understand import understand
from triage.phrases.asked import QUESTIONS
from triage.phrases.hearing import ABOUT

SAID = [key["say"] for name in ("sentences", "stories") for keys in written(name).values() for key in keys]
BOTH = pytest.mark.parametrize("which", [WORKED_TOWARDS, ONLY_COUNTED])


def test_a_third_of_what_is_written_is_only_counted() -> None:
    for name, least in (("sentences", 300), ("stories", 80)):
        keys = written(name)
        every, counted = sum(map(len, keys.values())), len(keys[ONLY_COUNTED])

        assert every >= least
        assert counted / every == pytest.approx(1 / 3, abs=0.02)


@BOTH
def test_sentences_are_understood_or_asked_about(kb: KnowledgeBase, which: str) -> None:
    count = COUNTING["sentences"](kb, written("sentences")[which])

    assert count["place first"] / count["sentences"] >= 0.75
    assert count["mark first"] / count["sentences"] >= 0.75
    assert count["both among four"] / count["sentences"] >= 0.9
    assert count["wrong and not asked"] / count["sentences"] <= 0.04
    assert count["vague, nothing opened"] == count["vague"]
    assert not count["sizes invented"]


def test_complaints_that_were_only_counted_are_understood_or_asked_about(kb: KnowledgeBase) -> None:
    keys = written("complaints")[ONLY_COUNTED]
    count = COUNTING["complaints"](kb, keys)
    known = {
        one for marks in kb.lexicon.speech.complaints.values() for sentences in marks.values() for one in sentences
    }

    assert count["both first"] / count["sentences"] >= 0.66  # 0.63 where complaints are pooled with the names of places
    assert count["both among four"] / count["sentences"] >= 0.85
    assert count["wrong and not asked"] / count["sentences"] <= 0.05
    assert not count["sizes invented"]
    assert not known & {key["say"] for key in keys}


@pytest.mark.parametrize("when", ["last sunday", "on Saturday", "two weeks ago", "the other day", "last weekend"])
def test_a_day_beside_what_happened_tells_when_and_nothing_else(kb: KnowledgeBase, when: str) -> None:
    heard = hear(f"We hit a rock {when}.", kb)

    assert [one.event for one in of_kind(heard, Told)] == ["hit_bottom"]
    assert [one.ago for one in of_kind(heard, Time)] == ["this season"]
    assert not of_kind(heard, Found)


@BOTH
def test_voices_are_heard_with_what_they_pass_and_what_happened(kb: KnowledgeBase, which: str) -> None:
    count = COUNTING["voices"](kb, written("voices")[which])

    assert not count["denied and found"]
    assert count["worrying mark among four"] / count["worrying marks"] >= 0.85
    assert count["pass heard"] / count["passes"] >= 0.65
    assert count["event heard"] == count["events"]
    assert count["proposed by itself and wrong"] <= 3


@BOTH
def test_what_strangers_deny_is_never_found(kb: KnowledgeBase, which: str) -> None:
    count = COUNTING["strangers"](kb, written("strangers")[which])

    assert count["worrying marks"] == len(written("strangers")[which])
    assert not count["denied and found"]


@pytest.mark.parametrize("name", ["voices", "strangers"])
def test_a_key_names_what_there_is_to_hear(kb: KnowledgeBase, name: str) -> None:
    for key in (one for keys in written(name).values() for one in keys):
        for mark in key["found"]:
            offered = {sign for zone in mark["zone"] for sign in kb.offers[zone]}
            assert not offered.isdisjoint(mark["sign"]), (key["say"], mark)
        assert {sign for signs in key.get("denied", ()) for sign in signs} <= set(kb.signs), key["say"]
        for well in key.get("passed", ()):
            assert set(well["zone"]) <= set(kb.zones), well
            assert set(well["scale"]) - {""} <= set(kb.scales), well
        assert set(key.get("events", ())) <= set(kb.happenings.events), key["say"]
        assert set(key.get("questions", ())) <= set(QUESTIONS), key["say"]


@pytest.mark.parametrize(
    ("said", "event"),
    [
        ("She was hit by a rescue boat.", "hit_by_boat"),
        ("Drifted into the harbour wall.", "hit_wall"),
        ("The rig was wound up far too tight.", "rig_too_tight"),
        ("Wires replaced last spring.", "new_wires"),
    ],
)
def test_what_happened_is_heard_in_all_its_ways_and_is_no_mark(kb: KnowledgeBase, said: str, event: str) -> None:
    heard = hear(said, kb)

    assert [one.event for one in of_kind(heard, Told)] == [event]
    assert not of_kind(heard, Found)


@pytest.mark.parametrize(
    ("said", "passed"),
    [
        ("Boom ok.", [("boom", "")]),
        ("The forestay plate hasn't moved.", [("forestay_anchor", "fitting_play")]),
        ("Boom itself is straight, no dents.", [("boom", "spar_true"), ("boom", "spar_wall")]),
        ("Three of the gudgeon bolts are tight but the fourth one just spins.", []),
        ("The rig is too tight.", []),
    ],
)
def test_a_part_is_passed_by_what_is_said_of_all_of_it(
    kb: KnowledgeBase, said: str, passed: list[tuple[str, str]]
) -> None:
    told = [(one.zone, one.scale) for one in of_kind(hear(said, kb), Passed)]

    assert set(passed) <= set(told)
    assert bool(passed) == bool(told)


def test_what_was_passed_before_a_turn_is_not_what_follows(kb: KnowledgeBase) -> None:
    (found,) = of_kind(hear("Three of the gudgeon bolts are tight but the fourth one just spins.", kb), Found)

    assert (found.zone, found.sign) == ("rudder_fittings", "lost_fastener")


def test_it_after_a_test_is_the_mark_before(kb: KnowledgeBase) -> None:
    heard = hear("The repair under the bow has cracked again. Tapped it and it's dull over about 20 cm.", kb)

    assert [one.sign for one in of_kind(heard, Found)] == ["old_repair"]


@pytest.mark.parametrize(
    ("said", "sign"),
    [
        ("Floor by the mast is spongy. I pushed it and it goes down 5 mm. Patch is as big as a plate.", "soft_panel"),
        ("Lots of blisters on the bottom. I popped one and it was wet and smelt.", "blister"),
        ("Star crack on the topside. The crack is about 30 mm across.", "star_crack"),
    ],
)
def test_what_is_told_on_of_a_mark_makes_no_other(kb: KnowledgeBase, said: str, sign: str) -> None:
    heard = hear(said, kb)

    assert [one.sign for one in of_kind(heard, Found)] == [sign]
    assert {one.of for one in of_kind(heard, Measured)} <= {(one.start, one.end) for one in of_kind(heard, Found)}


def test_a_mark_of_another_kind_is_another_one_though_it_points_back(kb: KnowledgeBase) -> None:
    heard = hear("The rudder bracket is loose. It has cracks round the bolts.", kb)

    assert [one.sign for one in of_kind(heard, Found)] == ["play", "fastener_cracks"]


def test_what_is_asked_has_not_happened(kb: KnowledgeBase) -> None:
    heard = hear("One strand has popped on the port shroud, can I sail or do I need new wires", kb)

    assert not of_kind(heard, Told)
    assert len(of_kind(heard, Asked)) == 2


def test_when_it_was_names_no_mark(kb: KnowledgeBase) -> None:
    heard = hear("Bought her in spring for my lad. The foredeck is springy.", kb)

    assert [(one.zone, one.sign) for one in of_kind(heard, Found)] == [("foredeck", "soft_panel")]


def test_two_marks_of_a_sentence_each_keep_their_place(kb: KnowledgeBase) -> None:
    heard = hear("Some crazing on the side decks and faded gelcoat on the foredeck.", kb)

    assert [(one.zone, one.sign) for one in of_kind(heard, Found)] == [
        ("side_deck", "crazing"),
        ("foredeck", "chalky_fade"),
    ]


@BOTH
def test_nothing_that_is_denied_is_found(kb: KnowledgeBase, which: str) -> None:
    count = COUNTING["stories"](kb, written("stories")[which])

    assert not count["denied and found"]
    assert count["worrying mark among four"] / count["worrying marks"] >= 0.75
    assert count["size right"] / count["sizes"] >= 0.88


@pytest.mark.parametrize(
    "said",
    [
        "no cracks in the transom",
        "there is not a single blister on the bottom",
        "never any water in the side tank",
        "I found no rust on the chainplate and no gap in the seam",
        "the mast step has no play",
    ],
)
def test_a_mark_that_is_not_there_is_no_finding(kb: KnowledgeBase, said: str) -> None:
    heard = hear(said, kb)

    assert not of_kind(heard, Found)
    assert any(isinstance(one, (Denied, Passed)) for one in heard)


@pytest.mark.parametrize(
    ("said", "sign"),
    [
        ("the forestay pin has no split ring", "lost_ring"),
        ("hatch cover on the tank does not seal", "hatch_leak"),
        ("the skeg under the stern has been rubbed flat", "flat_worn"),
        ("the straps that held the foam under the deck have broken", "strap_weak"),
        ("bottom of the hull sounds like cardboard when tapped", "dull_tap"),
    ],
)
def test_a_fault_that_sounds_like_no_or_fine_is_found(kb: KnowledgeBase, said: str, sign: str) -> None:
    assert sign in {choice.sign for one in of_kind(hear(said, kb), Found) for choice in one.choices}


def test_a_pass_is_bound_to_a_place_and_a_reading(kb: KnowledgeBase) -> None:
    (stiff,) = of_kind(hear("The cockpit floor is stiff.", kb), Passed)
    (fine,) = of_kind(hear("The cockpit floor is fine.", kb), Passed)

    assert (stiff.zone, stiff.scale) == ("cockpit_floor", "panel_give")
    assert (fine.zone, fine.scale) == ("cockpit_floor", "")


def test_stiff_is_no_pass_of_what_should_move(kb: KnowledgeBase) -> None:
    assert not of_kind(hear("The halyard sheave is stiff.", kb), Passed)


def test_everything_in_a_story_is_heard(kb: KnowledgeBase) -> None:
    story = (
        "We hit a rock hard last weekend. There is a crack 55 mm long where the centreboard case meets the floor. "
        "The alloy mast is straight. I couldn't see under the side tank. She was built for lakes and loves reaching. "
        "Can she sail?"
    )
    heard = hear(story, kb)

    (event,) = of_kind(heard, Told)
    (size,) = of_kind(heard, Measured)
    assert (event.event, event.force, event.ago) == ("hit_bottom", "hard", "this season")
    assert (size.quantity, size.measure, size.scale) == ("55 mm", "length", "crack_length")
    assert [fact.value for fact in of_kind(heard, BoatFact)] == ["alloy"]
    assert [one.about for one in of_kind(heard, Asked)] == ["afloat"]
    assert of_kind(heard, NotLooked)
    assert of_kind(heard, Passed)
    assert len(of_kind(heard, Unheard)) == 1
    assert "case_root" in {choice.zone for choice in of_kind(heard, Found)[0].choices}


@pytest.mark.parametrize(
    ("said", "measure", "scale"),
    [
        ("crack 30 mm long in the bottom of the hull", "length", "crack_length"),
        ("the mast step rocks about 2 mm", "movement", "fitting_play"),
        ("gap of 3 mm in the seam along the gunwale", "gap", "joint_gap"),
        ("mast is bent, 14 mm over 1.7 m", "bend", "spar_true"),
        ("mast is bent 14 mm", "bend", ""),
        ("the glass strip at the bulkhead has peeled away, say 8 inches", "length", "crack_length"),
        ("the glass strips of the thwart have lifted for about 40 cm", "length", "crack_length"),
        ("the mast step is loose, half a mil maybe", "movement", "fitting_play"),
        ("three litres of water in the side tank", "volume", "tank_water"),
    ],
)
def test_a_size_is_bound_or_asked(kb: KnowledgeBase, said: str, measure: str, scale: str) -> None:
    (size,) = of_kind(hear(said, kb), Measured)

    assert (size.measure, size.scale) == (measure, scale)


@pytest.mark.parametrize(
    ("said", "scale"),
    [
        ("star of lines in the transom, 70 mm across", ""),
        ("star of lines in the transom that sounds dull for 70 mm across", "tap_dull"),
        ("the transom gives a thud over a patch of 70 mm", "tap_dull"),
    ],
)
def test_how_far_a_mark_reaches_is_no_sound_until_one_is_told(kb: KnowledgeBase, said: str, scale: str) -> None:
    (size,) = of_kind(hear(said, kb), Measured)

    assert size.scale == scale


@pytest.mark.parametrize(
    "said",
    [
        "the mast is 18 years old and bent",
        "crack in the transom, sailed in 20 knots",
        "crack in the bow of my 14 foot boat",
        "paid 900 quid for a boat with a crack in the floor",
    ],
)
def test_figures_that_are_no_size_are_left_alone(kb: KnowledgeBase, said: str) -> None:
    assert not figures_in(said, kb)


def test_gallons_and_quarters_go_by_country(kb: KnowledgeBase) -> None:
    (british,), (american,) = (figures_in("two gallons of water", kb, country) for country in ("uk", "us"))
    (coin,) = figures_in("a chip the size of a quarter", kb, "us")

    assert (british.low, american.low) == pytest.approx((9.092, 7.57))
    assert coin.low == pytest.approx(24.26)


def test_a_side_and_both_sides_are_heard(kb: KnowledgeBase) -> None:
    sides = [
        of_kind(hear(f"{side} chainplate is loose", kb), Found)[0].side for side in ("port", "starboard", "both sides,")
    ]

    assert sides == ["port", "starboard", "both"]


def test_another_clause_drops_nothing(kb: KnowledgeBase) -> None:
    alone = [one for one in of_kind(hear("The bottom gudgeon is loose.", kb), Found) if one.clear]

    for beside in ("We had a lovely summer.", "No cracks in the deck.", "The bung is missing.", "Can she sail?"):
        for story in (f"The bottom gudgeon is loose. {beside}", f"{beside} The bottom gudgeon is loose."):
            marks = {(one.zone, one.sign) for one in of_kind(hear(story, kb), Found)}
            assert {(one.zone, one.sign) for one in alone} <= marks, story


@pytest.mark.parametrize("said", SAID[::3])
def test_every_statement_rests_on_words_of_the_text(kb: KnowledgeBase, said: str) -> None:
    for one in hear(said, kb):
        assert 0 <= one.start < one.end <= len(said)
        assert said[one.start : one.end].strip()
        assert 0.0 <= one.sure <= 1.0


@settings(max_examples=30)
@given(st.lists(st.one_of(st.sampled_from(SAID), st.text(max_size=40)), max_size=4))
def test_any_text_is_heard_and_the_same_text_the_same(kb: KnowledgeBase, parts: list[str]) -> None:
    text = " ".join(parts)

    heard = hear(text, kb)

    assert heard == hear(text, kb)
    assert all(0 <= one.start < one.end <= len(text) for one in heard)
    for one in of_kind(heard, Found):
        assert 1 <= len(one.choices) <= 4
        assert all(choice.sign in kb.offers[choice.zone] for choice in one.choices)


def test_a_megabyte_is_refused(kb: KnowledgeBase) -> None:
    with pytest.raises(BadInput, match="Tell it in parts"):
        hear("a crack in the hull. " * 50_000, kb)


@pytest.mark.parametrize("piece", ["a crack in the hull. ", "no ", "1 1 1 ", "5 mm by 3 cm x ", "a" * 50, ", and "])
def test_it_takes_no_longer_than_its_length_allows(kb: KnowledgeBase, piece: str) -> None:
    minutes_would_be_a_square = 15.0
    hear("a crack in the hull", kb)
    started = time.process_time()
    hear((piece * MOST)[: MOST // 20], kb)

    assert time.process_time() - started < minutes_would_be_a_square


@pytest.mark.parametrize("said", ["Hit a rock last month", "We ran aground", "dropped her off the trolley"])
def test_what_happened_is_no_mark(kb: KnowledgeBase, said: str) -> None:
    heard = hear(f"{said}. There is a crack 55 mm long where the centreboard case meets the floor.", kb)

    assert len(of_kind(heard, Found)) == 1
    assert of_kind(heard, Told)


def test_a_further_clause_speaks_of_the_place_of_the_first(kb: KnowledgeBase) -> None:
    _, *others = of_kind(hear("star crack in the bottom of the hull and rusty brown weeping round it", kb), Found)

    assert {"bottom"} == {one.zone for one in others}


def test_clauses_with_a_place_each_are_heard_by_themselves(kb: KnowledgeBase) -> None:
    heard = of_kind(hear("The port chainplate is loose and the self bailer leaks and the tiller is cracked", kb), Found)

    assert ["chainplate", "bailer", "tiller"] == [one.zone for one in heard]


def test_a_part_that_is_named_later_tells_where_a_mark_is(kb: KnowledgeBase) -> None:
    said = "There is a star crack as big as my hand."
    alone, heard = (of_kind(hear(text, kb), Found)[0] for text in (said, f"{said} All of it is on the foredeck."))

    assert (alone.zone == "foredeck", heard.zone) == (False, "foredeck")


@pytest.mark.parametrize("said", ["I tightened the shrouds today.", "We tightened the shrouds last week."])
def test_what_somebody_did_is_told_and_no_mark(kb: KnowledgeBase, said: str) -> None:
    heard = hear(said, kb)

    assert [one.done for one in of_kind(heard, Told)] == [True]
    assert not of_kind(heard, Found)


def test_a_part_that_is_only_praised_beside_a_mark_leaves_the_mark_where_it_is(kb: KnowledgeBase) -> None:
    heard = hear("The chainplate is loose by 2 mm and the mast step is solid, no play.", kb)

    (found,) = of_kind(heard, Found)
    assert (found.zone, found.sign, found.clear) == ("chainplate", "play", True)
    assert {one.zone for one in of_kind(heard, Passed)} == {"mast_step"}


@pytest.mark.parametrize(
    "said",
    [
        "Six chips on the stem. The largest is 9 mm wide, and I only see grey in it.",
        "Gouge along the chine. It runs for 200 mm toward the stern seam, and a nail drops into it.",
        "Crazing on the foredeck. They are as thin as a hair, and I went over them with a lens.",
    ],
)
def test_words_that_point_back_tell_more_of_the_mark_before(kb: KnowledgeBase, said: str) -> None:
    heard = hear(said, kb)
    (mark,) = of_kind(heard, Found)

    assert said[: mark.end] == said.partition(".")[0]
    assert all(size.of == (mark.start, mark.end) for size in of_kind(heard, Measured))


def test_words_that_point_back_tell_of_the_part_spoken_of_last(kb: KnowledgeBase) -> None:
    deck, blade = of_kind(hear("Crazing on the foredeck. The rudder blade was new in May. It has a split.", kb), Found)

    assert (deck.zone, deck.sign) == ("foredeck", "crazing")
    assert (blade.zone, blade.sign) == ("rudder_blade", "foil_split")


@pytest.mark.parametrize("more", ["It leaks.", "It takes on two litres an hour.", "It is split at one end."])
def test_a_mark_that_is_named_is_heard_although_words_point_back(kb: KnowledgeBase, more: str) -> None:
    assert len(of_kind(hear(f"Scratch on the topside. {more}", kb), Found)) == 2


def test_words_that_point_back_and_name_another_mark_tell_of_it_there(kb: KnowledgeBase) -> None:
    marks = of_kind(hear("The foredeck is spongy. It is crazed all over.", kb), Found)

    assert [one.zone for one in marks] == ["foredeck", "foredeck"]
    assert marks[1].sign == "crazing"


def test_each_part_of_the_boat_in_a_sentence_has_the_marks_told_of_it(kb: KnowledgeBase) -> None:
    marks = of_kind(
        hear(
            "The cockpit floor is spongy and creaks, it is worn, the rudder blade is split and the tiller wobbles.",
            kb,
        ),
        Found,
    )

    assert ("rudder_blade", "foil_split") in {(one.zone, one.sign) for one in marks}
    assert ("tiller", "play") in {(one.zone, one.sign) for one in marks}
    assert marks[0].zone == "cockpit_floor"
    assert all("rudder" not in choice.zone for choice in marks[0].choices)


@pytest.mark.parametrize(
    "said", ["cracked side walls on the trailer", "The side walls of a trailer tyre have fine cracks"]
)
def test_a_place_that_only_one_part_has_wins_over_the_word_in_it(kb: KnowledgeBase, said: str) -> None:
    mark, *_ = of_kind(hear(said, kb), Found)

    assert (mark.zone, mark.sign) == ("trailer_run", "tyre_old")


def test_what_was_done_to_find_out_is_known_however_it_is_spelt(kb: KnowledgeBase) -> None:
    heard = hear("Crack in the transom. I shone a lamp through the hatch and drew the plug.", kb)

    assert [one.zone for one in of_kind(heard, Found)] == ["transom"]


@pytest.mark.parametrize(
    ("said", "about"),
    [
        ("The tiller moves 2 mm is she leaking?", "look"),
        ("Old patch on the bottom is it a bad repair", "verdict"),
        ("The transom has a crack, can we still use it", "afloat"),
        ("Scratch on the chine, how bad is it to look at?", "verdict"),
    ],
)
def test_a_question_at_the_end_is_one_and_no_mark(kb: KnowledgeBase, said: str, about: str) -> None:
    heard = hear(said, kb)

    assert [one.about for one in of_kind(heard, Asked)] == [about]
    assert len(of_kind(heard, Found)) == 1


@pytest.mark.parametrize("said", ["The side deck is springy.", "Sailed her once. The side deck feels bouncy."])
def test_a_springy_deck_is_heard_in_a_story(kb: KnowledgeBase, said: str) -> None:
    (mark,) = of_kind(hear(said, kb), Found)

    assert ("side_deck", "soft_panel") in {(one.zone, one.sign) for one in mark.choices}


def test_what_was_bounced_on_is_no_mark(kb: KnowledgeBase) -> None:
    heard = hear("I bounced on the side deck and nothing moved.", kb)

    assert not of_kind(heard, Found)
    assert [one.scale for one in of_kind(heard, Passed)] == ["panel_give"]


def test_a_mark_that_is_named_is_among_those_asked(kb: KnowledgeBase) -> None:
    (mark,) = of_kind(hear("The seam gapes behind the mast step by the chainplate", kb), Found)

    assert "joint_crack" in {choice.sign for choice in mark.choices}


@pytest.mark.parametrize("aside", ["She slid off her cradle at Easter, ", "the plug was in, ", "we had the kite up, "])
def test_what_happened_beside_a_mark_is_no_mark_of_its_own(kb: KnowledgeBase, aside: str) -> None:
    assert 1 == len(of_kind(hear(f"{aside}and now there is a star crack in the side deck.", kb), Found))


def test_a_pass_is_of_the_part_that_was_named_last(kb: KnowledgeBase) -> None:
    (passed,) = of_kind(hear("She fell off her trailer and cracked the side deck, it feels firm.", kb), Passed)

    assert ("side_deck", "panel_give") == (passed.zone, passed.scale)


@pytest.mark.parametrize(
    ("said", "force"),
    [
        ("Hit a post, and not all that hard", ""),
        ("Ran into the dock, it wasn't a hard landing", ""),
        ("Hit a post, not gently", ""),
        ("Ran into the dock, nothing hard, at walking pace", "light"),
        ("Ran into the dock, no doubt hard", "hard"),
        ("We never saw the post and hit a post hard", "hard"),
        ("Hit a post hard and did not stop to look", "hard"),
    ],
)
def test_a_force_that_is_denied_is_not_told(kb: KnowledgeBase, said: str, force: str) -> None:
    told = of_kind(hear(said, kb), Told)

    assert {one.force for one in told} == {force}
    assert {one.force for one in heard_events(said, kb).events} <= {force}


@pytest.mark.parametrize(
    ("said", "about"),
    [
        ("Is she okay for the regatta tomorrow", "afloat"),
        ("can we do the nationals in her", "afloat"),
        ("are we fit to race", "afloat"),
        ("is it risky to let the kids sail her", "afloat"),
        ("is this a worry", "verdict"),
        ("is the forestay going to snap", "verdict"),
        ("is she alright", "verdict"),
        ("should I get someone to look at it", "hands"),
        ("is this a job for a professional", "hands"),
        ("could his mum mend it with filler", "mend"),
        ("what would you recommend", "mend"),
    ],
)
def test_a_question_is_heard_in_many_ways_beside_a_mark_and_takes_nothing_away(
    kb: KnowledgeBase, said: str, about: str
) -> None:
    alone = of_kind(hear("The transom is cracked.", kb), Found)
    heard = hear(f"The transom is cracked. {said}", kb)

    assert [one.about for one in of_kind(heard, Asked)] == [about]
    assert of_kind(heard, Found) == alone
    assert not of_kind(heard, Passed)
    assert question_in(kb, said) == about


@pytest.mark.parametrize(
    "said", ["Is the cockpit floor stiff?", "is the mast step all right", "Does the mast stay dry?"]
)
def test_what_is_asked_passes_nothing(kb: KnowledgeBase, said: str) -> None:
    heard = hear(said, kb)

    assert of_kind(heard, Asked)
    assert not of_kind(heard, Passed)


@pytest.mark.parametrize(
    "said", ["The sidestay is slack no matter how much I tighten it.", "No matter how much I bail, she fills up."]
)
def test_no_matter_how_much_asks_no_price(kb: KnowledgeBase, said: str) -> None:
    heard = hear(said, kb)

    assert of_kind(heard, Found)
    assert not of_kind(heard, Asked)


@pytest.mark.parametrize(
    "said",
    [
        "I don't know whether the crack in the transom was mended with filler",
        "You know the rudder blade is split, nobody asked me",
        "Our trailer has a cracked tyre",
    ],
)
def test_a_mark_beside_words_that_others_ask_with_is_kept(kb: KnowledgeBase, said: str) -> None:
    assert of_kind(hear(said, kb), Found)
    assert not any(one.about for one in of_kind(hear(said, kb), Asked))


@pytest.mark.parametrize(
    ("said", "zone", "sign"),
    [
        ("I found no cracks at all", "", "hairline"),
        ("There are no cracks anywhere in the foredeck", "foredeck", "hairline"),
        ("No cracks in the tyres", "trailer_run", "tyre_old"),
        ("The jib has no cracks", "", "hairline"),
        ("I found no rust at all", "", "rust_bleed"),
    ],
)
def test_what_is_denied_is_a_mark_that_can_be_there_or_the_most_usual_one(
    kb: KnowledgeBase, said: str, zone: str, sign: str
) -> None:
    (denied,) = of_kind(hear(said, kb), Denied)

    assert (denied.zone, denied.sign) == (zone, sign)


@pytest.mark.parametrize("said", ["Nothing came out of the bow tank.", "Nothing ever came out of the stern."])
def test_a_denial_that_names_no_mark_makes_none(kb: KnowledgeBase, said: str) -> None:
    heard = hear(f"The transom is cracked. {said}", kb)

    assert len(of_kind(heard, Found)) == 1
    assert not of_kind(heard, Denied)


def test_every_question_that_is_heard_can_be_told_back_and_answered(kb: KnowledgeBase) -> None:
    assert set(kb.lexicon.speech.questions) <= set(ABOUT)
    assert set(kb.lexicon.speech.questions) <= set(QUESTIONS)


def test_the_side_that_is_compared_with_is_not_the_side_of_the_mark(kb: KnowledgeBase) -> None:
    said = "The port shroud plate has come up with three cracks round it, the starboard one is solid."
    (mark, *_) = of_kind(hear(said, kb), Found)
    understood = understand("the port shroud plate has come up, the starboard one is solid", kb)

    assert mark.side == "port"
    assert (understood.zone, understood.side) == ("chainplate", "port")
    assert understood.sign != NOTHING_SEEN


@pytest.mark.parametrize(
    ("text", "sides"),
    [
        ("crack at the shroud anchor, right hand one standing behind her", ["starboard"]),
        ("crack at the shroud anchor, the left one looking forward", ["port"]),
        ("crack at the left shroud plate", ["port"]),
        ("crack at the port shroud plate. The gunwale seam on the same side is open.", ["port", "port"]),
        ("crack at the port shroud plate, the starboard one is solid", ["port"]),
        ("crack at the shroud plate. No cracks on the starboard side.", [""]),
        ("crack at the shroud plate, passenger side", [""]),
    ],
)
def test_the_side_is_that_which_was_told_of_the_mark(kb: KnowledgeBase, text: str, sides: list[str]) -> None:
    assert sides == [one.side for one in hear(text, kb) if isinstance(one, Found)]
