"""What conclusions are made of: ranges of levels, levels that were reached, and readings as they were said."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True)
class Range:
    """The mildest and the gravest level of a derived scale still possible; settled when they are the same.

    By name (``best``, ``worst``), by number (``levels``) and by the role that each plays (``roles``).
    """

    best: str
    worst: str
    settled: bool
    levels: tuple[int, int]
    roles: tuple[str, str]


@dataclass(frozen=True)
class Reached:
    """A level of a scale, by number and in words."""

    scale: str
    level: int
    name: str
    phrase: str


@dataclass(frozen=True)
class ReportedReading:
    """One answer as it was understood: what was said, and the levels that it may mean (None: nobody could tell).

    ``level`` names the graver end; ``phrase`` is what was said as words that stand after "you found that", and
    ``measured`` is it as it was said, if it was a measurement.
    """

    scale: str
    name: str
    said: str
    low: int | None
    high: int | None
    level: str | None
    phrase: str
    measured: str


@dataclass(frozen=True)
class EstimatedScale:
    """A scale whose limits nobody has published: where one level of it begins is our own estimate."""

    scale: str
    name: str
