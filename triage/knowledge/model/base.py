"""The KnowledgeBase: everything known, as frozen data. The loader makes it; all else is a function of it."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from functools import cached_property

from triage.knowledge.model.cause import Causation
from triage.knowledge.model.event import Happenings
from triage.knowledge.model.everyday import Everyday
from triage.knowledge.model.frequencies import Frequencies
from triage.knowledge.model.lexicon import Lexicon
from triage.knowledge.model.ontology import NOTHING_SEEN, Check, Fact, Group, Leg, Sign, Source, Zone
from triage.knowledge.model.promise import Promise
from triage.knowledge.model.purchase import Purchase
from triage.knowledge.model.repair import Mending
from triage.knowledge.model.rule import Presumption, Rule
from triage.knowledge.model.scale import Scale
from triage.knowledge.model.sums import Sum
from triage.knowledge.model.teaching import Teaching


@dataclass(frozen=True, eq=False, repr=False)
class KnowledgeBase:
    """Everything known, validated and complete. Compared and hashed by identity.

    ``digest`` is the SHA-256 (hexadecimal) of the files it was read from, and empty when it was not read from files.
    One that is made from another in Python keeps the other's digest unless it is given one of its own.
    """

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
    lexicon: Lexicon = field(default_factory=Lexicon)
    causation: Causation = field(default_factory=Causation)
    digest: str = ""
    everyday: Everyday = field(default_factory=Everyday)
    happenings: Happenings = field(default_factory=Happenings)
    purchase: Purchase = field(default_factory=Purchase)
    sums: Mapping[str, Sum] = field(default_factory=dict)
    teaching: Teaching = field(default_factory=Teaching)

    def __repr__(self) -> str:
        """How much it holds: a failing test prints it, and the whole is 35,000 lines."""
        counts = {"rules": self.rules, "presumptions": self.presumptions, "zones": self.zones, "signs": self.signs}
        return f"KnowledgeBase({', '.join(f'{len(some)} {name}' for name, some in counts.items())})"

    def __getstate__(self) -> dict[str, object]:
        """Only what is known goes to another process; what was worked out of it is worked out there again."""
        return {name: vars(self)[name] for name in self.__dataclass_fields__}

    @cached_property
    def worked_out(self) -> dict[object, object]:
        """What functions of this knowledge base came to; it is freed with it (see `per_knowledge`)."""
        return {}

    @property
    def all_rules(self) -> tuple[Rule | Presumption, ...]:
        """Rules, then presumptions, each in the order of the files."""
        return (*self.rules, *self.presumptions)

    @cached_property
    def fact_values(self) -> frozenset[tuple[str, str]]:
        """Every fact about a boat with each value that it can have."""
        return frozenset((fact.id, value) for fact in self.facts.values() for value in fact.values)

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
            return (frozenset((*place.passed_by[0][:1], *mark.also_named)),)
        left_out = set() if sign == NOTHING_SEEN else set(place.passed_with)
        return tuple(frozenset((*way, *mark.also_named)) - left_out for way in place.passed_by)

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

    def level_of(self, scale: str, role: str) -> int:
        """The level of an outcome that plays this role. Raises KeyError when none does."""
        return self._roles[scale, role]

    @cached_property
    def _roles(self) -> Mapping[tuple[str, str], int]:
        return {
            (scale.id, level.role): number
            for scale in self.scales.values()
            for number, level in enumerate(scale.levels)
            if level.role
        }

    def level_name(self, scale: str, level: int) -> str:
        """The name of a level. Raises KeyError for an unknown scale and IndexError for a level above its top."""
        return self.scales[scale].levels[level].name


class _Applicable(dict[tuple[str, str], tuple[str, ...]]):
    """Which scales apply, worked out once for each zone and sign."""

    def __init__(self, kb: KnowledgeBase) -> None:
        super().__init__()
        self.kb = kb

    def __missing__(self, key: tuple[str, str]) -> tuple[str, ...]:
        zone, sign = self.kb.zones[key[0]], self.kb.signs[key[1]]
        wanted = {*sign.scales, *sign.scales_in.get(zone.id, ())}
        if sign.id == NOTHING_SEEN:
            wanted |= {scale for way in zone.passed_by for scale in way} | set(zone.also_open)
            wanted |= {scale for way in zone.passed_alone for scale in way.by}
        for way in self.kb.named_sets(*key):
            wanted |= way
        self[key] = tuple(scale for scale in self.kb.scales if scale in wanted - zone.not_asked)
        return self[key]
