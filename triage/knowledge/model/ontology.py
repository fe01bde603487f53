"""What there is on a boat and what can be seen and tried there: places, signs, checks and facts."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from triage.errors import Place
from triage.knowledge.model.scale import NOWHERE, Basis

VERDICT, AFLOAT, TOW, HANDS = "verdict", "afloat", "tow", "hands"
OUTCOMES = (VERDICT, AFLOAT, TOW, HANDS)
ROLES = {
    VERDICT: ("looks", "watch", "weakened"),
    AFLOAT: ("fit", "limited", "left_behind", "barred"),
    TOW: ("fit", "barred"),
    HANDS: ("nobody", "owner", "handy", "professional"),
}
"""The parts that levels of the four outcomes play for the program, mildest first."""
NEEDED_ROLES = {VERDICT: ROLES[VERDICT], AFLOAT: ("fit", "barred"), TOW: ROLES[TOW], HANDS: ("professional",)}
"""Those without which a report cannot be made."""
NOTHING_SEEN = "nothing_seen"
SIDES = ("port", "starboard")
OTHER_SIDE = {"port": "starboard", "starboard": "port"}
BUOYANCY = "encloses_buoyancy"
"""The one word about a boat that is told place by place."""


@dataclass(frozen=True)
class Pass:
    """A way of passing a place without a mark: every scale of ``by`` at its best, on a boat with these facts."""

    by: tuple[str, ...]
    where: Mapping[str, str] = field(default_factory=dict)


@dataclass(frozen=True)
class Zone:
    """A place on the boat.

    ``passed_by``: sets of scales, any one of which at its best passes it, whatever is suspected there;
    ``passed_with``: what of these sets a mark there does not call for;
    ``passed_alone``: shorter ways, while neither a mark nor a suspicion is there;
    ``not_asked``: scales by which nothing is judged there.
    """

    id: str
    name: str
    trade: str
    leg: str
    order: int
    load: str
    criticality: str
    below_water: str
    encloses_buoyancy: str
    sided: bool
    neighbours: tuple[str, ...]
    groups: tuple[str, ...]
    reached: str
    trouble: str
    compare: str
    passed_by: tuple[tuple[str, ...], ...]
    how_passed: str
    also_open: tuple[str, ...]
    named_checks: bool
    only_if: Mapping[str, str] = field(default_factory=dict)
    passed_with: tuple[str, ...] = ()
    passed_alone: tuple[Pass, ...] = ()
    not_asked: frozenset[str] = frozenset()
    place: Place = field(default=NOWHERE, compare=False)


@dataclass(frozen=True)
class Cap:
    """The worst level a scale can have under a sign, and the sign it would otherwise be."""

    level: int
    otherwise: str


@dataclass(frozen=True)
class Sign:
    """What the eye, ear, hand or sponge notices."""

    id: str
    name: str
    picture: str
    not_this: str
    scales: tuple[str, ...]
    about: tuple[str, ...]
    about_in: Mapping[str, tuple[str, ...]]
    scales_in: Mapping[str, tuple[str, ...]]
    caps: Mapping[str, Cap]
    least: Mapping[str, int]
    above_zero: tuple[str, ...]
    named_checks: str
    also_named: tuple[str, ...]
    harmless: str
    place: Place = field(default=NOWHERE, compare=False)


@dataclass(frozen=True)
class Wait:
    """What goes by, besides the work, before a check gives its answer: in hours, and as people say it ("a night")."""

    hours: float
    say: str


@dataclass(frozen=True)
class Check:
    """What a person does to read scales. ``misses`` and ``false_alarms`` are fractions, ``minutes`` of work alone.

    One that ``loads`` what it tries is not planned at a place where something is structural already.
    """

    id: str
    name: str
    reads: tuple[str, ...]
    steps: tuple[str, ...]
    tools: tuple[str, ...]
    minutes: float
    dismantling: str
    helper: bool
    loads: bool
    care: str
    misses: float
    false_alarms: float
    only_in: tuple[str, ...]
    basis: Basis
    wait: Wait | None = None
    place: Place = field(default=NOWHERE, compare=False)


@dataclass(frozen=True)
class Fact:
    """A fact about the boat, asked once."""

    id: str
    asks: str
    values: Mapping[str, str]
    find_out: str
    place: Place = field(default=NOWHERE, compare=False)


@dataclass(frozen=True)
class Group:
    """Zones that rules speak of together."""

    id: str
    name: str
    zones: tuple[str, ...]
    place: Place = field(default=NOWHERE, compare=False)


@dataclass(frozen=True)
class Leg:
    """One stretch of the walk-round."""

    id: str
    name: str
    stand: str
    zones: tuple[str, ...]


@dataclass(frozen=True)
class Source:
    """A publication; ``seen`` says how much of it was read: text, excerpt or no.

    ``about`` is what it speaks of, where that is something else than small boats.
    """

    id: str
    title: str
    seen: str
    note: str
    about: str = ""
