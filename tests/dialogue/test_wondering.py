"""What people ask beside the marks is answered at any prompt, and nothing of a story is lost to a question in it."""

from __future__ import annotations

import pytest

from tests.laws.ranges import shipped
from triage.dialogue.events import Said
from triage.dialogue.step import begin, step
from triage.dialogue.stories import is_story, told
from triage.dialogue.wondering import answer_to
from triage.listening.understand import asked_for
from triage.survey.asked import asked_about
from triage.survey.model import Boat, Finding, Reading, Survey

CRACK = Survey(Boat("Wagtail"), (Finding("a", "joint_bow", "joint_crack", None, {"joint_gap": Reading.at(2)}),))


@pytest.mark.parametrize(
    ("asked", "question", "words"),
    [
        ("may she sail?", "afloat", "No"),
        ("how much will it cost?", "cost", "hours"),
        ("how do I mend it", "mend", "The joint is opened"),
        ("what caused it?", "cause", "It may have been: "),
        ("should I buy her?", "decision", "triage buy"),
        ("how bad is it", "verdict", "Structural"),
        ("who can fix it", "hands", "repairer"),
    ],
)
def test_each_question_has_an_answer(asked: str, question: str, words: str) -> None:
    kb = shipped()

    assert question == asked_for(kb, asked)
    assert words in " ".join(answer_to(kb, CRACK, "a", question))


def test_nothing_is_said_before_something_was_told() -> None:
    (told_first,) = answer_to(shipped(), Survey(Boat("Wagtail"), ()), "", "cost")

    assert "tell me first" in told_first


def test_a_mark_is_not_lost_to_the_question_behind_it() -> None:
    story = "the bow seam has a crack 80 mm long, how much will it cost"

    assert is_story(shipped(), story)
    assert ("cost",) == told(shipped(), story).questions
    assert not is_story(shipped(), "how much will it cost")


@pytest.mark.parametrize(
    ("words", "asked"),
    [
        ("may she sail?", ("afloat",)),
        ("the bow seam has a crack 80 mm long, how much will it cost", ("cost",)),
        ("foil goes in over 80 mm", ()),
    ],
)
def test_what_was_asked_stays_in_the_survey_for_the_report(words: str, asked: tuple[str, ...]) -> None:
    kb = shipped()
    state, _ = begin(kb, CRACK)

    state, _ = step(kb, state, Said(words))

    assert asked == asked_about(kb, state.survey.asked)
