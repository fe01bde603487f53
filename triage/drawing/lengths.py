"""A line as it was measured from visit to visit: one below the other, each with a dated tick across its tip."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from markupsafe import Markup

from triage.drawing.bands import LETTER, WIDTH
from triage.drawing.pen import Pen
from triage.drawing.svg import Point, drawings, path

LEFT, RIGHT = 12.0, 12.0
ROW = 50.0
LEAST = 6.0
"""Of a line, in units, so that it is seen at all."""


@dataclass(frozen=True)
class Dated:
    """A measurement: the day and the length in words, the length, and how far it may be off."""

    day: str
    says: str
    length: float
    error: float


def draw_lengths(measured: Sequence[Dated], says: str) -> Markup:
    """The lengths on one scale, the oldest above; what a measurement may be off is a pale field about its tip. Raises
    ValueError when there are none.
    """
    if not measured:
        raise ValueError("there is nothing to compare")
    per = (WIDTH - LEFT - RIGHT) / max(one.length + one.error for one in measured)
    whole = Pen("lengths").walk((LEFT, 0), (WIDTH - RIGHT, 0))
    rows = []
    for number, one in enumerate(measured):
        y, tip = 36 + ROW * number, LEFT + max(LEAST, one.length * per)
        rows.append(
            {
                "one": one,
                "y": y,
                "tip": tip,
                "line": path([(x, y + dy) for x, dy in _until(whole, tip)]),
                "off": (max(LEFT, LEFT + (one.length - one.error) * per), LEFT + (one.length + one.error) * per),
                "end": tip > WIDTH - RIGHT - len(one.says) * LETTER,
            }
        )
    template = drawings().get_template("bands/lengths.svg")
    return Markup(template.render(says=says, rows=rows, width=WIDTH, height=36 + ROW * len(rows) - 26))


def _until(points: Sequence[Point], tip: float) -> list[Point]:
    """The way as far as a tip: the same line, only shorter."""
    kept = [(x, y) for x, y in points if x < tip]
    return [*kept, (tip, kept[-1][1])]
