"""Lessons and confusions that teach nothing, or cannot be drawn."""

from __future__ import annotations

import pytest

from tests.mistakes import small_base
from triage.knowledge.model import KnowledgeBase
from triage.lint.teaching import teaching_problems

CONFUSION = """
confusions:
  short_or_long:
    asks: A short one, or a long one?
    one: {{name: Short, zone: side_deck, sign: {sign}, readings: {{crack_length: {short}}}, tells: It is short.}}
    other: {{name: Long, zone: side_deck, sign: long_crack, readings: {{crack_length: 2}}, tells: It is long.}}
    checks: [measure]
    test: Measure it.
    because: A crack that matters is long.
    basis: common practice
"""
LESSON = """
lessons:
  cracks:
    title: Cracks
    aim: You can tell one.
    bring: [a ruler]
    steps: [{{minutes: {minutes}, do: Measure it.}}]
    cases: [{case}]
    questions: [{{ask: Is it one?, answer: Measure it.}}]
    looks_for: [a ruler in the hand]
    cautions: [Mind the edge.]
    scores: [{{what: cracks told, reached: all}}]
    basis: common practice
"""
PRACTISED = "confusion: short_or_long"


def problems(*, sign: str = "hairline", short: int = 0, minutes: int = 50, case: str = PRACTISED) -> list[str]:
    text = CONFUSION.format(sign=sign, short=short) + LESSON.format(minutes=minutes, case=f"{{{case}}}")
    found = list(teaching_problems(small_base(taught=text)))

    assert all(problem.place.line and problem.hint for problem in found)
    return [problem.what for problem in found if "no drawing" not in problem.what]  # the small base has few


def test_the_shipped_ones_pass(kb: KnowledgeBase) -> None:
    assert [] == list(teaching_problems(kb))


def test_a_base_without_lessons_needs_no_drawings() -> None:
    assert [] == list(teaching_problems(small_base()))


def test_two_that_come_to_the_same_need_not_be_told_apart() -> None:
    same = "short_or_long: both come to the same verdict, so nobody needs to tell them apart"

    assert same in problems(short=1)
    assert same not in problems()


@pytest.mark.parametrize(("minutes", "wrong"), [(39, True), (40, False), (60, False), (61, True)])
def test_a_lesson_is_no_shorter_and_no_longer_than_a_class_bears(minutes: int, wrong: bool) -> None:
    assert (f"cracks takes {minutes} minutes" in problems(minutes=minutes)) is wrong


def test_a_confusion_that_no_lesson_practises_is_told() -> None:
    told = "no lesson practises short_or_long"

    assert told in problems(case="zone: side_deck, sign: hairline")
    assert told not in problems()


def test_what_has_no_drawing_is_told() -> None:
    text = CONFUSION.format(sign="hairline, drawing: nobody_drew_it", short=0)

    found = [problem.what for problem in teaching_problems(small_base(taught=text))]

    assert "short_or_long: the mark nobody_drew_it has no drawing" in found


def test_a_reading_that_cannot_be_is_told() -> None:
    assert any("short_or_long, “Short”" in what for what in problems(sign="nothing_seen"))
