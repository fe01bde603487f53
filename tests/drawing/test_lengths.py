"""A line from visit to visit: as long as it was measured, on one scale, with what that may be off."""

from __future__ import annotations

import re

import pytest

from tests.drawing.svg import classes, read
from triage.drawing.bands import WIDTH
from triage.drawing.lengths import LEFT, RIGHT, Dated, draw_lengths
from triage.drawing.svg import style_sheet


def dated(*lengths: float, error: float = 0.0) -> list[Dated]:
    return [Dated(f"day {number}", f"{length} mm", length, error) for number, length in enumerate(lengths)]


def tips(svg: str) -> list[float]:
    return [float(x) for x in re.findall(r'class="tick" d="M([\d.]+)', svg)]


def test_lengths_are_drawn_in_proportion() -> None:
    long, short = (tip - LEFT for tip in tips(draw_lengths(dated(100, 50), "in words")))

    assert WIDTH - LEFT - RIGHT == pytest.approx(long)
    assert 2 == pytest.approx(long / short, abs=0.01)


def test_what_a_measurement_may_be_off_is_drawn_about_its_tip() -> None:
    (left, width), *_ = re.findall(
        r'class="off" x="([\d.]+)" y="[\d.]+" width="([\d.]+)"', draw_lengths(dated(90, error=10), "")
    )

    assert (WIDTH - LEFT - RIGHT) * 0.2 == pytest.approx(float(width), abs=0.1)
    assert WIDTH - RIGHT == pytest.approx(float(left) + float(width), abs=0.2)


def test_a_drawing_of_lengths_is_harmless_and_says_what_it_shows() -> None:
    measured = [Dated("<day>", 'a "length"', 0.0, 2.0), Dated("", "", 2000.0, 1.0)]

    svg = draw_lengths(measured, "said & done")

    root = read(svg)
    assert ("img", "said & done") == (root.get("role"), root.get("aria-label"))
    assert not [name for name in classes(root) if f".{name}" not in style_sheet()]
    assert svg == draw_lengths(measured, "said & done")


def test_nothing_is_drawn_of_no_lengths() -> None:
    with pytest.raises(ValueError, match="nothing to compare"):
        draw_lengths([], "")
