"""A whole story at the prompt: everything is shown before it is kept, and each of it can be changed or left out."""

from __future__ import annotations

from dataclasses import replace

import pytest

from tests.dialogue.talking import talk
from triage.concluding.assess import assess_survey
from triage.dialogue.events import Chose, Decide, Said, Skip, Undo
from triage.dialogue.keeping import kept, resumed
from triage.dialogue.messages import Choices, Line, Message, Points, Refused
from triage.dialogue.state import State
from triage.dialogue.step import begin, step
from triage.dialogue.stories import is_story
from triage.dialogue.stories import told as story_told
from triage.knowledge.model import NOTHING_SEEN, KnowledgeBase
from triage.phrases import sharing, story_screen
from triage.survey.model import Boat, Survey
from triage.survey.readings import reading_of

TWO_MARKS = (
    "We hit a rock hard last weekend. The port chainplate is loose by 2 mm. "
    "The self bailer leaks even when it is shut. No cracks in the transom."
)
WITH_PASS = (
    "There is a crack 55 mm long where the centreboard case meets the floor. "
    "I stood on the cockpit floor and it does not give."
)
Turn = tuple[State, tuple[Message, ...]]


def tell(kb: KnowledgeBase, text: str) -> Turn:
    return talk(kb, Said(text))


def choices(messages: tuple[Message, ...]) -> tuple[str, ...]:
    return next(one.choices for one in messages if isinstance(one, Choices))


def to_the_end(kb: KnowledgeBase, turn: Turn) -> Turn:
    """The first choice to everything, until the story is over."""
    for _ in range(12):
        if turn[0].asking.what not in ("story", "which", "whose", "tried"):
            return turn
        turn = step(kb, turn[0], Chose(1))
    raise AssertionError("the story never ended")


def test_everything_is_shown_and_nothing_is_kept_yet(kb: KnowledgeBase) -> None:
    state, messages = tell(kb, TWO_MARKS)

    shown = " ".join(line for one in messages if isinstance(one, Points) for line in one.lines)
    assert state.asking.what == "story"
    assert not state.survey.findings
    assert not state.survey.events
    for words in ("chainplate is loose by 2 mm", "self bailer leaks", "hit a rock", "No cracks in the transom"):
        assert words in shown


def test_what_is_kept_are_the_marks_and_what_happened_and_no_denied_mark(kb: KnowledgeBase) -> None:
    state, _ = to_the_end(kb, tell(kb, TWO_MARKS))

    assert {one.zone for one in state.survey.findings} == {"chainplate", "bailer"}
    assert [event.event for event in state.survey.events] == ["hit_bottom"]
    assert state.asking.what in ("answer", "ended")


def test_what_an_event_of_the_story_demands_is_said_once_it_is_kept(kb: KnowledgeBase) -> None:
    _, messages = to_the_end(kb, tell(kb, TWO_MARKS))

    assert any(isinstance(one, Line) and one.text.startswith("Before she sails") for one in messages)


def test_an_unclear_mark_is_asked_for_among_at_most_four_with_a_way_out(kb: KnowledgeBase) -> None:
    state, messages = step(kb, tell(kb, TWO_MARKS)[0], Chose(1))

    while state.asking.what == "which":
        offered = choices(messages)
        assert len(offered) <= 6
        assert offered[-2:] == ("none of these: leave it out", "it is another place")
        state, messages = step(kb, state, Chose(1))


def test_a_card_can_be_left_out(kb: KnowledgeBase) -> None:
    turn = step(kb, tell(kb, TWO_MARKS)[0], Chose(2))
    turn = step(kb, turn[0], Chose(len(choices(turn[1])) - 1))

    assert turn[0].asking.what == "story"
    assert {one.zone for one in to_the_end(kb, turn)[0].survey.findings} == {"bailer"}


def test_a_card_is_decided_among_all_of_them_and_taken_back_with_the_step(kb: KnowledgeBase) -> None:
    state, _ = tell(kb, TWO_MARKS)
    out, messages = step(kb, state, Decide(2, "out"))
    assert (out.asking.what, out.asking.offered) == ("story", ("-", "out"))
    assert any("(left out)" in line for one in messages if isinstance(one, Points) for line in one.lines)
    assert step(kb, out, Undo())[0] == state
    sided, _ = step(kb, state, Decide(1, "chainplate play starboard"))
    assert sided.asking.offered[0] == "chainplate play starboard"


@pytest.mark.parametrize(
    "decided",
    [Decide(0, "out"), Decide(3, "out"), Decide(1, ""), Decide(1, "chainplate"), Decide(1, "chainplate tank_wet"),
     Decide(1, "chainplate play aft"), Decide(1, "chainplate play port port"), Decide(1, "nowhere play")],
)  # fmt: skip
def test_a_card_is_decided_only_as_it_can_be(kb: KnowledgeBase, decided: Decide) -> None:
    state, _ = tell(kb, TWO_MARKS)
    after, messages = step(kb, state, decided)
    assert after == state
    assert isinstance(messages[0], Refused)


def test_no_card_is_decided_where_no_story_is_told(kb: KnowledgeBase) -> None:
    state, _ = begin(kb, Survey(Boat("Wagtail"), ()))
    assert isinstance(step(kb, state, Decide(1, "out"))[1][0], Refused)


def test_a_card_can_be_changed(kb: KnowledgeBase) -> None:
    turn = step(kb, tell(kb, TWO_MARKS.replace("chainplate", "shroud anchor"))[0], Chose(2))
    turn = step(kb, turn[0], Chose(2))

    ended = to_the_end(kb, turn)[0].survey.findings
    assert next(one.sign for one in ended if one.zone == "chainplate") != "play"


def test_all_of_it_can_be_told_again(kb: KnowledgeBase) -> None:
    state, messages = tell(kb, TWO_MARKS)
    state, _ = step(kb, state, Chose(len(choices(messages))))

    assert state.asking.what == "describe"
    assert not state.survey.findings


@pytest.mark.parametrize(("answer", "recorded"), [(1, True), (2, False)])
def test_a_pass_is_kept_only_when_its_test_is_confirmed(kb: KnowledgeBase, answer: int, recorded: bool) -> None:
    state, messages = step(kb, tell(kb, WITH_PASS)[0], Chose(1))
    while state.asking.what in ("which", "whose"):
        state, messages = step(kb, state, Chose(1))

    assert state.asking.what == "tried"
    asked = next(one.text for one in messages if isinstance(one, Choices))
    assert "does not give" in asked
    assert "Press and compare" in asked
    while state.asking.what == "tried":
        state, _ = step(kb, state, Chose(answer))
    passes = [one.readings["panel_give"].low for one in state.survey.findings if one.sign == NOTHING_SEEN]
    assert passes == ([0] if recorded else [])


def test_one_mark_that_is_not_clear_is_asked_for_at_once(kb: KnowledgeBase) -> None:
    state, messages = tell(kb, "pinhead bumps")

    assert state.asking.what == "which"
    assert not state.survey.findings
    assert any("blister" in one for one in choices(messages))
    elsewhere, _ = step(kb, state, Chose(len(choices(messages))))
    assert elsewhere.asking.what == "place"


def test_what_a_size_was_taken_as_is_seen_before_it_is_kept(kb: KnowledgeBase) -> None:
    state, messages = tell(kb, "The lump out of the trailing edge is 30 mm deep. Something else is wrong with the bow.")
    for _ in range(4):
        if state.asking.what == "which":
            state, messages = step(kb, state, Chose(1))
            shown = [line for one in messages if isinstance(one, Points) for line in one.lines]
            sized = [line for line in shown if ": 30 mm." in line]
            assert not state.survey.findings or not any(one.readings for one in state.survey.findings) or sized
        elif state.asking.what == "story":
            state, messages = step(kb, state, Chose(1))


def test_sizes_come_with_the_mark(kb: KnowledgeBase) -> None:
    state, _ = to_the_end(kb, tell(kb, WITH_PASS))

    crack = next(one for one in state.survey.findings if one.sign != NOTHING_SEEN)
    assert crack.readings["crack_length"].said == "55 mm"


@pytest.mark.parametrize(
    ("pressed", "level"),
    [
        ("Pressed it, a quarter more than the other side", 2),
        ("I pressed it: it gives half as much again as its twin", 2),
        ("Pushed it, twice as much as the other side", 3),
        ("Pressed it, less than a quarter more than the other side", None),
    ],
)
def test_a_press_set_against_the_other_side_is_a_reading(kb: KnowledgeBase, pressed: str, level: int | None) -> None:
    (card,) = story_told(kb, f"There is a hairline on the foredeck. {pressed}.", ("foredeck hairline",)).cards

    answer = card.observed(kb).get("panel_give")
    assert level == (reading_of(kb.scales["panel_give"], answer).low if answer else None)


def test_a_question_in_the_story_is_answered(kb: KnowledgeBase) -> None:
    _, messages = to_the_end(kb, tell(kb, f"{TWO_MARKS} Can she sail?"))

    assert any(isinstance(one, Line) and ("ashore" in one.text or "sail" in one.text) for one in messages)


def test_it_can_be_taken_back_and_carried_on(kb: KnowledgeBase) -> None:
    state, _ = to_the_end(kb, tell(kb, TWO_MARKS))
    while state.undo:
        state, _ = step(kb, state, Undo())
    assert not state.survey.findings
    assert not state.survey.events

    told, _ = tell(kb, TWO_MARKS)
    again, known = resumed(kb, kept(told), told.means)
    assert known
    assert again.asking == told.asking


def test_a_decision_about_what_is_not_there_is_not_carried_on(kb: KnowledgeBase) -> None:
    told, _ = tell(kb, TWO_MARKS)
    for offered in (("nowhere play", "-"), ("-",), ("chainplate", "-")):
        odd = replace(told, asking=replace(told.asking, offered=offered))
        assert not resumed(kb, kept(odd), told.means)[1]


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ("we hit a rock today. the board has a split, it was there last year", {"foil_split": "it was so last season"}),
        (
            "a dent in the topside, it has been there for years. the toe strap is frayed",
            {"dent": "it was so last season", "strap_weak": ""},
        ),
        (
            "we hit a rock last year. the board has a split. the toe strap is frayed",
            {"foil_split": "", "strap_weak": ""},
        ),
    ],
)
def test_that_it_was_so_before_stays_with_its_mark(kb: KnowledgeBase, text: str, told: dict[str, str]) -> None:
    found = {card.sign: dict(card.readings(kb)).get("growth", "") for card in story_told(kb, text).cards}

    assert told == found


def test_a_mark_that_was_so_before_is_shown_with_that_before_it_is_kept(kb: KnowledgeBase) -> None:
    (card,) = story_told(kb, "a dent in the topside, it has been there for years").cards

    assert card.line(kb).endswith("It was so last season.")
    assert is_story(kb, "a dent in the topside, it has been there for years")


UNCLEAR = "There is something at the bow that wobbles. Alloy mast, 17 years old."
PLATE = (
    "The plate of the port shroud has cracks round it. The fitting lifts when I pull on it. It weeps. "
    "Nothing else is wrong."
)
CHIPS = "Chips along the gunwale on the port side, no fibres to be seen. Nothing gives when I squeeze it."


def test_where_no_mark_is_clear_the_first_is_asked_at_once_below_all_that_was_understood(kb: KnowledgeBase) -> None:
    state, messages = tell(kb, f"{UNCLEAR} We capsized.")

    assert (state.asking.what, state.asking.ask) == ("which", "0")
    shown = " ".join(line for one in messages if isinstance(one, Points) for line in one.lines)
    assert "capsized" in shown
    assert not state.survey.events


def test_more_about_a_mark_that_is_clear_comes_to_the_same_mark(kb: KnowledgeBase) -> None:
    state, _ = tell(kb, PLATE)
    state, messages = step(kb, state, Chose(1))
    assert (state.asking.what, state.asking.ask) == ("which", "1")
    again = next(n for n, one in enumerate(choices(messages), 1) if one.startswith("more of a, "))
    assert "Damp comes back within 48 hours." in choices(messages)[again - 1]

    state, _ = to_the_end(kb, step(kb, state, Chose(again)))

    (mark,) = state.survey.findings
    assert {scale: one.high for scale, one in mark.readings.items()} == {"fitting_play": 3, "wet_weep": 2}


def test_what_the_story_says_of_a_mark_comes_with_it_and_is_not_asked_again(kb: KnowledgeBase) -> None:
    state, messages = tell(kb, "There is a dent in the port topside. It is as firm as its twin.")
    shown = " ".join(line for one in messages if isinstance(one, Points) for line in one.lines)
    assert "It is as firm as a good place." in shown

    state, _ = to_the_end(kb, (state, messages))
    (mark,) = state.survey.findings
    assert mark.readings["panel_give"].high == 0
    while state.asking.what == "answer":
        assert state.asking.ask != "panel_give"
        state, _ = step(kb, state, Skip())


def test_an_adjective_in_a_story_passes_nothing(kb: KnowledgeBase) -> None:
    (card,) = story_told(
        kb, "I found an old repair on the port topside. It is flush and hard, and it is a bit fine."
    ).cards

    assert not card.readings(kb)


def test_no_list_of_marks_holds_one_twice(kb: KnowledgeBase) -> None:
    for text in (UNCLEAR, PLATE, CHIPS, "the sheave at the mast foot is jammed solid with sand"):
        _, messages = tell(kb, text)
        offered = choices(messages)
        assert len(set(offered)) == len(offered)


def test_the_side_of_what_is_clear_is_said_with_the_yes(kb: KnowledgeBase) -> None:
    state, messages = tell(kb, "The chainplate is loose by 2 mm. Can she sail?")
    starboard = next(n for n, one in enumerate(choices(messages), 1) if "starboard" in one)

    by_number, _ = step(kb, state, Chose(starboard))
    by_words, _ = step(kb, state, Said("on the starboard side"))
    asked, _ = step(kb, state, Said("yes"))

    assert [one.side for one in by_number.survey.findings] == ["starboard"]
    assert by_words.survey == by_number.survey
    assert asked.asking.what == "whose"
    assert not asked.survey.findings


def test_the_side_of_two_marks_at_one_place_is_asked_once(kb: KnowledgeBase) -> None:
    state, messages = tell(kb, "There is a dent in the topside. There is a deep scratch in the topside 30 cm long.")
    for _ in range(4):
        if state.asking.what == "whose" or "port" in " ".join(choices(messages)):
            break
        state, messages = step(kb, state, Chose(1))

    state, messages = step(kb, state, Said("port"))

    assert state.asking.what not in ("whose", "story")
    assert {one.side for one in state.survey.findings} == {"port"}


def test_a_test_told_without_its_place_may_be_said_of_a_mark(kb: KnowledgeBase) -> None:
    state, messages = tell(kb, "I found an old repair on the port topside. The hull next to it rings the same.")
    state, messages = to_the_end_of(kb, (state, messages), "tried")
    of_mark = next(n for n, one in enumerate(choices(messages), 1) if "I said it of this mark" in one)

    state, _ = step(kb, state, Chose(of_mark))

    (mark,) = state.survey.findings
    assert mark.zone == "topside"
    assert mark.readings["tap_dull"].high == 0


def to_the_end_of(kb: KnowledgeBase, turn: Turn, what: str) -> Turn:
    """The first choice to everything, until this is asked."""
    for _ in range(8):
        if turn[0].asking.what == what:
            return turn
        turn = step(kb, turn[0], Chose(1))
    raise AssertionError(f"{what} is never asked")


def test_another_place_in_a_story_is_said_in_words_and_loses_nothing_else(kb: KnowledgeBase) -> None:
    state, messages = tell(kb, "We capsized four times, and out of the drain plug I got an eggcup of water.")
    assert state.asking.what == "which"
    elsewhere = next(n for n, one in enumerate(choices(messages), 1) if one == "it is another place")

    still, said = step(kb, state, Chose(elsewhere))
    assert still.asking == state.asking
    assert any(isinstance(one, Line) and "in words" in one.text for one in said)

    state, messages = step(kb, still, Said("water in the closed space at the stern"))
    assert state.asking.what == "story"
    state, _ = to_the_end(kb, (state, messages))
    assert [one.zone for one in state.survey.marks] == ["end_tank"]
    assert [one.event for one in state.survey.events] == ["capsized"]


def test_a_place_that_was_refused_is_not_offered_again(kb: KnowledgeBase) -> None:
    state, messages = tell(kb, "The thwart has cracked where it joins the side tank")
    assert state.asking.what == "which"
    refused = {choice.zone for choice in story_told(kb, state.asking.text).cards[0].found.choices}
    elsewhere = choices(messages).index("it is another place") + 1

    state, _ = step(kb, state, Chose(elsewhere))

    assert state.asking.what == "place"
    assert state.asking.offered
    assert refused.isdisjoint(state.asking.offered)


def test_a_yes_to_several_marks_says_of_which_the_side_is(kb: KnowledgeBase) -> None:
    _, messages = tell(kb, "Crack along the gunwale on the port side. The trailer tyres are cracked.")
    sided = [one for one in choices(messages) if "left as you look forward" in one]

    assert len(sided) == 1
    assert "tyres" in sided[0]


def test_what_is_well_on_the_inside_is_no_reading_of_a_mark_outside(kb: KnowledgeBase) -> None:
    outside, same = (
        story_told(kb, f"The nose of the hull has a chip. {said}").cards[0] for said in ("Inside is dry.", "It is dry.")
    )

    assert "wet_weep" not in {scale for scale, _ in outside.readings(kb)}
    assert "wet_weep" in {scale for scale, _ in same.readings(kb)}


def test_words_that_name_no_place_are_first_taken_for_more_of_the_mark_before(kb: KnowledgeBase) -> None:
    told_more = "The port side deck has gone springy. I sat on it again this morning and it crackled like old straw."
    state, messages = tell(kb, told_more)
    while state.asking.what != "which":
        state, messages = step(kb, state, Chose(1))

    assert state.asking.ask == "1"
    assert choices(messages)[0].startswith("more of a, ")


def test_other_words_for_a_card_replace_what_was_decided_of_it(kb: KnowledgeBase) -> None:
    state, _ = tell(kb, "There is something wrong with the bottom end, it is chewed off. The slot gasket is torn.")
    change_the_first = Chose(2)
    state, _ = step(kb, state, change_the_first)
    state, _ = step(kb, state, Said("edges of the board slot: gouge to the fibre"))
    assert ["slot_rim", "slot_gasket"] == [
        card.zone for card in story_told(kb, state.asking.text, state.asking.offered).cards
    ]

    state, _ = step(kb, state, change_the_first)
    state, _ = step(kb, state, Said("centreboard, broken tip"))

    assert ["board", "slot_gasket"] == [
        card.zone for card in story_told(kb, state.asking.text, state.asking.offered).cards
    ]


@pytest.mark.parametrize("said", ["b", "B", "change or take out b"])
def test_a_mark_is_named_by_its_letter(kb: KnowledgeBase, said: str) -> None:
    turn = tell(kb, TWO_MARKS)

    state, _ = step(kb, turn[0], Said(said))

    assert ("which", "1") == (state.asking.what, state.asking.ask)
    lines = next(one.lines for one in turn[1] if isinstance(one, Points))
    assert ["a. ", "b. "] == [line[:3] for line in lines[:2]]


def test_a_letter_says_that_words_are_more_of_that_mark(kb: KnowledgeBase) -> None:
    state, _ = step(kb, tell(kb, PLATE)[0], Chose(1))

    state, _ = to_the_end(kb, step(kb, state, Said("a")))

    (mark,) = state.survey.findings
    assert {"fitting_play", "wet_weep"} == set(mark.readings)


def test_letters_go_on_after_z() -> None:
    assert ["a", "z", "aa", "bb"] == [story_screen.letter(place) for place in (0, 25, 26, 27)]


WITHOUT_A_MARK = (
    "The port chainplate is loose by 2 mm. The self bailer leaks even when it is shut. No cracks in the transom. "
    "The gunwale joint looks fine. I did not look inside the side tanks."
)


def test_what_is_well_not_there_or_not_looked_at_is_noted_and_no_reading(kb: KnowledgeBase) -> None:
    state, _ = to_the_end(kb, tell(kb, WITHOUT_A_MARK))

    for words in ("No cracks in the transom", "gunwale joint looks fine", "not look inside the side tanks"):
        assert words in state.survey.note
    assert {"bailer", "chainplate"} == {one.zone for one in state.survey.findings}
    brief = "\n".join(sharing.brief(assess_survey(state.survey, kb)))
    assert "No cracks in the transom" in brief


def test_what_was_noted_goes_with_the_step_that_is_taken_back(kb: KnowledgeBase) -> None:
    state, _ = tell(kb, "No cracks in the transom.")

    assert "No cracks in the transom" in state.survey.note
    assert not step(kb, state, Undo())[0].survey.note


def test_a_pass_that_was_not_tried_so_is_noted(kb: KnowledgeBase) -> None:
    state, _ = tell(kb, WITH_PASS)
    while state.asking.what != "tried":
        state, _ = step(kb, state, Chose(1))

    state, _ = step(kb, state, Said("no"))

    assert "does not give" in state.survey.note
    assert not any(one.zone == "cockpit_floor" for one in state.survey.findings)


def test_a_figure_that_judges_nothing_is_in_the_note_of_its_mark(kb: KnowledgeBase) -> None:
    state, _ = to_the_end(
        kb, tell(kb, "The rudder head is cracked, ends at approx 30 mm from the pintle. " + TWO_MARKS)
    )

    head = next(one for one in state.survey.findings if one.zone == "rudder_head")
    assert "30 mm from the pintle" in head.note


def test_the_question_which_mark_is_meant_quotes_its_words_however_long(kb: KnowledgeBase) -> None:
    long = "The rudder knocks and there is some water in the boat after a sail with my two sons and the dog on Sunday."

    state, messages = tell(kb, long)

    question = next(one.text for one in messages if isinstance(one, Choices))
    assert state.asking.what == "which"
    assert "“The rudder knocks and there is some water" in question
    assert question.endswith(" …”?")
