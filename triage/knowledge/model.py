"""What is known, as frozen data. `load` makes the only KnowledgeBase; everything downstream is a function of it."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from functools import cached_property

from triage.errors import Place
from triage.knowledge.cause import Causation
from triage.knowledge.conditions import AtMost, Condition, parts
from triage.knowledge.frequencies import Frequencies
from triage.knowledge.promise import Promise
from triage.knowledge.repair import Mending
from triage.knowledge.scale import Basis as Basis
from triage.knowledge.scale import Level as Level
from triage.knowledge.scale import Measure as Measure
from triage.knowledge.scale import Scale as Scale
from triage.knowledge.words import Words

VERDICT, AFLOAT, TOW, HANDS = "verdict", "afloat", "tow", "hands"
OUTCOMES = (VERDICT, AFLOAT, TOW, HANDS)
NOTHING_SEEN = "nothing_seen"
SIDES = ("port", "starboard")
OTHER_SIDE = {"port": "starboard", "starboard": "port"}
BUOYANCY = "encloses_buoyancy"
"""The one word about a boat that is told place by place."""


@dataclass(frozen=True)
class Zone:
    """A place on the boat."""

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
    caps: Mapping[str, Cap]
    least: Mapping[str, int]
    above_zero: tuple[str, ...]
    named_checks: str
    also_named: tuple[str, ...]
    harmless: str


@dataclass(frozen=True)
class Check:
    """What a person does to read scales. ``misses`` and ``false_alarms`` are fractions, ``minutes`` of work.

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


@dataclass(frozen=True)
class Fact:
    """A fact about the boat, asked once."""

    id: str
    asks: str
    values: Mapping[str, str]
    find_out: str


@dataclass(frozen=True)
class Group:
    id: str
    name: str
    zones: tuple[str, ...]


@dataclass(frozen=True)
class Leg:
    """One stretch of the walk-round."""

    id: str
    name: str
    stand: str
    zones: tuple[str, ...]


@dataclass(frozen=True)
class Suspect:
    """Something not yet looked at that a rule sends people to."""

    zone: str
    sign: str


@dataclass(frozen=True)
class Advice:
    """A sentence for the person with the boat; ``kind`` is caution, do, never or recheck."""

    kind: str
    say: str


@dataclass(frozen=True)
class Case:
    """An example inside a rule: one finding, the others on the boat, and whether the rule fires on it."""

    words: Mapping[str, str]
    levels: Mapping[str, int]
    elsewhere: tuple[Case, ...]
    fires: bool
    place: Place


@dataclass(frozen=True, eq=False)
class Rule:
    """When the condition holds: raise derived scales, suspect other places, or say something."""

    id: str
    order: int
    when: Condition
    because: str
    basis: Basis
    place: Place
    raises: tuple[tuple[str, int], ...] = ()
    suspects: tuple[Suspect, ...] = ()
    advises: tuple[Advice, ...] = ()
    cases: tuple[Case, ...] = ()

    @property
    def speaks(self) -> bool:
        """Whether people are told something by it beside the levels it raises."""
        return bool(self.suspects or self.advises)


@dataclass(frozen=True, eq=False)
class Presumption:
    """When the condition holds on what was answered: the worst that these unanswered scales are taken to be."""

    id: str
    order: int
    when: Condition
    because: str
    basis: Basis
    place: Place
    presumes: tuple[tuple[str, int], ...] = ()
    cases: tuple[Case, ...] = ()

    @cached_property
    def rests_on(self) -> tuple[str, ...]:
        """The scales whose answers it needs."""
        return tuple(dict.fromkeys(part.scale for part in parts(self.when) if isinstance(part, AtMost)))


@dataclass(frozen=True)
class Source:
    """A publication; ``seen`` says how much of it was read: text, excerpt or no."""

    id: str
    title: str
    seen: str
    note: str


@dataclass(frozen=True, eq=False)
class KnowledgeBase:
    """Everything known, validated and complete. Compared and hashed by identity."""

    facts: Mapping[str, Fact]
    groups: Mapping[str, Group]
    walk: tuple[Leg, ...]
    zones: Mapping[str, Zone]
    signs: Mapping[str, Sign]
    scales: Mapping[str, Scale]
    checks: Mapping[str, Check]
    rules: tuple[Rule, ...]
    presumptions: tuple[Presumption, ...]
    sources: Mapping[str, Source]
    offers: Mapping[str, tuple[str, ...]] = field(default_factory=dict)
    promises: tuple[Promise, ...] = ()
    mending: Mending = field(default_factory=Mending)
    frequencies: Frequencies = field(default_factory=Frequencies)
    words: Words = field(default_factory=Words)
    causation: Causation = field(default_factory=Causation)

    @property
    def all_rules(self) -> tuple[Rule | Presumption, ...]:
        return (*self.rules, *self.presumptions)

    @cached_property
    def derived(self) -> frozenset[str]:
        """The scales that rules raise."""
        return frozenset(scale.id for scale in self.scales.values() if not scale.observed)

    def named_sets(self, zone: str, sign: str) -> tuple[frozenset[str], ...]:
        """The sets of checks of which one must be complete before a presumption may stand in for any of them.

        Empty where the zone has no named checks or the sign calls for none.
        """
        place, mark = self.zones[zone], self.signs[sign]
        if not place.named_checks or mark.named_checks == "none":
            return ()
        if mark.named_checks == "first":
            return (frozenset(place.passed_by[0][:1]),)
        return tuple(frozenset((*way, *mark.also_named)) for way in place.passed_by)

    def applicable(self, zone: str, sign: str) -> tuple[str, ...]:
        """The observed scales by which this sign is judged in this zone, in the order of the scales."""
        return self._applicable[zone, sign]

    @cached_property
    def _applicable(self) -> _Applicable:
        return _Applicable(self)

    def worst(self, sign: str, scale: str) -> int:
        """The worst level the sign allows on the scale."""
        cap = self.signs[sign].caps.get(scale)
        return self.scales[scale].top if cap is None else cap.level

    def best(self, sign: str, scale: str) -> int:
        """The mildest level the sign's own picture allows on the scale."""
        return self.signs[sign].least.get(scale, 0)

    def about(self, zone: str, sign: str) -> tuple[str, ...]:
        """The scales the sign itself is a reading of, in this zone."""
        mark = self.signs[sign]
        return mark.about_in.get(zone, mark.about)

    def checks_for(self, scale: str, zone: str) -> tuple[Check, ...]:
        """The checks that read the scale there, those made for this zone first, then quickest first."""
        here = [c for c in self.checks.values() if scale in c.reads and (not c.only_in or zone in c.only_in)]
        return tuple(sorted(here, key=lambda c: (not c.only_in, c.minutes, c.id)))

    def level_name(self, scale: str, level: int) -> str:
        return self.scales[scale].levels[level].name


class _Applicable(dict[tuple[str, str], tuple[str, ...]]):
    """Which scales apply, worked out once for each zone and sign."""

    def __init__(self, kb: KnowledgeBase) -> None:
        super().__init__()
        self.kb = kb

    def __missing__(self, key: tuple[str, str]) -> tuple[str, ...]:
        zone, sign = self.kb.zones[key[0]], self.kb.signs[key[1]]
        wanted = set(sign.scales)
        if sign.id == NOTHING_SEEN:
            wanted |= {scale for way in zone.passed_by for scale in way} | set(zone.also_open)
        for way in self.kb.named_sets(*key):
            wanted |= way
        self[key] = tuple(scale for scale in self.kb.scales if scale in wanted)
        return self[key]
