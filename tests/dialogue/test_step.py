"""A conversation as a pure step: nothing said breaks the survey, every step is taken back, and one can always leave."""

from __future__ import annotations

import ast
import json
from collections.abc import Iterable
from dataclasses import asdict, replace
from typing import TypeVar, get_args

import pytest
from hypothesis import assume, example, given, settings
from hypothesis import strategies as st

from tests.conftest import ROOT
from tests.dialogue.talking import WAGTAIL, talk
from tests.strategies import boats_with_findings
from triage.dialogue.answers import answers_to, askable
from triage.dialogue.events import (
    Answers,
    Change,
    Chose,
    Clear,
    Event,
    Finish,
    Focus,
    How,
    Marks,
    New,
    Remove,
    Said,
    Skip,
    Undo,
    Why,
)
from triage.dialogue.keeping import kept
from triage.dialogue.messages import (
    Asked,
    Choices,
    Ended,
    HowTo,
    Left,
    Line,
    Message,
    Noted,
    Points,
    Refused,
    Report,
    SoFar,
)
from triage.dialogue.state import DESCRIBE, MAX_UNDO, Asking, State, TakenBack, What
from triage.dialogue.step import begin, joined, present, step
from triage.errors import BadSurvey
from triage.knowledge.model import BUOYANCY, KnowledgeBase
from triage.survey.model import COULD_NOT_TELL, Boat, Finding, Reading, Survey
from triage.survey.read import checked, survey_from_text
from triage.survey.write import survey_text

MAST_WIRES = "crack where the mast wires bolt on, port side, about an inch"
SETTLED = (Said("three cracks side by side on the side deck"), Chose(1), Chose(1), Chose(1))
SENTENCES = (
    MAST_WIRES,
    "crack",
    "scratches on the topside",
    "dent in the foredeck",
    "water in the tank, 2 litres",
    "port side of the mast step is loose",
    "the bottom of the hull",
    "can I go out in light wind?",
    "could not tell",
    "yes",
    "still",
    "3 mm",
    "20 to 30 mm",
    "1 to 2",
    "2",
    "-5 mm",
    "firm",
    "no idea",
    "",
    "x" * 5001,
    "\x1b[2J",
    "\udcff",
    "wobbly-ish",
)


M = TypeVar("M")


def the(kind: type[M], messages: Iterable[Message]) -> M:
    (found,) = [one for one in messages if isinstance(one, kind)]
    return found


@st.composite
def events(draw: st.DrawFn, kb: KnowledgeBase, state: State) -> Event:
    """Anything a person may do, most of it to the point."""
    marks = [one.id for one in state.survey.findings] + ["nobody"]
    kind = draw(st.sampled_from(["chose", "chose", "chose", "said", "said", "mark", "change", "word"]))
    if kind == "chose":
        return Chose(draw(st.integers(0, 12)), draw(st.sampled_from([0, 0, 0, 2, 3])))
    if kind == "said":
        return Said(draw(st.sampled_from(SENTENCES)))
    if kind == "mark":
        named = draw(st.sampled_from(marks))
        return Remove(named) if draw(st.booleans()) else Focus(named)
    if kind == "change":
        scales = [scale.id for scale in kb.scales.values() if scale.observed]
        about = st.sampled_from([*kb.facts, BUOYANCY, "nothing", *scales])
        mark = draw(st.sampled_from(marks))
        if mark != "nobody":
            finding = next(one for one in state.survey.findings if one.id == mark)
            about = st.one_of(about, st.sampled_from(askable(kb, finding)))
        ask = draw(about)
        return Change(mark, ask) if draw(st.booleans()) else Clear(mark, ask)
    others: list[Event] = [Skip(), Why(), How(), Undo(), Remove(), New(), Marks(), Answers()]
    return draw(st.sampled_from(others))


def there_and_back(kb: KnowledgeBase, state: State) -> State:
    """Left, kept in a file, and taken up again."""
    again = survey_from_text(survey_text(kept(state)), kb)
    return begin(kb, replace(again, source=""), state.means)[0]


@settings(max_examples=20)
@given(data=st.data())
def test_whatever_is_done_the_survey_can_be_and_every_step_is_taken_back(
    kb: KnowledgeBase, data: st.DataObject
) -> None:
    boat, findings = data.draw(boats_with_findings(kb, most=2))
    state, _ = begin(kb, data.draw(st.sampled_from([WAGTAIL, Survey(boat, findings)])))
    for _ in range(data.draw(st.integers(1, 8))):
        event = data.draw(events(kb, state))
        after, messages = step(kb, state, event)
        state = replace(state, survey=replace(state.survey, asked=after.survey.asked))  # which is not taken back

        assert after.survey == checked(after.survey, kb)
        assert messages or event == Said("")
        if (after.survey, after.asking) != (state.survey, state.asking) and event != Undo():
            before, told = step(kb, after, Undo())
            assert (state.survey, state.asking, state.undo) == (before.survey, before.asking, before.undo)
            assert present(kb, before) == told[1:]
        state = after


@settings(max_examples=20)
@given(data=st.data())
def test_one_can_leave_anywhere_and_come_back_to_the_same(kb: KnowledgeBase, data: st.DataObject) -> None:
    boat, findings = data.draw(boats_with_findings(kb, most=2))
    state, _ = begin(kb, data.draw(st.sampled_from([WAGTAIL, Survey(boat, findings)])))
    for _ in range(data.draw(st.integers(1, 6))):
        state, _ = step(kb, state, data.draw(events(kb, state)))
    if (state.asking, state.undo, state.survey.findings != ()) == (DESCRIBE, (), True):
        return  # nothing was done, so nothing is left to come back to

    again = there_and_back(kb, state)

    assert state == again
    assert present(kb, state) == present(kb, again)
    event = data.draw(events(kb, state))
    assert step(kb, state, event) == step(kb, again, event)


@settings(max_examples=20)
@given(data=st.data())
def test_a_choice_means_what_stands_beside_its_number(kb: KnowledgeBase, data: st.DataObject) -> None:
    """At a question about any scale of any mark: what is recorded is the level whose words were shown."""
    _, (finding, *_) = data.draw(boats_with_findings(kb, most=1))
    scales = kb.applicable(finding.zone, finding.sign)
    assume(scales)  # what is plain to see asks for nothing
    scale = data.draw(st.sampled_from(scales))
    survey = Survey(Boat("Wagtail"), (replace(finding, readings={}),))
    state, messages = step(kb, State(survey), Change(finding.id, scale))
    shown = the(Asked, messages).choices
    number = data.draw(st.integers(1, len(shown)))

    after, told = step(kb, state, Chose(number))

    reading = after.survey.findings[0].readings[scale]
    if reading.high is None:
        assert COULD_NOT_TELL == shown[number - 1]
    else:
        assert shown[number - 1] in {words for _, words in kb.scales[scale].choices(reading.high)}
        assert f"Noted: {shown[number - 1]}." == the(Noted, told).text


def test_an_error_shows_the_same_choices_in_the_same_order(kb: KnowledgeBase) -> None:
    state, asked = talk(kb, Said(MAST_WIRES), Chose(1))
    choices = the(Asked, asked).choices

    for event in (Said("wobbly-ish"), Said("2"), Said("0"), Said("1 to 2"), Said("9 furlongs"), Chose(9), Chose(0)):
        after, told = step(kb, state, event)

        assert state == after
        refused = the(Refused, told)
        assert choices == refused.choices
        assert "0 =" not in f"{refused}"


def test_between_two_choices_is_an_answer_where_it_cannot_be_a_quantity(kb: KnowledgeBase) -> None:
    measured, _ = talk(kb, Said(MAST_WIRES), Chose(1))
    state, asked = step(kb, measured, Change(measured.asking.mark, "backing"))

    after, told = step(kb, state, Chose(3, 2))

    reading = after.survey.findings[0].readings["backing"]
    assert (0, 1) == (reading.low, reading.high)
    assert f"Noted: {', or '.join(the(Asked, asked).choices[1:3])}." == the(Noted, told).text
    vain = len(the(Asked, asked).choices)
    assert "two of its answers" in the(Refused, step(kb, state, Chose(1, vain))[1]).what
    assert "1 to 2 of what?" in the(Refused, step(kb, measured, Chose(1, 2))[1]).what
    assert "Noted:" in the(Noted, step(kb, measured, Chose(1, 2, pressed=True))[1]).text  # a button names no quantity


def test_the_second_observation_of_a_level_is_kept_and_reported_as_it_was_chosen(kb: KnowledgeBase) -> None:
    state, asked = talk(kb, Said(MAST_WIRES), Chose(1))
    _, moves, lifts, *_ = the(Asked, asked).choices[2:]

    first, _ = step(kb, state, Chose(4))
    second, told = step(kb, state, Chose(5))
    again = survey_from_text(survey_text(kept(second)).encode(), kb)
    _, report = step(kb, second, Finish())
    reported = [one.phrase for one in the(Report, report).assessment.findings[0].readings]

    assert (3, moves) == (played(first).high, played(first).said)
    assert (3, lifts) == (played(second).high, played(second).said)
    assert f"Noted: {lifts}." == the(Noted, told).text
    assert replace(again, source="") == kept(second)
    assert lifts in reported
    assert moves not in reported


@pytest.mark.parametrize("said", ["the fitting lifts", "it lifts", "It lifts a bit."])
def test_an_observation_is_heard_in_other_words(kb: KnowledgeBase, said: str) -> None:
    state, _ = talk(kb, Said(MAST_WIRES), Chose(1))

    assert "the fitting lifts" == played(step(kb, state, Said(said))[0]).said


@pytest.mark.parametrize(
    "said", ["it never lifts", "it does not lift", "I think it lifts", "it lifts and nothing moves"]
)
def test_what_may_mean_something_else_is_asked_back(kb: KnowledgeBase, said: str) -> None:
    state, _ = talk(kb, Said(MAST_WIRES), Chose(1))

    after, told = step(kb, state, Said(said))

    assert state.survey == after.survey
    assert the(Refused, told)


def played(state: State) -> Reading:
    """What was said of the movement of the first fitting."""
    return state.survey.findings[0].readings["fitting_play"]


def test_a_single_word_is_no_answer_unless_it_is_the_name_of_one(kb: KnowledgeBase) -> None:
    state, _ = talk(kb, Said(MAST_WIRES), Chose(1))
    state, _ = step(kb, state, Change(state.asking.mark, "crack_opening"))

    assert any(choice.startswith("one side moves") for choice in the(Asked, present(kb, state)).choices)
    for said in ("one", "it", "no", "yes", "nothing"):
        assert state == step(kb, state, Said(said))[0], said
    assert 0 == step(kb, state, Said("nothing changes"))[0].survey.findings[0].readings["crack_opening"].high


def test_could_not_tell_has_a_number_and_is_not_asked_again(kb: KnowledgeBase) -> None:
    _, asked = talk(kb, Said(MAST_WIRES), Chose(1))
    choices = the(Asked, asked).choices

    state, _ = talk(kb, Said(MAST_WIRES), Chose(1), Chose(len(choices)))

    assert COULD_NOT_TELL == choices[-1]
    assert state.survey == talk(kb, Said(MAST_WIRES), Chose(1), Skip())[0].survey
    assert state.survey.findings[0].readings["fitting_play"].high is None
    assert "fitting_play" != state.asking.ask


def test_a_mark_on_both_sides_is_two_marks(kb: KnowledgeBase) -> None:
    state, asked = talk(kb, Said("crack where the mast wires bolt on, an inch"))
    both = next(n for n, text in enumerate(the(Choices, asked).choices, 1) if "both" in text)

    after, told = step(kb, state, Chose(both))
    by_words, _ = step(kb, state, Said("both sides"))

    assert after.survey == by_words.survey
    assert ["port", "starboard"] == [one.side for one in after.survey.findings]
    assert all({"crack_length"} == set(one.readings) for one in after.survey.findings)
    assert "two marks" in the(Line, told[:1]).text
    assert state.survey == step(kb, after, Undo())[0].survey


def test_a_part_on_the_centreline_has_no_side(kb: KnowledgeBase) -> None:
    """Whatever was said about it: "the mast step is loose, port side of it"."""
    for zone in (zone for zone in kb.zones.values() if not zone.sided):
        sign = kb.offers[zone.id][0]
        state = State(WAGTAIL, Asking("confirm", text="loose", zone=zone.id, sign=sign, side="port"))

        after, _ = step(kb, state, Chose(1))

        assert [None] == [one.side for one in after.survey.findings], zone.id


def test_after_a_place_is_picked_the_mark_is_asked_for_before_anything_is_kept(kb: KnowledgeBase) -> None:
    state = State(WAGTAIL, Asking("place", text="something under the paint", offered=("topside",)))

    after, asked = step(kb, state, Chose(1))

    assert after.survey.findings == ()
    assert ("mark", "topside") == (after.asking.what, after.asking.zone)
    assert len(the(Choices, asked).choices) > 1


def test_another_place_is_offered_where_only_the_mark_is_shown(kb: KnowledgeBase) -> None:
    state = State(WAGTAIL, Asking("mark", text="something on the side deck", zone="side_deck"))
    choices = the(Choices, present(kb, state)).choices

    after, _ = step(kb, state, Said("it is another place"))

    assert "it is another place" == choices[-1]
    assert ("place", "") == (after.asking.what, after.asking.zone)
    assert "side_deck" not in after.asking.offered


def test_the_boat_can_be_gone_round_to_any_place_and_mark(kb: KnowledgeBase) -> None:
    state, _ = talk(kb, Said("hm"), Said("none of these"), Said(kb.walk[2].name), Chose(1))

    assert kb.walk[2].zones[0] == state.asking.zone
    assert "mark" == state.asking.what


def test_an_answer_is_corrected_and_taken_out_at_any_time_of_a_settled_mark_too(kb: KnowledgeBase) -> None:
    firm, ended = talk(kb, *SETTLED)
    mark = firm.survey.findings[0].id
    asking, asked = step(kb, firm, Change(mark, "panel_give"))
    soft, told = step(kb, asking, Chose(6))
    cleared, out = step(kb, soft, Clear(mark, "panel_give"))
    chosen, _ = step(kb, asking, Said("take the answer out"))

    assert the(Ended, ended).done.settled
    assert "firm" == the(Asked, asked).answered
    assert "Now structural; before, monitor." in the(Noted, told).change
    assert {} == cleared.survey.findings[0].readings == chosen.survey.findings[0].readings
    assert "taken out" in the(Noted, out).text


def test_a_fact_about_the_boat_is_answered_corrected_and_taken_out(kb: KnowledgeBase) -> None:
    state, _ = talk(kb, Said("dent in the foredeck"), Chose(1))
    mark = state.survey.findings[0].id

    known, _ = step(kb, step(kb, state, Change(mark, "deck"))[0], Chose(1))
    vain, _ = step(kb, step(kb, known, Change(mark, "deck"))[0], Said("no idea"))
    gone, _ = step(kb, vain, Clear(mark, "deck"))

    first = answers_to(kb, state.survey, mark, "deck")[0].said
    assert {"deck": first} == known.survey.boat.facts
    assert frozenset() == known.survey.boat.attempted
    assert {} == vain.survey.boat.facts
    assert {("deck", "")} == vain.survey.boat.attempted
    assert WAGTAIL.boat == gone.survey.boat


def test_a_mark_is_taken_out_and_put_back(kb: KnowledgeBase) -> None:
    before, _ = talk(kb, Said(MAST_WIRES), Chose(1), Chose(1))

    after, told = step(kb, before, Remove())
    back, _ = step(kb, there_and_back(kb, after), Undo())

    assert () == after.survey.findings
    assert "Shroud anchor on deck, port" in the(Line, told).text
    assert (before.survey, before.asking) == (back.survey, back.asking)


def test_words_ask_about_the_boat_at_every_prompt_and_change_no_answer(kb: KnowledgeBase) -> None:
    one, _ = talk(kb, *SETTLED)
    prompts = [one]
    for event in (New(), Said("crack"), Said("none of these"), Said(kb.walk[2].name), Chose(1), Answers(), Marks()):
        prompts.append(step(kb, prompts[-1], event)[0])

    for state in prompts:
        after, told = step(kb, state, Said("can I go out in light wind?"))
        assert "can I go out in light wind" == after.survey.asked
        assert state == replace(after, survey=replace(after.survey, asked="")), state.asking
        assert isinstance(told[0], Line)
        assert told[0].text.startswith(("Yes", "No", "Not yet")), state.asking
    assert {"ended", "describe", "place", "leg", "spot", "mark", "marks"} == {state.asking.what for state in prompts}


def test_why_and_how_are_told_at_a_question_and_only_there(kb: KnowledgeBase) -> None:
    question, _ = talk(kb, Said(MAST_WIRES), Chose(1))

    assert the(Points, step(kb, question, Why())[1]).lines
    assert the(HowTo, step(kb, question, How())[1]).how.steps
    for event in (Why(), How(), Skip(), Answers(), Remove(), Chose(1)):
        assert isinstance(talk(kb, event)[1][0], Refused), event
    assert "No mark is being talked about" in the(Refused, talk(kb, Remove())[1]).what


def test_deleting_with_no_mark_in_hand_asks_which(kb: KnowledgeBase) -> None:
    state, _ = talk(kb, Said(MAST_WIRES), Chose(1), Chose(1), New())

    after, told = step(kb, state, Remove())

    assert "marks" == after.asking.what
    assert "say “delete” again" in the(Line, told).text
    assert state.survey == after.survey


def test_how_a_check_is_done_is_told_once(kb: KnowledgeBase) -> None:
    state, first = talk(kb, Said(MAST_WIRES), Chose(1))
    state, _ = step(kb, state, Chose(1))
    _, again = step(kb, state, Change(state.asking.mark, "fitting_play"))

    assert the(Asked, first).explain
    assert not the(Asked, again).explain


def test_the_end_names_another_open_mark_and_the_ways_out(kb: KnowledgeBase) -> None:
    blade = Finding("blade", "rudder_blade", kb.offers["rudder_blade"][0])
    state, ended = begin(kb, replace(WAGTAIL, findings=(blade,)))
    for event in (New(), *SETTLED):
        state, ended = step(kb, state, event)
    choices = the(Ended, ended).choices

    assert kb.zones["rudder_blade"].name in choices[2]
    assert "blade" == step(kb, state, Chose(3))[0].asking.mark
    assert isinstance(step(kb, state, Chose(1))[1][0], Report)
    assert isinstance(step(kb, state, Chose(4))[1][0], Left)
    assert isinstance(step(kb, state, Finish())[1][0], Report)


def test_a_survey_that_was_written_by_hand_is_taken_up_at_its_first_open_mark(kb: KnowledgeBase) -> None:
    plate = Finding("plate", "chainplate", "fastener_cracks", "port")

    state, messages = begin(kb, replace(WAGTAIL, findings=(plate,)))

    assert ("answer", "plate") == (state.asking.what, state.asking.mark)
    assert (
        SoFar(
            "Wagtail",
            ("Shroud anchor on deck, port: Cracks from a fitting. Can't tell yet: between monitor and structural.",),
        )
        == messages[0]
    )


@pytest.mark.parametrize(
    "left",
    [
        {"asking": {"what": "answer", "mark": "nobody", "ask": "fitting_play"}},
        {"asking": {"what": "answer", "mark": "plate", "ask": "cloth_state"}},
        {"asking": {"what": "confirm", "zone": "nowhere", "sign": "dent"}},
        {"asking": {"what": "spot", "ask": "nowhere"}},
        {"asking": {"what": "mark", "zone": "chainplate", "offered": ["nothing"]}},
        {"asking": {"what": "place", "text": "\x07turned round"}},
    ],
    ids=str,
)
def test_what_cannot_be_asked_any_more_is_let_go(kb: KnowledgeBase, left: dict[str, object]) -> None:
    plate = Finding("plate", "chainplate", "fastener_cracks", "port")
    survey = replace(WAGTAIL, findings=(plate,))

    assert begin(kb, survey) == begin(kb, replace(survey, conversation=left))


def test_what_cannot_be_asked_any_more_leaves_the_steps_that_can_be_taken_back(kb: KnowledgeBase) -> None:
    state, _ = talk(kb, Said(MAST_WIRES), Chose(1))
    left = kept(state)

    again, _ = begin(kb, replace(left, conversation={**left.conversation, "asking": {"what": "ended", "mark": "?"}}))

    assert state.undo == again.undo
    assert "answer" == again.asking.what


WORDS = st.sampled_from(["plate", "nobody", "", "fitting_play", "deck", "cloth_state", "chainplate", "sails", BUOYANCY])
ASKED = st.fixed_dictionaries(
    {"what": st.sampled_from(get_args(What))},
    optional={
        **dict.fromkeys(("mark", "ask", "text", "zone"), WORDS),
        "sign": st.sampled_from(["dent", "fastener_cracks", "no sign"]),
        "side": st.sampled_from(["", "port", "both", "unknown"]),
        "offered": st.lists(st.sampled_from(["chainplate", "dent", "nothing"]), max_size=2),
        "sized": st.sampled_from(["yes", "no"]),
    },
)
EDITS = st.fixed_dictionaries(
    {"do": st.sampled_from(["add mark", "remove mark", "set reading", "set fact", "name boat"])},
    optional={
        **dict.fromkeys(("mark", "ask", "zone"), WORDS),
        "said": st.one_of(st.none(), st.sampled_from(["still", "single", "yes", "", "9"])),
        "finding": st.sampled_from([None, {"zone": "chainplate", "sign": "dent"}, {"zone": "x", "sign": "y"}]),
    },
)
LEFT = st.fixed_dictionaries(
    {"asking": ASKED},
    optional={
        "undo": st.lists(st.fixed_dictionaries({"asking": ASKED}, optional={"edits": st.lists(EDITS, max_size=2)}))
    },
)


@settings(max_examples=50)
@example(
    left={
        "asking": {"what": "describe"},
        "undo": [{"asking": {"what": "marks"}, "edits": [{"do": "name boat", "said": None}]}],
    },
    event=Why(),
)
@example(left={"asking": {"what": "marks", "mark": "nobody"}}, event=Answers())
@example(left={"asking": {"what": "whose", "text": "sails"}}, event=Said(MAST_WIRES))
@example(left={"asking": {"what": "mark", "zone": "chainplate", "sign": "no sign"}}, event=Said(MAST_WIRES))
@given(left=LEFT, event=st.sampled_from([Said(MAST_WIRES), Chose(1), Why(), How(), Skip(), Marks(), Answers()]))
def test_whatever_a_file_says_was_left_it_can_be_taken_up_and_back(
    kb: KnowledgeBase, left: dict[str, object], event: Event
) -> None:
    """A file may have been written by hand, or with other rules."""
    plate = Finding("plate", "chainplate", "fastener_cracks", "port")
    try:
        survey = survey_from_text(survey_text(replace(WAGTAIL, findings=(plate,), conversation=left)), kb)
    except BadSurvey:
        return

    state, _ = begin(kb, replace(survey, source=""))
    for one in (event, *[Undo()] * (len(state.undo) + 1)):
        state, messages = step(kb, state, one)

        assert messages
        assert state.survey == checked(state.survey, kb)


def test_a_step_that_cannot_be_taken_back_any_more_is_let_go_with_a_word(kb: KnowledgeBase) -> None:
    state, _ = talk(kb, Said(MAST_WIRES), Chose(1))
    other = joined(kb, state, WAGTAIL)  # somebody else took the mark out

    after, told = step(kb, other, Undo())

    assert DESCRIBE == other.asking
    assert "cannot be taken back" in the(Line, told).text
    assert state.undo[:-1] == after.undo


def test_so_many_steps_can_be_taken_back_and_no_more(kb: KnowledgeBase) -> None:
    asking = Asking("confirm", text="dent", zone="foredeck", sign="dent")
    state = State(WAGTAIL, DESCRIBE, (TakenBack(asking),) * MAX_UNDO)

    after, _ = step(kb, state, Said("scratches on the topside"))

    assert MAX_UNDO == len(after.undo)
    assert TakenBack(DESCRIBE) == after.undo[-1]


def test_messages_are_ready_for_a_screen(kb: KnowledgeBase) -> None:
    state, messages = begin(kb, WAGTAIL)
    for event in (Said(MAST_WIRES), Chose(1), Why(), How(), Chose(2), Said("nonsense"), Undo(), Marks()):
        assert json.dumps([asdict(message) for message in messages])
        state, messages = step(kb, state, event)


MEASURES = {
    "a bend": ("mast_low", "spar_bend", "spar_true", "14 mm over 1.7 m of mast", (3, 3)),
    "lost motion": ("rudder_fittings", "worn_bush", "slop", "at most 2 degrees", (0, 2)),
    "screws": ("rudder_fittings", "play", "fastener_grip", "two of six spin", (3, 3)),
    "water": ("side_tank", "tank_wet", "tank_water", "half a litre", (1, 1)),
}


@pytest.mark.parametrize(("zone", "sign", "ask", "said", "levels"), MEASURES.values(), ids=MEASURES)
def test_an_answer_may_be_told_as_people_have_it(
    kb: KnowledgeBase, zone: str, sign: str, ask: str, said: str, levels: tuple[int, int]
) -> None:
    survey = Survey(Boat("Wagtail"), (Finding("f", zone, sign),))

    after, _ = step(kb, State(survey, Asking("answer", "f", ask)), Said(said))

    reading = after.survey.findings[0].readings[ask]
    assert (said, *levels) == (reading.said, reading.low, reading.high)


def test_half_of_a_pair_is_refused_with_the_whole(kb: KnowledgeBase) -> None:
    survey = Survey(Boat("Wagtail"), (Finding("f", "rudder_fittings", "worn_bush"),))

    _, messages = step(kb, State(survey, Asking("answer", "f", "slop")), Said("9 mm"))

    (refused,) = messages
    assert isinstance(refused, Refused)
    assert "9 mm at the tip 600 mm from the pin" in refused.hint


def test_the_dialogue_knows_no_terminal_no_clock_and_no_file() -> None:
    for module in sorted((ROOT / "triage" / "dialogue").glob("*.py")):
        tree = ast.parse(module.read_text(encoding="utf-8"))
        known = {name.name for node in ast.walk(tree) if isinstance(node, ast.Import) for name in node.names}
        known |= {str(node.module) for node in ast.walk(tree) if isinstance(node, ast.ImportFrom)}
        calls = {
            node.func.id for node in ast.walk(tree) if isinstance(node, ast.Call) and isinstance(node.func, ast.Name)
        }

        assert not {"click", "sys", "os", "time", "datetime", "pathlib", "random", "triage.survey.store"} & known
        assert not {"print", "input", "open"} & calls, module


def test_a_figure_beside_a_described_mark_is_a_reading_by_the_words_beside_it(kb: KnowledgeBase) -> None:
    state, _ = talk(kb, Said("there is play at the mast step, the mast shifts a quarter inch side to side"), Chose(1))

    (mark,) = state.survey.findings
    assert mark.readings["fitting_play"].said.startswith("6.35 mm")
