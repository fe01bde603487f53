"""Ranges as pictures: how sure a verdict is, as water that narrows with each answer; money as bands on one scale."""

from __future__ import annotations

import itertools
import math
import textwrap
from collections.abc import Sequence
from dataclasses import dataclass

from markupsafe import Markup

from triage.drawing.boat.chart import Kind
from triage.drawing.svg import drawings, path

WIDTH = 358.0
"""In units: what a phone leaves."""

ROW, LINE, BAR = 28.0, 17.0, 12.0
"""How high one answer is drawn, a second line of it, and the bar under the last of them."""

LETTER = 8.7
"""About how wide a letter is, in units."""

MOST_LINES = 2
"""Of one answer; what is longer is cut."""

STEPS = (1, 2, 5)
"""Marks on a scale of money are one of these times a power of ten apart."""

MOST_MARKS = 5


@dataclass(frozen=True)
class Narrowing:
    """What an answer left of the range, by level, and the answer in a few words."""

    low: int
    high: int
    says: str


@dataclass(frozen=True)
class Level:
    """A level that a range may take in: its name, and its shape."""

    name: str
    kind: Kind


@dataclass(frozen=True)
class Sum:
    """Money from the least to the most, and what it is for."""

    says: str
    least: float
    most: float


def draw_narrowing(levels: Sequence[Level], history: Sequence[Narrowing], says: str, name: str = "range") -> Markup:
    """The range after each answer, oldest first; the last is how things stand. Raises ValueError for an empty history.

    What is ruled out is hatched land, what is left is water. ``name`` comes before every id.
    """
    if not history:
        raise ValueError("a range has at least one row")
    part = WIDTH / len(levels)
    ends = [(1 + one.low * part, (one.high + 1) * part - 1) for one in history]
    lines = [_in_lines(one.says) for one in history]
    *tops, end_of_rows = itertools.accumulate((ROW + LINE * (len(one) - 1) for one in lines), initial=2.0)
    bottom = end_of_rows + BAR
    below = [*tops[1:], bottom]
    port = [(left, y) for (left, _), top, end in zip(ends, tops, below, strict=True) for y in (top, end)]
    starboard = [(right, y) for (_, right), top, end in zip(ends, tops, below, strict=True) for y in (top, end)]
    return Markup(
        drawings()
        .get_template("bands/narrowing.svg")
        .render(
            name=name,
            says=says,
            levels=levels,
            part=part,
            width=WIDTH,
            bottom=bottom,
            bar=BAR,
            water=path(port + starboard[::-1], closed=True),
            answers=[
                (_kept_inside((a + b) / 2, max(lines_of, key=len)), y + 19 + LINE * i, words, lines_of is lines[-1])
                for (a, b), y, lines_of in zip(ends, tops, lines, strict=True)
                for i, words in enumerate(lines_of)
            ],
            left=ends[-1][0],
            right=ends[-1][1],
            now=history[-1],
        )
    )


def _in_lines(words: str) -> list[str]:
    """The lines of an answer, each of which finds room in the picture."""
    return textwrap.wrap(words, int((WIDTH - 12) / LETTER), max_lines=MOST_LINES, placeholder=" …") or [""]


def _kept_inside(middle: float, words: str) -> float:
    """Where the middle of the words is, so that they stay in the picture."""
    half = len(words) * LETTER / 2 + 6
    return min(max(middle, half), WIDTH - half)


def draw_sums(sums: Sequence[Sum], all_of_it: str, says: str) -> Markup:
    """Sums of money as bands on one scale; the last is ``all_of_it``. Raises ValueError when there are none."""
    if not sums:
        raise ValueError("there is nothing to add up")
    total = Sum(all_of_it, sum(one.least for one in sums), sum(one.most for one in sums))
    step = mark_step(total.most)
    top = step * max(1, math.ceil(total.most / step))
    per = (WIDTH - 24) / top
    return Markup(
        drawings()
        .get_template("bands/sums.svg")
        .render(
            says=says,
            width=WIDTH,
            sums=[(one, 12 + one.least * per, 12 + one.most * per) for one in sums],
            total=(total, 12 + total.least * per, 12 + total.most * per) if len(sums) > 1 else None,
            marks=[(step * i, 12 + step * i * per) for i in range(round(top / step) + 1)],
        )
    )


def mark_step(most: float) -> float:
    """How far apart the marks of a scale are that reaches so far: few, and at round numbers."""
    power = 10.0 ** math.floor(math.log10(max(most, 1)))
    steps = (power / 10 * step * scale for scale in (1, 10, 100) for step in STEPS)
    return next(step for step in steps if most / step <= MOST_MARKS)
