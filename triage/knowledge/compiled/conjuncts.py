"""Conditions in the form the engines use: a rule holds when one of its conjuncts does, and
a conjunct when all its tests do.

Facts that follow from the zone alone (criticality, load, group, below_water) are resolved here into sets of zones.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from triage.knowledge.model import KnowledgeBase, Zone
from triage.knowledge.model.conditions import All, Any, AtLeast, AtMost, Condition, Elsewhere, Is, Where


@dataclass(frozen=True)
class Quantifier:
    """A question about the other findings: do at least ``count`` of them satisfy one of ``conjuncts``?"""

    conjuncts: tuple[Conjunct, ...]
    count: int
    where: Where


@dataclass(frozen=True)
class Conjunct:
    """All of these hold. ``zones`` or ``signs`` None means any.

    ``levels`` are scales at this level or worse, ``bounds`` (presumptions only) scales answered no worse than this.
    """

    zones: frozenset[str] | None = None
    signs: frozenset[str] | None = None
    words: tuple[tuple[str, frozenset[str]], ...] = ()
    levels: tuple[tuple[str, int], ...] = ()
    bounds: tuple[tuple[str, int], ...] = ()
    quantifiers: tuple[Quantifier, ...] = ()

    def fits(self, zone: str, sign: str) -> bool:
        """Whether the conjunct can hold for this sign in this zone at all."""
        return (self.zones is None or zone in self.zones) and (self.signs is None or sign in self.signs)


def conjuncts_of(kb: KnowledgeBase, condition: Condition) -> tuple[Conjunct, ...]:
    """The condition as alternatives, in the order they are written; those that can never hold are left out."""
    found = (joined for joined in map(conjunction, _alternatives(kb, condition)) if joined is not None)
    return tuple(dict.fromkeys(found))


def _alternatives(kb: KnowledgeBase, condition: Condition) -> list[tuple[Conjunct, ...]]:
    """Alternatives as tuples of one-test conjuncts, to be merged."""
    match condition:
        case Is(word, values):
            return [(_word(kb, word, values),)]
        case AtLeast(scale, level):
            return [(Conjunct(levels=((scale, level),)),)]
        case AtMost(scale, level):
            return [(Conjunct(bounds=((scale, level),)),)]
        case Elsewhere(inner, count, where):
            return [(Conjunct(quantifiers=(Quantifier(conjuncts_of(kb, inner), count, where),)),)]
        case Any(parts):
            return [alternative for part in parts for alternative in _alternatives(kb, part)]
        case All(parts):
            product: list[tuple[Conjunct, ...]] = [()]
            for part in parts:
                product = [left + right for left in product for right in _alternatives(kb, part)]
            return product


def _word(kb: KnowledgeBase, word: str, values: tuple[str, ...]) -> Conjunct:
    if word == "zone":
        return Conjunct(zones=frozenset(values))
    if word == "sign":
        return Conjunct(signs=frozenset(values))
    if word in ("criticality", "load", "below_water", "group"):
        return Conjunct(zones=frozenset(z.id for z in kb.zones.values() if set(zone_words(z)[word]) & set(values)))
    return Conjunct(words=((word, frozenset(values)),))


def zone_words(zone: Zone) -> Mapping[str, tuple[str, ...]]:
    """The facts that follow from the zone alone, each with all its values."""
    return {
        "zone": (zone.id,),
        "criticality": (zone.criticality,),
        "load": (zone.load,),
        "below_water": (zone.below_water,),
        "group": zone.groups,
    }


def conjunction(tests: Iterable[Conjunct]) -> Conjunct | None:
    """One conjunct that asks for all that these ask for; None when no zone or no sign could satisfy it."""
    zones: frozenset[str] | None = None
    signs: frozenset[str] | None = None
    words: dict[str, frozenset[str]] = {}
    levels: dict[str, int] = {}
    bounds: dict[str, int] = {}
    quantifiers: dict[Quantifier, None] = {}
    for test in tests:
        zones = _both(zones, test.zones)
        signs = _both(signs, test.signs)
        for word, values in test.words:
            words[word] = words[word] & values if word in words else values
        for scale, level in test.levels:
            levels[scale] = max(level, levels.get(scale, 0))
        for scale, bound in test.bounds:
            bounds[scale] = min(bound, bounds.get(scale, bound))
        quantifiers.update(dict.fromkeys(test.quantifiers))
    if frozenset() in (zones, signs):
        return None  # words may exclude each other: where nobody knows the fact, each still matches at the ceiling
    return Conjunct(
        zones, signs, tuple(words.items()), tuple(levels.items()), tuple(bounds.items()), tuple(quantifiers)
    )


def _both(left: frozenset[str] | None, right: frozenset[str] | None) -> frozenset[str] | None:
    if left is None or right is None:
        return left if right is None else right
    return left & right
