"""Causes: what may have done it, what it leaves, where else it sends people to look, and how all that is weighed."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Literal

from triage.errors import Place
from triage.knowledge.model.scale import NOWHERE, Basis

ANYWHERE = "anywhere"
"""Stands in place of a zone in what a cause leaves: the mark counts wherever on the boat it is."""

Side = Literal["same", "other", "both"]
Mark = tuple[str, str]
"""A sign in a zone."""


@dataclass(frozen=True)
class Leaves:
    """A mark that a cause tends to leave; ``strength`` names how often.

    It left none that was read no worse than ``unless``, in levels by scale: the first of them has to be answered.
    """

    zone: str
    sign: str
    strength: str
    unless: tuple[tuple[str, int], ...] = ()

    @property
    def mark(self) -> Mark:
        """The zone and the sign."""
        return self.zone, self.sign


@dataclass(frozen=True)
class FollowUp:
    """A check elsewhere that a cause demands; ``strength`` names how often there is something.

    On a part with two sides: on the ``side`` of the marks that speak for the cause, on the other, or on both.
    """

    zone: str
    check: str
    side: Side
    strength: str
    because: str
    place: Place = field(default=NOWHERE, compare=False)


@dataclass(frozen=True)
class AtWork:
    """How to tell that a cause goes on, the marks that show it, and what ends it."""

    tell: str
    shown_by: tuple[Mark, ...]
    cure: str


@dataclass(frozen=True, eq=False)
class Cause:
    """What may have done it. ``still_at_work`` is None for what is over once it has happened."""

    id: str
    name: str
    happens: str
    prior: str
    ask: str
    leaves: tuple[Leaves, ...]
    follow_ups: tuple[FollowUp, ...]
    still_at_work: AtWork | None
    basis: Basis
    only_if: Mapping[str, str] = field(default_factory=dict)
    place: Place = field(default=NOWHERE, compare=False)


@dataclass(frozen=True)
class Strength:
    """How often something is so: as a fraction, and as a word that stands before a verb."""

    chance: float
    says: str


@dataclass(frozen=True, eq=False)
class Weights:
    """The figures by which causes are weighed, fractions of 1 but for the last three: estimates, shown to nobody.

    ``told`` holds the likelihood ratio of an event that is told, by the word for its strength. ``words`` run from the
    likeliest, each with where it begins. ``alike`` is a factor between odds. What a check can
    find matters by the ``gravity`` of its verdict (from level 0) times that of the ``criticality`` of its zone.
    """

    strengths: Mapping[str, Strength]
    priors: Mapping[str, float]
    leak: float
    suspected: float
    yes_if_so: float
    yes_if_not: float
    words: tuple[tuple[float, str], ...]
    story_from: str
    follow_from: str
    alike: float
    gravity: tuple[float, ...]
    criticality: Mapping[str, float]
    basis: Basis
    told: Mapping[str, float] = field(default_factory=dict)
    place: Place = field(default=NOWHERE, compare=False)

    def word(self, chance: float) -> str:
        """The word for a chance."""
        return next(says for begins, says in self.words if chance >= begins)

    def at_least(self, word: str, wanted: str) -> bool:
        """Whether ``word`` says as much as ``wanted``, or more."""
        order = [says for _, says in self.words]
        return order.index(word) <= order.index(wanted)


@dataclass(frozen=True, eq=False)
class Causation:
    """Every cause, and how they are weighed; a base without causes needs no weights."""

    causes: Mapping[str, Cause] = field(default_factory=dict)
    weights: Weights | None = None
