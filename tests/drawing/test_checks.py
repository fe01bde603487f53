"""Every check is drawn in two pictures: what the hand does, and what there is then to tell."""

from __future__ import annotations

import re

import pytest

from tests.drawing.svg import classes, read
from triage.drawing.checks import draw_check
from triage.drawing.svg import drawn, style_sheet
from triage.knowledge.model import KnowledgeBase


def test_every_check_has_a_drawing(kb: KnowledgeBase) -> None:
    missing = sorted(set(kb.checks) - drawn("checks"))

    assert not missing, f"draw in reports/templates/drawings/checks: {missing}"


@pytest.mark.parametrize("check", sorted(drawn("checks")))
def test_a_check_is_harmless_and_the_same_every_time(check: str) -> None:
    scenes, styles = draw_check(check), style_sheet()

    assert scenes == draw_check(check)
    for number, scene in enumerate(scenes, start=1):
        root = read(scene.svg)
        assert scene.says == root.get("aria-label")
        assert str(number) == next(text.text for text in root.iter() if text.get("class") == "step")
        assert not [name for name in classes(root) if f".{name}" not in styles]


def test_what_nobody_has_drawn_has_no_picture() -> None:
    assert () == draw_check("nothing_of_the_kind") == draw_check("")


@pytest.mark.parametrize("check", sorted(drawn("checks")))
def test_its_words_are_few_and_promise_nothing(check: str) -> None:
    for scene in draw_check(check):
        words = [scene.says, *(text.text or "" for text in read(scene.svg).iter() if "sc" in (text.get("class") or ""))]
        assert 50 >= len(scene.says)
        assert not re.search(r"\bsafe\b", " ".join(words), re.IGNORECASE)
