"""A sum that somebody can do with what was measured: what it asks, what is given, and what it tells."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from triage.knowledge.model.scale import Basis


@dataclass(frozen=True)
class Asked:
    """Something to measure, in ``unit`` (empty: a plain number) from ``least`` to ``most``.

    ``error`` is how far a reading is usually off, in that unit. ``scale``: whose measured answers can be used for it,
    if any.
    """

    what: str
    unit: str
    least: float
    most: float
    error: float = 0.0
    scale: str = ""


@dataclass(frozen=True)
class Given:
    """A value that nobody can measure beside a boat: from ``low`` to ``high`` in ``unit``."""

    what: str
    unit: str
    low: float
    high: float


@dataclass(frozen=True)
class Told:
    """A result: what it is called, in which unit, and the formula in words and signs.

    ``answers``: the scale to which it may be proposed as an answer, if to any.
    """

    say: str
    unit: str
    how: str
    answers: str = ""


@dataclass(frozen=True)
class Plot:
    """A curve that says more than a number: the result ``shows`` against what is asked as ``against``."""

    against: str
    shows: str


@dataclass(frozen=True)
class Sum:
    """One sum. ``helps``: the question it answers; ``mind``: what to bear in mind with the result.

    ``pieces`` tells of what its formula lists one by one, such as layers to cut; None where it lists nothing.
    """

    id: str
    name: str
    helps: str
    asks: Mapping[str, Asked]
    given: Mapping[str, Given]
    tells: Mapping[str, Told]
    mind: str
    basis: Basis
    plot: Plot | None = None
    pieces: Told | None = None
