"""Boxes in columns with lines between them: their order, so that lines cross little, and their places on the page.

What is drawn has its strata by nature (marks, causes, checks), so it needs no general layout: the barycentre heuristic
of Sugiyama, Tagawa and Toda (1981) puts each box near the middle of what it is linked with. Lengths are in units of the
picture.
"""

from __future__ import annotations

import itertools
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass

SWEEPS = 12
"""Passes over the columns; more of them change nothing on graphs of this size."""


@dataclass(frozen=True)
class Box:
    """One node: what stands in it (plain, strong and small lines), how high it is, and the space above it."""

    id: str
    plain: tuple[str, ...]
    strong: tuple[str, ...]
    small: tuple[str, ...]
    height: float
    above: float
    tip: str


@dataclass(frozen=True)
class Placed:
    """A box with its upper left corner and its width."""

    box: Box
    x: float
    y: float
    width: float

    @property
    def middle(self) -> float:
        """The height at which edges meet the box, in units from the top."""
        return self.y + self.box.height / 2


def ordered(
    columns: Sequence[Sequence[Box]], links: Iterable[tuple[str, str]], fixed: Sequence[int]
) -> list[list[Box]]:
    """The columns with their boxes in the order, of those tried, in which the fewest lines cross.

    The columns in ``fixed`` stay as they are.
    """
    links = list(links)
    near: dict[str, list[str]] = {}
    for one, other in links:
        near.setdefault(one, []).append(other)
        near.setdefault(other, []).append(one)
    current = [list(column) for column in columns]
    tried = []
    for sweep in range(SWEEPS):
        for index in sorted(set(range(len(current))).difference(fixed), reverse=sweep % 2 == 1):
            places = {box.id: rank / len(column) for column in current for rank, box in enumerate(column)}
            current[index].sort(key=lambda box: _middle(places, near.get(box.id, [box.id])))
        tried.append([list(column) for column in current])
    return min(tried, key=lambda columns: _crossings(columns, links))


def _crossings(columns: Sequence[Sequence[Box]], links: Iterable[tuple[str, str]]) -> int:
    """How many lines between neighbouring columns cross."""
    places = {box.id: (index, rank) for index, column in enumerate(columns) for rank, box in enumerate(column)}
    lines: dict[int, list[tuple[int, int]]] = {}
    for link in links:
        (left, one), (right, other) = sorted(places[id_] for id_ in link)
        if left != right:
            lines.setdefault(left, []).append((one, other))
    return sum(
        (one[0] - other[0]) * (one[1] - other[1]) < 0
        for between in lines.values()
        for one, other in itertools.combinations(between, 2)
    )


def _middle(places: Mapping[str, float], ids: Sequence[str]) -> float:
    return sum(places[id_] for id_ in ids) / len(ids)


def placed(
    columns: Sequence[Sequence[Box]], lefts: Sequence[float], widths: Sequence[float], top: float
) -> dict[str, Placed]:
    """Every box in its place: columns beside each other, each spread over the height of the highest."""
    highest = max((_height(column) for column in columns), default=0.0)
    found = {}
    for column, left, width in zip(columns, lefts, widths, strict=True):
        spare = (highest - _height(column)) / (len(column) + 1)
        y = top + spare
        for box in column:
            y += box.above
            found[box.id] = Placed(box, left, y, width)
            y += box.height + spare
    return found


def _height(column: Sequence[Box]) -> float:
    return sum(box.above + box.height for box in column)
