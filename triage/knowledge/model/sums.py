"""A sum that somebody can do with what was measured: what it asks, what is given, and what it tells."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from triage.knowledge.model.scale import Basis


@dataclass(frozen=True)
class Asked:
    """Something to measure, in ``unit`` (empty: a plain number) from ``least`` to ``most``.

    ``error`` is how far a reading is usually off, in that unit. ``scale``: whose measured answers can be used for it,
    if any. ``outside``: what is said of what is less or more than that, if there is more to say.
    """

    what: str
    unit: str
    least: float
    most: float
    error: float = 0.0
    scale: str = ""
    outside: str = ""


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
    ``worksheet``: it gives quantities to whoever does the work, so no answer to an owner may show it.
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
    worksheet: bool = False

    @property
    def scales(self) -> frozenset[str]:
        """The scales whose measured answers are all that it asks for; empty where it asks for anything else."""
        asked = [one.scale for one in self.asks.values()]
        return frozenset(asked) if all(asked) and len(set(asked)) == len(asked) else frozenset()
