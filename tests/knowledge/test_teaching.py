"""What is taught: whole, in plain words, and what it says of a mark is what the rules say of it."""

from __future__ import annotations

from dataclasses import fields, is_dataclass
from typing import Any

import pytest

from tests.mistakes import small_base
from triage.errors import BadRules
from triage.knowledge.model import KnowledgeBase
from triage.knowledge.model.scale import Basis
from triage.teaching.cards import card_of_lookalike

SHEET = "teaching: {sheet: {items: {names: {name: Names it, points: 3, full: Both.}}, basis: common practice}}"


def texts(value: Any) -> list[str]:
    """Every text in it, however deep."""
    if isinstance(value, str):
        return [value]
    if isinstance(value, dict):
        return [text for one in value.values() for text in texts(one)]
    if isinstance(value, tuple):
        return [text for one in value for text in texts(one)]
    if is_dataclass(value) and not isinstance(value, Basis):
        return [text for field in fields(value) if field.name != "place" for text in texts(getattr(value, field.name))]
    return []


def test_there_are_six_lessons_fourteen_confusions_and_twenty_points(kb: KnowledgeBase) -> None:
    assert [1, 2, 3, 4, 5, 6] == [lesson.number for lesson in kb.teaching.lessons.values()]
    assert list(range(1, 15)) == [confusion.number for confusion in kb.teaching.confusions.values()]
    assert 20 == kb.teaching.sheet.points


def test_nothing_taught_promises_what_nobody_can(kb: KnowledgeBase) -> None:
    assert not [text for text in texts(kb.teaching) if "safe" in text.lower()]
    assert any("licen" in text or "for a living" in text for text in kb.teaching.cautions)


def test_every_lesson_warns_of_what_can_hurt(kb: KnowledgeBase) -> None:
    assert all(len(lesson.cautions) >= 2 for lesson in kb.teaching.lessons.values())


def test_of_two_lookalikes_the_other_comes_out_graver(kb: KnowledgeBase) -> None:
    for confusion in kb.teaching.confusions.values():
        one, other = (card_of_lookalike(kb, confusion, each) for each in confusion.pair)
        assert one.then is not None
        assert other.then is not None
        assert one.then.levels < other.then.levels, confusion.id
        assert one.at_sight == other.at_sight, "at sight nobody can tell which it is"


def test_what_holds_for_every_lesson_stands_once() -> None:
    with pytest.raises(BadRules, match=r"what holds for every lesson is already in a\.yaml"):
        small_base(a=SHEET, b=SHEET)
