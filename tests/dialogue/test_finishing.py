"""A report wanted in the middle of a story: no mark is lost, and none is kept that nobody has said to be right."""

from __future__ import annotations

import pytest

from triage.dialogue.events import Chose, Event, Finish, Keep, Remove, Said, Skip
from triage.dialogue.messages import Line, Message, Refused, Report
from triage.dialogue.state import State
from triage.dialogue.step import begin, step
from triage.knowledge.model import KnowledgeBase
from triage.survey.model import Boat, Survey

TWO_SIDED = "The chainplate is loose by 2 mm. There is a dent in the topside, it has been there for years."
ONE = "crack where the mast wires bolt on, an inch"


def talk(kb: KnowledgeBase, *said: Event) -> tuple[State, tuple[Message, ...]]:
    state, messages = begin(kb, Survey(Boat("Wagtail"), ()))
    for event in said:
        state, messages = step(kb, state, event)
    return state, messages


@pytest.mark.parametrize(("text", "marks"), [(TWO_SIDED, 2), (ONE, 1)])
def test_a_mark_that_only_wants_its_side_is_kept_without_one_and_said_so(
    kb: KnowledgeBase, text: str, marks: int
) -> None:
    shown, _ = talk(kb, Said(text))
    asked, _ = step(kb, shown, Keep())
    assert asked.asking.what in ("side", "whose")
    assert not asked.survey.findings

    finished, messages = step(kb, asked, Finish())

    assert [one.side for one in finished.survey.findings] == [None] * marks
    said = [one.text for one in messages if isinstance(one, Line)]
    assert sum("nobody has said on which side" in one for one in said) == marks
    assert isinstance(messages[-1], Report)
    assert len(messages[-1].assessment.findings) == marks


@pytest.mark.parametrize("text", [TWO_SIDED, ONE, "pinhead bumps"])
def test_what_nobody_has_said_to_be_right_is_asked_about_before_the_report(kb: KnowledgeBase, text: str) -> None:
    shown, _ = talk(kb, Said(text))

    still, (refused,) = step(kb, shown, Finish())

    assert still == shown
    assert isinstance(refused, Refused)
    assert text.split(".")[0] in refused.what
    left_out, _ = step(kb, shown, Remove())
    assert not left_out.survey.findings
    assert left_out.asking.what == "describe"


def test_a_side_that_nobody_knows_is_skipped_like_any_question(kb: KnowledgeBase) -> None:
    asked, _ = talk(kb, Said(TWO_SIDED), Keep())
    assert asked.asking.what == "whose"

    skipped, _ = step(kb, step(kb, asked, Skip())[0], Said("could not tell"))

    assert [one.side for one in skipped.survey.findings] == [None, None]


def test_a_pass_that_is_not_confirmed_passes_nothing_when_it_is_skipped(kb: KnowledgeBase) -> None:
    story = "There is a crack 55 mm long where the centreboard case meets the floor. I stood on the cockpit floor and "
    state, _ = talk(kb, Said(f"{story}it does not give."), Chose(1))
    assert state.asking.what == "tried"

    after, _ = step(kb, state, Skip())

    assert len(after.survey.findings) == 1
