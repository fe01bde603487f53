"""Sums of two quantities, against values that stand elsewhere."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from triage.parsing.geometry import angle, excess, rate, rise_over, share, shortfall


@pytest.mark.parametrize(
    ("offset", "arm", "degrees"),
    [
        (1, 1, 45),  # plane trigonometry: tan 45° = 1
        (1, math.sqrt(3), 30),  # tan 30° = 1/√3
        (math.sqrt(3), 1, 60),
        (10, 600, 0.955),  # 57.3 × 10 / 600, the rule of thumb for small angles
        (0, 5, 0),
    ],
)
def test_an_offset_at_an_arm_is_an_angle(offset: float, arm: float, degrees: float) -> None:
    assert degrees == pytest.approx(angle(offset, arm), abs=5e-4)


def test_the_rules_of_thumb_of_the_checks_hold() -> None:
    assert 2 == round(angle(1, 30))  # "1 mm over 30 mm is 2 degrees"
    assert 0.5 == pytest.approx(angle(1, 100), abs=0.1)  # "1 mm across 100 mm is about half a degree"
    assert 25 == excess(5, 4)  # "5 mm here and 4 mm there is 25% more"


def test_parts_and_differences() -> None:
    assert 25 == share(3, 12)
    assert 75 == shortfall(3, 12)
    assert 0 == excess(3, 4)
    assert 3 == rate(6, 2)


@given(st.floats(0.5, 50), st.floats(200, 5000), st.floats(50, 200))
def test_a_shallow_arc_rises_as_a_circle_does(radius: float, chord: float, standard: float) -> None:
    of_a_circle = radius * 1000
    chord = min(chord, of_a_circle / 5)
    standard = min(standard, of_a_circle / 5)

    def sagitta(c: float) -> float:
        return of_a_circle - math.sqrt(of_a_circle**2 - c**2 / 4)  # plane geometry, exact

    assert rise_over(sagitta(chord), chord, standard) == pytest.approx(sagitta(standard), rel=0.01)
