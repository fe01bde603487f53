"""The lines of the hull: a table of offsets, and smooth lines through it that never leave it between stations."""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Callable, Sequence
from functools import cache
from itertools import pairwise

import yaml

from triage.files import read_bounded
from triage.resources import data_dir

Line = Callable[[float], float]
"""A length in mm at so many mm from the stern."""

MOST_BYTES = 100_000


def through(stations: Sequence[float], offsets: Sequence[float]) -> Line:
    """A monotone cubic (Fritsch and Carlson, 1980) through the offsets: it rises and falls only where the table does.

    Beyond the first and the last station it stays as it is there.
    """
    steps = [b - a for a, b in pairwise(stations)]
    chords = [(b - a) / step for (a, b), step in zip(pairwise(offsets), steps, strict=True)]
    inner = [0.0 if a * b <= 0 else 2 * a * b / (a + b) for a, b in pairwise(chords)]
    slopes = [chords[0], *inner, chords[-1]]

    def line(x: float) -> float:
        x = min(max(x, stations[0]), stations[-1])
        i = max(bisect_left(stations, x) - 1, 0)
        t, h = (x - stations[i]) / steps[i], steps[i]
        rest = 1 - t
        return (
            offsets[i] * (1 + 2 * t) * rest**2
            + offsets[i + 1] * t**2 * (3 - 2 * t)
            + h * slopes[i] * t * rest**2
            - h * slopes[i + 1] * t**2 * rest
        )

    return line


@cache
def hull_lines() -> dict[str, Line]:
    """The lines of the boat that is drawn, by name. Raises CannotWork when the table is not there."""
    file = data_dir("templates") / "drawings" / "boat" / "offsets.yaml"
    tables = yaml.safe_load(read_bounded(file, MOST_BYTES))
    return {
        name: through(table["stations"], offsets)
        for table in tables
        for name, offsets in table.items()
        if name != "stations"
    }


@cache
def points_on(line: str, start: float, end: float) -> Sequence[tuple[float, float]]:
    """Points on a line of the boat that is drawn, from one station to another: mm from the stern, and its length there.

    Every boat has the same lines, so what a view draws of them is worked out once.
    """
    length = hull_lines()[line]
    pieces = max(6, round(abs(end - start) / 90))
    return tuple((x, length(x)) for x in (start + (end - start) * i / pieces for i in range(pieces + 1)))
