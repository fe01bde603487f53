"""How often somebody is right, by how sure they are: points with their intervals against the line where both agree."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from markupsafe import Markup

from triage.drawing.svg import drawings

WIDTH, HEIGHT = 358.0, 358.0
LEFT, RIGHT, TOP, BOTTOM = 44.0, 342.0, 28.0, 306.0
"""In units: the picture, and the square in it."""

SMALLEST, LARGEST = 4.0, 11.0
"""Radius of a point that stands for few, and for all."""


@dataclass(frozen=True)
class Reliable:
    """A band of confidence: how sure on average, how often right, from where to where that may truly be, of how many.

    Shares from 0 to 1.
    """

    said: float
    right: float
    low: float
    high: float
    n: int


def draw_reliability(bands: Sequence[Reliable], says: str, along: str, up: str) -> Markup:
    """The picture; ``says`` is it in words, ``along`` and ``up`` are what the axes show."""
    most = max((one.n for one in bands), default=1)
    points = [
        (_x(one.said), _y(one.right), _y(one.low), _y(one.high), SMALLEST + (LARGEST - SMALLEST) * one.n / most)
        for one in bands
    ]
    marks = [(f"{quarter * 25}%", _x(quarter / 4), _y(quarter / 4)) for quarter in range(5)]
    template = drawings().get_template("bands/reliability.svg")
    frame = {"width": WIDTH, "height": HEIGHT, "left": LEFT, "right": RIGHT, "top": TOP, "bottom": BOTTOM}
    return Markup(template.render(**frame, points=points, marks=marks, says=says, along=along, up=up))


def _x(share: float) -> float:
    return LEFT + (RIGHT - LEFT) * share


def _y(share: float) -> float:
    return BOTTOM - (BOTTOM - TOP) * share
