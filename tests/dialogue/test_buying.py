"""“Should I buy her?” in a conversation: answered by what was found, and nothing rests on money that nobody named."""

from __future__ import annotations

from triage.dialogue.events import Said
from triage.dialogue.messages import Line, Message
from triage.dialogue.step import begin, step
from triage.dialogue.wondering import answer_to
from triage.knowledge.model import KnowledgeBase
from triage.survey.model import Boat, Finding, Reading, Survey


def told(kb: KnowledgeBase, *findings: Finding) -> str:
    state, _ = begin(kb, Survey(Boat("Wagtail"), findings))
    _, messages = step(kb, state, Said("should I buy her?"))
    return first_line(messages)


def every_line(kb: KnowledgeBase, *findings: Finding) -> str:
    return " ".join(answer_to(kb, Survey(Boat("Wagtail"), findings), "seam", "decision"))


def first_line(messages: tuple[Message, ...]) -> str:
    return next(one.text for one in messages if isinstance(one, Line))


def test_a_mark_that_is_open_waits(kb: KnowledgeBase) -> None:
    said = told(kb, Finding("seam", "joint_bow", "joint_crack"))

    assert said.startswith("Wait: a check first")
    assert "bow hull-deck joint: crack along a seam" in said.lower()


def test_a_price_that_nobody_named_is_asked_for_and_not_judged(kb: KnowledgeBase) -> None:
    said = every_line(kb, Finding("seam", "joint_bow", "joint_crack"))

    assert "No price was weighed: name what is asked" in said
    assert "asking price is" not in said


def test_what_was_found_is_told_by_itself_where_it_alone_would_be_milder(kb: KnowledgeBase) -> None:
    said = every_line(kb, Finding("seam", "joint_bow", "joint_crack", None, {"joint_gap": Reading.at(2)}))

    assert "By what was found alone: buy on terms, in writing. Something that carries main loads" in said
    assert "Not tried, so not passed: " in said


def test_a_number_that_does_not_match_comes_before_what_nobody_tried(kb: KnowledgeBase) -> None:
    said = told(kb, Finding("number", "identity", "id_odd", None, {"id_match": Reading.at(2)}))

    assert said.startswith("Wait: a check first, money after it. Number, papers and seller do not match")


def test_before_anything_was_told_what_nobody_tried_is_the_answer(kb: KnowledgeBase) -> None:
    assert told(kb).startswith("Wait: a check first, money after it. So much of what she depends on was not tried")
    assert "towed" not in every_line(kb)
