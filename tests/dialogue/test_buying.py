"""“Should I buy her?” in a conversation: answered by what was found, and nothing rests on money that nobody named."""

from __future__ import annotations

from triage.dialogue.events import Said
from triage.dialogue.messages import Line, Message
from triage.dialogue.step import begin, step
from triage.knowledge.model import KnowledgeBase
from triage.phrases.conversation import TELL_FIRST
from triage.survey.model import Boat, Finding, Survey


def told(kb: KnowledgeBase, *findings: Finding) -> str:
    state, _ = begin(kb, Survey(Boat("Wagtail"), findings))
    _, messages = step(kb, state, Said("should I buy her?"))
    return first_line(messages)


def first_line(messages: tuple[Message, ...]) -> str:
    return next(one.text for one in messages if isinstance(one, Line))


def test_a_mark_that_is_open_waits(kb: KnowledgeBase) -> None:
    said = told(kb, Finding("seam", "joint_bow", "joint_crack"))

    assert said.startswith("Wait: a check first")
    assert said.endswith("triage buy.")


def test_before_anything_was_told_there_is_no_advice(kb: KnowledgeBase) -> None:
    assert TELL_FIRST == told(kb)
