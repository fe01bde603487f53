"""The same listener at every prompt: answers in a sentence, more than was asked, corrections, commands, questions."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.dialogue.talking import WAGTAIL, talk
from tests.laws.ranges import shipped
from triage.dialogue.events import Change, Chose, Event, New, Said, Undo
from triage.dialogue.messages import Asked, Choices, HowTo, Line, Message, Noted, Points, Refused
from triage.dialogue.state import Asking, State
from triage.dialogue.step import step
from triage.knowledge.model import KnowledgeBase
from triage.survey.model import Boat, Finding, Survey
from triage.survey.read import checked

CRACK = (Said("crack where the mast wires bolt on, port side"), Chose(1))
LONG = (*CRACK, Said("it's 5 cm long"))
DENT = (Said("dent in the foredeck"), Chose(1))


def words(messages: tuple[Message, ...]) -> str:
    """All that is said, prompts left out."""
    told = [one for one in messages if isinstance(one, (Line, Noted, Points, Refused))]
    return " ".join(f"{one}" for one in told)


def mark(state: State) -> Finding:
    (found,) = state.survey.findings
    return found


@pytest.mark.parametrize(
    ("said", "readings"),
    [
        ("about a hand long and it weeps", {"crack_length": 3, "wet_weep": 2}),
        ("the fitting lifts, and the crack is less than 3 cm long", {"fitting_play": 3, "crack_length": 1}),
        ("well it knocks mate, and it's two inches long", {"fitting_play": 3, "crack_length": 2}),
        ("yeah it lifts when I pull on it", {"fitting_play": 3}),
        ("no it doesn't move", {"fitting_play": 0}),
        ("Nothing moves. The line is 40mm long", {"fitting_play": 0, "crack_length": 1}),
        ("its 2mm of play and damp comes back", {"fitting_play": 3, "wet_weep": 2}),
    ],
)
def test_a_sentence_answers_what_is_asked_and_more(kb: KnowledgeBase, said: str, readings: dict[str, int]) -> None:
    before, _ = talk(kb, *CRACK)

    after, messages = step(kb, before, Said(said))

    assert {scale: one.high for scale, one in mark(after).readings.items()} == readings
    for scale in readings:
        assert kb.scales[scale].name in words(messages) or len(readings) == 1
    assert step(kb, after, Undo())[0].survey == before.survey


def test_what_judges_nothing_stays_with_the_mark_in_its_words(kb: KnowledgeBase) -> None:
    before, _ = talk(kb, *CRACK)

    after, messages = step(kb, before, Said("it is 60 mm long, five of them side by side over there"))

    assert mark(after).readings["crack_length"].said == "60 mm"
    assert "five of them side by side" in mark(after).note
    assert "kept as a note" in words(messages)
    assert step(kb, after, Undo())[0].survey == before.survey


def test_a_size_that_does_not_answer_is_kept_in_its_words_and_the_question_asked_again(kb: KnowledgeBase) -> None:
    dent, _ = talk(kb, *DENT)
    before, _ = step(kb, dent, Change(mark(dent).id, "panel_give"))

    after, messages = step(kb, before, Said("it pops in about 6 mm and back out"))

    assert after.asking == before.asking
    assert not mark(after).readings
    assert mark(after).note.endswith("it pops in about 6 mm and back out")
    assert "kept as a note" in words(messages)
    assert isinstance(step(kb, before, Said("6 kg"))[1][0], Refused)


def test_what_bounds_a_size_is_kept(kb: KnowledgeBase) -> None:
    state, _ = talk(kb, *CRACK, Said("it moves, and the crack is less than 3 cm long"))

    assert (mark(state).readings["crack_length"].low, mark(state).readings["crack_length"].high) == (0, 1)


@pytest.mark.parametrize(
    ("said", "now"),
    [
        ("no, it's 8 cm not 5", "80 mm"),
        ("sorry, 8 cm", "80 mm"),
        ("I was wrong about the length, it's 8 cm", "80 mm"),
        ("the length should be 8cm", "80 mm"),
        ("oops I measured again, 8 cm long", "80 mm"),
        ("actually the crack is 8 centimetres long", "80 mm"),
        ("8 cm rather than 5 cm", "80 mm"),
    ],
)
@pytest.mark.parametrize("then", [(), (New(),), (Said("it lifts"),)])
def test_a_size_is_put_right(kb: KnowledgeBase, said: str, now: str, then: tuple[Event, ...]) -> None:
    state, messages = talk(kb, *LONG, *then, Said(said))

    assert mark(state).readings["crack_length"].said == now
    assert "80 mm" in words(messages)
    assert "fitting_play" not in mark(state).readings or then == (Said("it lifts"),)


@pytest.mark.parametrize(
    "said",
    ["no, it was the other side", "it's on the starboard side not port", "I got the side wrong, it is starboard",
     "sorry wrong side", "No. Starboard.", "its the right hand side, i was wrong"],
)  # fmt: skip
@pytest.mark.parametrize("then", [(), (New(),), (Said("it lifts"),)])
def test_a_side_is_put_right_and_what_was_answered_stays(kb: KnowledgeBase, said: str, then: tuple[Event, ...]) -> None:
    before, _ = talk(kb, *LONG, *then)

    after, messages = step(kb, before, Said(said))

    assert mark(after).side == "starboard"
    assert mark(after).readings == mark(before).readings
    assert "starboard" in words(messages)
    assert step(kb, after, Undo())[0].survey == before.survey


@pytest.mark.parametrize(
    "said", ["the other side is fine", "the starboard one is still", "is it the same on the other side?"]
)
def test_a_word_about_the_other_side_moves_nothing(kb: KnowledgeBase, said: str) -> None:
    before, _ = talk(kb, *LONG)

    assert step(kb, before, Said(said))[0].survey == before.survey


def test_a_part_in_the_middle_has_no_other_side(kb: KnowledgeBase) -> None:
    state, messages = talk(kb, *DENT, Said("no, it was the other side"))

    assert mark(state).side is None
    assert "only one of that part" in words(messages)


@pytest.mark.parametrize(
    "said",
    ["I was wrong about the length", "got the length wrong", "the length was wrong, sorry", "I misread the length"],
)
def test_what_was_wrong_is_asked_anew(kb: KnowledgeBase, said: str) -> None:
    state, messages = talk(kb, *LONG, Said(said))

    assert state.asking.ask == "crack_length"
    assert next(one for one in messages if isinstance(one, Asked)).answered == "50 mm"


def test_where_nobody_knows_what_was_wrong_it_is_asked(kb: KnowledgeBase) -> None:
    state, _ = talk(kb, *LONG, Said("it lifts"), Said("I made a mistake"))

    assert state.asking.what == "answers"


@pytest.mark.parametrize(
    "said",
    ["I was wrong, it is the mast step", "sorry, it's the mast step", "no, its the mast step not the shroud anchor"],
)
def test_another_place_is_shown_first_and_stands_in_place_of_the_first(kb: KnowledgeBase, said: str) -> None:
    before, _ = talk(kb, *LONG)

    shown, messages = step(kb, before, Said(said))
    after, _ = step(kb, shown, Chose(1))

    assert shown.survey == before.survey
    assert "In place of: Shroud anchor on deck, port" in words(messages)
    assert (mark(after).zone, mark(after).sign) == ("mast_step", "fastener_cracks")
    assert mark(after).readings == mark(before).readings
    assert step(kb, after, Undo())[0].survey == before.survey


@pytest.mark.parametrize(
    "said",
    ["delete that", "please remove it", "oh, scrap that one", "take that out", "Forget this one.", "get rid of it"],
)
def test_a_mark_is_taken_out_in_words(kb: KnowledgeBase, said: str) -> None:
    before, _ = talk(kb, *LONG)

    after, messages = step(kb, before, Said(said))

    assert not after.survey.findings
    assert "is taken out" in words(messages)
    assert step(kb, after, Undo())[0].survey == before.survey


@pytest.mark.parametrize(
    "said", ["go back", "undo that please", "oops", "take that back", "sorry, wrong button", "Back up"]
)
def test_a_step_is_taken_back_in_words(kb: KnowledgeBase, said: str) -> None:
    before, _ = talk(kb, *CRACK)
    after, _ = step(kb, before, Said("it lifts"))

    assert step(kb, after, Said(said))[0].survey == before.survey


@pytest.mark.parametrize("said", ["delete that", "never mind that one", "leave it out"])
@pytest.mark.parametrize(
    "told", ["crack where the mast wires bolt on", "The bailer leaks. The port chainplate is loose."]
)
def test_what_is_not_kept_yet_is_dropped(kb: KnowledgeBase, said: str, told: str) -> None:
    state, messages = talk(kb, Said(told), Said(said))

    assert (state.asking.what, state.survey) == ("describe", WAGTAIL)
    assert "Nothing of it was kept" in words(messages)


@pytest.mark.parametrize(
    ("said", "kind"),
    [
        ("how do I check that?", HowTo),
        ("why do you ask", Points),
        ("show me how", HowTo),
        ("Why does it matter?", Points),
    ],
)
def test_how_and_why_are_asked_in_words(kb: KnowledgeBase, said: str, kind: type[Message]) -> None:
    state, messages = talk(kb, *CRACK, Said(said))

    assert isinstance(messages[0], kind)
    assert state.asking.ask == "fitting_play"


@pytest.mark.parametrize("said", ["skip that", "pass", "next question please", "ask me later"])
def test_a_question_is_skipped_in_words(kb: KnowledgeBase, said: str) -> None:
    assert talk(kb, *CRACK, Said(said))[0].asking.ask != "fitting_play"


@pytest.mark.parametrize(
    ("said", "answer"),
    [
        ("is it safe?", "Not yet"),
        ("so can I sail her", "Not yet"),
        ("will it cost much?", "hours"),
        ("how bad is it", "Not cleared"),
        ("Is she safe to sail", "Not yet"),
    ],
)
def test_a_question_is_answered_at_a_question(kb: KnowledgeBase, said: str, answer: str) -> None:
    before, _ = talk(kb, *CRACK)

    after, messages = step(kb, before, Said(said))

    assert answer in words(messages)
    assert before == replace(after, survey=replace(after.survey, asked=""))


def test_a_question_beside_an_answer_is_answered_too(kb: KnowledgeBase) -> None:
    state, messages = talk(kb, *CRACK, Said("it lifts, can I sail her?"))

    assert mark(state).readings["fitting_play"].high == 3
    assert "No: she stays ashore" in words(messages)


def test_what_happened_and_what_she_is_are_taken_beside_an_answer(kb: KnowledgeBase) -> None:
    state, messages = talk(kb, *CRACK, Said("Nothing moves. We hit a rock last week. The mast is alloy."))

    assert [one.event for one in state.survey.events] == ["hit_bottom"]
    assert state.survey.boat.facts == {"spar": "alloy"}
    assert "hit a rock" in words(messages)
    assert "aluminium" in words(messages)


@pytest.mark.parametrize(
    "said", ["the bung in the transom is missing", "it doesn't move, and there is a split in the rudder blade"]
)
def test_another_mark_is_shown_and_never_taken_for_an_answer(kb: KnowledgeBase, said: str) -> None:
    state, messages = talk(kb, *CRACK, Said(said))

    assert state.asking.what in ("story", "which")
    assert len(state.survey.findings) == 1
    assert "another mark" in words(messages)


def test_a_part_that_carries_main_loads_is_never_passed_in_passing(kb: KnowledgeBase) -> None:
    state, messages = talk(
        kb, *CRACK, Change("chainplate.port.fastener_cracks", "crack_length"), Said("3 cm long and nothing moves")
    )

    assert set(mark(state).readings) == {"crack_length"}
    assert state.asking.ask == "fitting_play"
    assert "asked by itself" in words(messages)


def test_what_is_not_understood_is_quoted_back(kb: KnowledgeBase) -> None:
    state, messages = talk(kb, *CRACK, Said("it lifts, and my uncle keeps bees"))

    assert mark(state).readings["fitting_play"].high == 3
    assert "my uncle keeps bees" in words(messages)


def test_a_figure_that_measures_nothing_here_is_left_out(kb: KnowledgeBase) -> None:
    state, messages = talk(kb, *CRACK, Said("it lifts and 3 litres came out"))

    assert set(mark(state).readings) == {"fitting_play"}
    assert "3 litres" in words(messages)


@pytest.mark.parametrize("said", ["yes, that's it", "correct", "yep", "spot on"])
def test_what_is_shown_is_agreed_to_in_words(kb: KnowledgeBase, said: str) -> None:
    assert len(talk(kb, CRACK[0], Said(said))[0].survey.findings) == 1


@pytest.mark.parametrize(
    ("said", "zone", "side"),
    [
        ("no, starboard", "chainplate", "starboard"),
        ("it's the other side", "chainplate", "starboard"),
        ("no, it's the mast step", "mast_step", "port"),
    ],
)
def test_what_is_shown_is_put_right_in_words(kb: KnowledgeBase, said: str, zone: str, side: str) -> None:
    state, _ = talk(kb, CRACK[0], Said(said))

    assert not state.survey.findings
    assert (state.asking.what, state.asking.zone, state.asking.side) == ("confirm", zone, side)


def test_a_card_is_chosen_and_a_side_told_in_words(kb: KnowledgeBase) -> None:
    state, messages = talk(
        kb, Said("The chainplate is loose by 2 mm. The self bailer leaks even when it is shut."), Said("yes")
    )
    for _ in range(6):
        if state.asking.what == "whose":
            state, messages = step(kb, state, Said("on the starboard side"))
        elif state.asking.what == "which":
            state, messages = step(kb, state, Chose(1))

    assert {"starboard"} == {one.side for one in state.survey.findings if one.zone == "chainplate"}
    assert not any(isinstance(one, Refused) for one in messages)


PIECES = st.lists(
    st.sampled_from([
        "no,", "it's", "8 cm", "not 5", "the other side", "it lifts", "I was wrong", "port",
        "about the length", "and", "it weeps",
        "delete", "that", "go", "back", "2 mm deep", "nothing moves", "sorry",
        "can I sail?", "the mast step", "a hand long", "\n",
    ]),
    max_size=7,
)  # fmt: skip


@settings(max_examples=25)
@given(PIECES, st.sampled_from([CRACK, LONG, DENT, (*LONG, New()), (*LONG, Said("it lifts")), CRACK[:1]]))
def test_whatever_is_said_the_survey_can_be_and_what_changes_is_said_back(
    pieces: list[str], before: tuple[Event, ...]
) -> None:
    kb = shipped()
    state, _ = talk(kb, *before)

    after, messages = step(kb, state, Said(" ".join(pieces)))
    asked = after.survey.asked  # what is asked of the boat is kept, and is nothing to take back
    state = replace(state, survey=replace(state.survey, asked=asked))

    assert checked(after.survey, kb) == after.survey
    assert (after.survey == state.survey) or any(isinstance(one, (Noted, Points, Line)) for one in messages)
    assert (
        (after.survey, after.asking) == (state.survey, state.asking)
        or replace(step(kb, after, Undo())[0].survey, asked=asked) == state.survey
        or "taken back" in words(messages)
    )
    assert messages or not " ".join(pieces).strip()
    assert not any(isinstance(one, Choices) and not one.text for one in messages)


def test_an_answer_that_is_not_plain_is_met_with_the_nearest(kb: KnowledgeBase) -> None:
    survey = Survey(Boat("Wagtail"), (Finding("f", "foredeck", "soft_panel"),))
    state = State(survey, Asking("answer", "f", "panel_give"))

    after, messages = step(kb, state, Said("Gives a bit if you lean on it."))

    (refused,) = messages
    assert isinstance(refused, Refused)
    assert state.survey == after.survey
    assert refused.hint.startswith("Nearest to it: “it gives a little more than a good place” or “")
    assert "it gives a little more than a good place" in refused.choices
