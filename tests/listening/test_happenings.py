"""What happened, what was done, what was well and how big it is, in words that nobody wrote down before."""

from __future__ import annotations

import pytest

from tests.listening.scoring import COUNTING, ONLY_COUNTED, WORKED_TOWARDS, of_kind, written
from triage.knowledge.model import KnowledgeBase
from triage.listening.events import heard_events
from triage.listening.figures import figures_in
from triage.listening.observing import ways_of
from triage.listening.statements import Asked, Denied, Found, Measured, Passed, Told
from triage.listening.story import hear
from triage.listening.understand import understand


@pytest.mark.parametrize("which", [WORKED_TOWARDS, ONLY_COUNTED])
@pytest.mark.parametrize("name", ["happenings", "strangers", "voices"])
def test_three_in_four_happenings_and_passes_are_heard(kb: KnowledgeBase, name: str, which: str) -> None:
    count = COUNTING[name](kb, written(name)[which])

    assert count["event heard"] / count["events"] >= 0.75
    assert count["pass heard"] / count["passes"] >= 0.75
    assert count["size right"] / count["sizes"] >= 0.88
    assert not count["denied and found"]


@pytest.mark.parametrize(
    ("said", "event"),
    [
        ("A yacht drifted down and clipped the port side of ours.", "hit_by_boat"),
        ("We nudged the end of the harbour wall.", "hit_wall"),
        ("The branch of a big tree fell right across the foredeck.", "fell_on_her"),
        ("The mast caught a power line on the way down the lane.", "mast_hit"),
        ("We were towed in by a rescue boat.", "towed_afloat"),
        ("He put some gaffer tape over the hole.", "taped"),
        ("The gale picked her up and threw her over in the boat park.", "blew_over"),
    ],
)
def test_an_event_is_told_by_what_was_done_to_what(kb: KnowledgeBase, said: str, event: str) -> None:
    assert event in [one.event for one in of_kind(hear(said, kb), Told)]
    assert event in [one.event for one in heard_events(said, kb).events]


@pytest.mark.parametrize(
    "said",
    [
        "We nearly clipped the end of the jetty.",
        "She has never been dropped off her trolley.",
        "Afraid that a tree falls on the deck one day.",
        "I wonder if somebody ran into our stern.",
        "The shrouds have never been changed.",
        "Did another boat hit her?",
    ],
)
def test_what_did_not_happen_is_not_told(kb: KnowledgeBase, said: str) -> None:
    assert not of_kind(hear(said, kb), Told)


def test_what_a_denial_holds_for_true_has_happened(kb: KnowledgeBase) -> None:
    assert [one.event for one in of_kind(hear("She was never dry since we hit a rock.", kb), Told)] == ["hit_bottom"]


def test_a_far_step_reaches_over_clauses_and_a_near_one_does_not(kb: KnowledgeBase) -> None:
    far = hear("Nipped up the screws in March, been out a dozen times.", kb)
    apart = hear("The kids jumped, and the deck is fine.", kb)

    assert [one.event for one in of_kind(far, Told)] == ["tightened_and_sailed"]
    assert not of_kind(apart, Told)


def test_words_between_those_that_tell_an_event_still_name_a_part(kb: KnowledgeBase) -> None:
    (told,) = of_kind(hear("We clipped the stern corner on the dock.", kb), Told)

    assert len(told.words) == 2


@pytest.mark.parametrize(
    ("said", "zone", "scale"),
    [
        ("Chainplates do not move with the boom hard down.", "chainplate", "fitting_play"),
        ("Crack at the foredeck. There is no play in the tiller.", "tiller", "fitting_play"),
        ("The side deck is cracked. I pressed it and it does not give.", "side_deck", "panel_give"),
        ("The mast step does not move the bungs are dry.", "mast_step", "fitting_play"),
    ],
)
def test_a_clean_result_is_of_the_part_it_stands_with(kb: KnowledgeBase, said: str, zone: str, scale: str) -> None:
    passed = [(one.zone, one.scale) for one in of_kind(hear(said, kb), Passed)]

    assert (zone, scale) in passed
    assert {one for one, judged in passed if judged == scale} == {zone}


def test_parts_in_a_row_share_their_clean_result(kb: KnowledgeBase) -> None:
    passed = of_kind(hear("Port tank and bow tank held for a minute.", kb), Passed)

    assert {one.zone for one in passed if one.scale == "tank_seal"} == {"side_tank", "end_tank"}


def test_a_clean_result_that_denies_a_mark_and_names_no_part_is_a_denial_too(kb: KnowledgeBase) -> None:
    heard = hear("Nothing soft that I could feel.", kb)

    assert [one.sign for one in of_kind(heard, Denied)] == ["soft_panel"]
    assert not of_kind(heard, Found)


def test_no_answer_at_its_best_is_the_name_of_a_fault(kb: KnowledgeBase) -> None:
    """Of "no dents at all" must not come "dents" as a way of saying that there are none."""
    for scale, said in kb.lexicon.speech.passes.items():
        best = {way.words for way in ways_of(kb, scale, at_question=False) if way.built}
        assert best.isdisjoint({frozenset({fault}) for fault in ("dent", "tear", "hole", "crack", "play", "gap")}), said


@pytest.mark.parametrize(
    ("said", "mm"),
    [
        ("a crack two fingers wide", 36),
        ("a dent the size of a two-pound coin", 28.4),
        ("a hole as big as a ten cent piece", 23.6),
        ("a patch of 8 by 10 inches", 254),
        ("a split the length of a biro", 145),
        ("dented to the depth of a pound coin", 2.8),
        ("a gap you could get a business card in", 0.35),
        ("bumps, the biggest like a 5p", 18),
    ],
)
def test_things_and_coins_are_as_long_wide_or_thick_as_they_are(kb: KnowledgeBase, said: str, mm: float) -> None:
    (figure,) = figures_in(said, kb)

    assert figure.low == figure.high == pytest.approx(mm, rel=0.01)


@pytest.mark.parametrize("said", ["a gap that you cannot get a business card in", "you can get a card in there"])
def test_no_gap_is_made_of_a_card_that_does_not_go_in(kb: KnowledgeBase, said: str) -> None:
    assert not figures_in(said, kb)


def test_so_much_water_is_from_somewhere_and_so_far_is_a_distance(kb: KnowledgeBase) -> None:
    assert [one.unit for one in figures_in("got 2 litres from the back bung", kb)] == ["L"]
    assert not figures_in("a crack 20 mm from the bung", kb)


def test_a_finger_wide_is_no_finger_long(kb: KnowledgeBase) -> None:
    (size,) = [one.quantity for one in understand("crack in the foredeck a finger wide", kb).sizes]

    assert size == "18 mm"
    assert [one.low for one in of_kind(hear("A gap a finger wide at the bow seam.", kb), Measured)] == [18]


@pytest.mark.parametrize(
    "said", ["Kindly advise whether she will float higher", "What colour was she?", "Any idea what class this is"]
)
def test_a_question_that_nothing_answers_is_heard_as_one(kb: KnowledgeBase, said: str) -> None:
    assert "" in [one.about for one in of_kind(hear(f"The foredeck is cracked. {said}", kb), Asked)]
