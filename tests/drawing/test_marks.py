"""Every sign is drawn, alike on every run, with a true scale, and beside what it is taken for."""

from __future__ import annotations

import pytest

from tests.drawing.svg import classes, read
from triage.drawing.marks import SHORTEST_BAR, SIZE, confused_with, draw_mark
from triage.drawing.svg import drawn, style_sheet
from triage.knowledge.model import KnowledgeBase

NO_FAULT = {
    *("board_clearance", "dull_by_design", "made_slot", "mould_line", "old_stain", "press_marks", "resin_bump"),
    *("ring_in", "spar_prebend", "springy_by_design", "wire_fluff", "with_pad"),
}
HEAVIEST = 30_000
"""Bytes of a drawing: some hundred may stand on one page."""


def test_every_sign_has_a_drawing(kb: KnowledgeBase) -> None:
    missing = sorted(set(kb.signs) - drawn("marks"))

    assert not missing, f"draw in reports/templates/drawings/marks: {missing}"
    assert NO_FAULT <= drawn("marks") - set(kb.signs)


@pytest.mark.parametrize("sign", sorted(drawn("marks")))
@pytest.mark.parametrize("thumb", [False, True])
def test_a_mark_is_harmless_and_the_same_every_time(sign: str, thumb: bool) -> None:
    first, again = (draw_mark(sign, 'A "mark" & <b>', thumb=thumb).svg for _ in range(2))

    root, styles = read(first), style_sheet()
    assert first == again
    assert 'A "mark" & <b>' == root.get("aria-label")
    assert HEAVIEST > len(first)
    assert not [name for name in classes(root) if f".{name}" not in styles]
    assert ("sc" in classes(root)) is not thumb or thumb


def test_the_same_drawing_may_stand_on_a_page_twice() -> None:
    first, again = (draw_mark("crazing", name=name).svg for name in ("a", "b"))

    ids = [{part.get("id") for part in read(svg).iter()} - {None} for svg in (first, again)]
    assert ids[0]
    assert not ids[0] & ids[1]


def test_its_bar_is_as_long_as_it_says() -> None:
    for sign in drawn("marks"):
        picture = draw_mark(sign)
        number, unit = [text.text or "" for text in read(picture.svg).iter() if text.get("class") == "sc"][-1].split()
        length = float(number) * (1000 if unit == "m" else 1) * SIZE / picture.width
        assert SHORTEST_BAR <= length <= 150, sign


def test_every_mark_stands_beside_something(kb: KnowledgeBase) -> None:
    for sign in kb.signs:
        beside = confused_with(sign, ())
        assert not set(beside) - drawn("marks"), sign
        assert sign not in beside


def test_what_its_description_names_stands_beside_it_once() -> None:
    assert ("parallel_cracks", "star_crack") == confused_with("crazing", ["star_crack", "parallel_cracks"])


def test_what_is_no_fault_says_so() -> None:
    for sign in NO_FAULT:
        assert draw_mark(sign).name.endswith("(no fault)")
