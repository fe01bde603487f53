"""Where the numbers stand: two columns beside the boat, from which leaders run to the marks without crossing."""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from itertools import combinations, permutations

from triage.drawing.boat.chart import Marker
from triage.drawing.svg import Point

GAP = 40.0
"""From one marker to the next, where there is room; a marker is a little smaller."""

MIDLINE = 4.0
"""What is nearer the middle than this may have its marker on either side."""

CROSSING, TOUCHING = 10_000.0, 80.0
"""What a crossing, and a leader through another mark, cost in units of length."""


MOST_CLEARED = 9
"""Of more markers in a column none is moved for the sake of another's mark; it would take long and help little."""


@dataclass(frozen=True)
class Columns:
    """Where markers may stand: the middle of the left and of the right column, and from how high to how low."""

    left: float
    right: float
    top: float
    bottom: float
    middle: float


@dataclass(frozen=True)
class Placed:
    """A marker, the point on the boat that it means, and where it stands."""

    marker: Marker
    anchor: Point
    at: Point


Better = Callable[[Sequence[Placed], Sequence[Placed], int, int], bool]
"""Whether an exchange of two markers is better."""


def place(marks: Sequence[tuple[Marker, Point]], columns: Columns) -> tuple[list[Placed], float]:
    """Each marker in its place, and the gap between those that stand closest.

    What is on the left goes to the left and the other way round; what is in the middle goes where fewer are.
    """
    left = [one for one in marks if one[1][0] < columns.middle - MIDLINE]
    right = [one for one in marks if one[1][0] > columns.middle + MIDLINE]
    between = [one for one in marks if one not in left and one not in right]
    for one in sorted(between, key=lambda mark: mark[1][1]):
        min(left, right, key=len).append(one)
    room = columns.bottom - columns.top
    gap = min([GAP, *(room / (len(one) - 1) for one in (left, right) if len(one) > 1)])
    placed = [
        each for side, x in ((left, columns.left), (right, columns.right)) for each in _column(side, x, columns, gap)
    ]
    return placed, gap


def _column(marks: Sequence[tuple[Marker, Point]], x: float, columns: Columns, gap: float) -> list[Placed]:
    """The markers of one column: as high as their marks, then exchanged until no leaders cross."""
    ordered = sorted(marks, key=lambda mark: (mark[1][1], mark[0].text))
    heights = spread([anchor[1] for _, anchor in ordered], gap, columns.top, columns.bottom)
    placed = [Placed(marker, anchor, (x, height)) for (marker, anchor), height in zip(ordered, heights, strict=True)]
    placed = _exchanged(placed, _shorter)
    return _exchanged(placed, _clearer) if len(placed) <= MOST_CLEARED else placed


def _exchanged(placed: list[Placed], better: Better) -> list[Placed]:
    """The same markers, with pairs exchanged for as long as that is better. Where none is shorter, no leaders cross."""
    done = False
    while not done:
        done = True
        for i, j in combinations(range(len(placed)), 2):
            tried = list(placed)
            tried[i], tried[j] = replace(placed[i], at=placed[j].at), replace(placed[j], at=placed[i].at)
            if better(placed, tried, i, j):
                placed, done = tried, False
    return placed


def _shorter(now: Sequence[Placed], tried: Sequence[Placed], i: int, j: int) -> bool:
    return _length((tried[i], tried[j])) < _length((now[i], now[j])) - 1e-6


def _clearer(now: Sequence[Placed], tried: Sequence[Placed], _i: int, _j: int) -> bool:
    return _cost(tried) < _cost(now) - 1e-6


def spread(wanted: Sequence[float], gap: float, low: float, high: float) -> list[float]:
    """Heights at least ``gap`` apart and as near as can be to those wanted, which rise: pooled adjacent violators."""
    pools: list[tuple[float, int]] = []
    for rank, height in enumerate(wanted):
        pools.append((height - rank * gap, 1))
        while len(pools) > 1 and pools[-2][0] > pools[-1][0]:
            (one, many), (other, more) = pools.pop(), pools.pop()
            pools.append(((one * many + other * more) / (many + more), many + more))
    bases = [base for base, many in pools for _ in range(many)]
    highest = max(low, high - (len(wanted) - 1) * gap)
    return [min(max(base, low), highest) + rank * gap for rank, base in enumerate(bases)]


def _length(placed: Sequence[Placed]) -> float:
    return sum(math.dist(one.anchor, one.at) for one in placed)


def _cost(placed: Sequence[Placed]) -> float:
    crossings = sum(cross(one, other) for one, other in combinations(placed, 2))
    touched = sum(distance(other.anchor, one) < 6 for one, other in permutations(placed, 2))
    return _length(placed) + CROSSING * crossings + TOUCHING * touched


def cross(one: Placed, other: Placed) -> bool:
    """Whether the leaders of the two cross."""

    def turn(a: Point, b: Point, c: Point) -> float:
        return (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0])

    a, b, c, d = one.anchor, one.at, other.anchor, other.at
    return turn(a, b, c) * turn(a, b, d) < 0 and turn(c, d, a) * turn(c, d, b) < 0


def distance(point: Point, leader: Placed) -> float:
    """How far the point is from the leader."""
    (x, y), (ax, ay), (bx, by) = point, leader.anchor, leader.at
    dx, dy = bx - ax, by - ay
    along = ((x - ax) * dx + (y - ay) * dy) / (dx * dx + dy * dy or 1)
    t = min(max(along, 0.0), 1.0)
    return math.hypot(x - ax - t * dx, y - ay - t * dy)
