"""How a measured answer was judged, as data: where it lies on its scale, and what a sum makes of it."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True)
class Number:
    """A number of a sum: what it is, its range in a unit, and its formula, empty for what was not measured."""

    say: str
    low: float
    high: float
    unit: str
    how: str


@dataclass(frozen=True)
class SumDone:
    """A sum done with answers alone: what was taken besides, what came out, and what to bear in mind."""

    sum: str
    name: str
    taken: tuple[Number, ...]
    told: tuple[Number, ...]
    mind: str


@dataclass(frozen=True)
class Working:
    """How one measured answer was judged.

    ``low`` and ``high`` are it in the scale's ``unit``; ``level`` is the graver level that it was judged as, and
    ``least`` to ``most`` what that level holds. None is an end that was left open. ``perhaps`` is a graver level that
    it may be as far as such a reading is usually off, empty for none: a sum may add concern and never takes any away.
    """

    scale: str
    name: str
    unit: str
    low: float | None
    high: float | None
    level: str
    least: float | None
    most: float | None
    perhaps: str
    sums: tuple[SumDone, ...]
