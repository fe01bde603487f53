"""How damage is mended: families of repairs, with what they cost and what can hurt while they are done."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from triage.errors import Place
from triage.knowledge.model.conditions import Condition
from triage.knowledge.model.scale import Basis

Span = tuple[float, float]
"""From the least to the most; never a single figure."""


@dataclass(frozen=True)
class Hazard:
    """What can hurt somebody, where that is met, and what to say about it."""

    id: str
    name: str
    where: str
    say: str


@dataclass(frozen=True)
class Prices:
    """What the money in this knowledge is counted in: the year, the unit, and an hour at a repairer in it."""

    year: int
    unit: str
    note: str
    labour: Span


@dataclass(frozen=True, eq=False)
class Repair:
    """One family of repairs. It fits a finding when ``when`` holds; the first that fits is the one meant.

    ``outline`` names the kind of work and is no recipe. ``hours`` of work, ``materials`` for an owner and what a
    ``repairer`` asks in all are ranges in the unit of `Prices`, each for one of ``per``; None where there is no figure.
    ``workshop``, ``hazards`` and ``stop_when`` are ids in `Mending`. ``covers`` are the repairs whose work is done with
    this one, directly or through one that it covers; none of them asks for more hours, money or skill.
    ``lets`` are the answers (afloat, tow) that its ``holding`` counts on: where one of them bars her, it is not told.
    """

    id: str
    order: int
    name: str
    when: Condition
    who: int
    outline: tuple[str, ...]
    meanwhile: str
    basis: Basis
    place: Place
    hours: Span | None = None
    materials: Span | None = None
    repairer: Span | None = None
    per: str = ""
    wait: str = ""
    holding: str = ""
    lets: tuple[str, ...] = ()
    workshop: tuple[str, ...] = ()
    hazards: tuple[str, ...] = ()
    stop_when: tuple[str, ...] = ()
    covers: tuple[str, ...] = ()

    def takes_in(self, other: Repair) -> bool:
        """Whether its work is the other's too."""
        return other.id == self.id or other.id in self.covers


@dataclass(frozen=True)
class Mending:
    """Everything known about mending: repairs, most special first, and the sentences that several of them share."""

    repairs: tuple[Repair, ...] = ()
    hazards: Mapping[str, Hazard] = field(default_factory=dict)
    workshop: Mapping[str, str] = field(default_factory=dict)
    stops: Mapping[str, str] = field(default_factory=dict)
    prices: Prices | None = None
