"""Where a claim is worth asking: the signs in zones that a clause can hold of at all, the likely ones first."""

from __future__ import annotations

import itertools
from collections import Counter
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from functools import lru_cache
from typing import TypeAlias

from triage.inference.evaluate import evaluate
from triage.inference.program import program_of
from triage.knowledge.clauses import Clause, Probe
from triage.knowledge.model import KnowledgeBase
from triage.survey.model import Boat, Finding, Reading

Spot: TypeAlias = tuple[str, str]
"""A zone and a sign."""


Mix: TypeAlias = Callable[[Sequence[Spot], int], Iterable[tuple[Spot, ...]]]
"""Out of what could answer a question about other findings, the sets of as many findings as it asks for."""


def any_mix(able: Sequence[Spot], count: int) -> Iterable[tuple[Spot, ...]]:
    """Every set; what holds of every boat must hold of each of them."""
    return itertools.combinations_with_replacement(able, count)


def all_alike(able: Sequence[Spot], count: int) -> Iterable[tuple[Spot, ...]]:
    """Sets of one kind, which are enough where one boat has to be found."""
    return ((spot,) * count for spot in able)


def grounds_for(kb: KnowledgeBase, clauses: Iterable[Clause], spot: Spot, mix: Mix) -> list[tuple[Spot, ...]]:
    """The sign in its zone by itself, or with whatever else on the boat could answer what a clause asks of others."""
    found: dict[tuple[Spot, ...], None] = {}
    for clause in clauses:
        if could_hold(kb, clause, spot):
            sets = [mix(_answering(kb, probe), probe.count) for probe in clause.probes]
            for chosen in itertools.product(*sets):
                found |= dict.fromkeys((spot, *company) for company in _companies(chosen))
    return list(found)


def _companies(chosen: Sequence[tuple[Spot, ...]]) -> Iterator[tuple[Spot, ...]]:
    """The findings that answer several questions: each kind as often as one needs it, up to as often as all do.

    One finding may answer more than one question, and a boat on which it does is milder than one with two of its kind.
    """
    counts = [Counter(some) for some in chosen]
    kinds = list(dict.fromkeys(spot for some in chosen for spot in some))
    often = [range(max(c[kind] for c in counts), sum(c[kind] for c in counts) + 1) for kind in kinds]
    for numbers in itertools.product(*often):
        yield tuple(kind for kind, number in zip(kinds, numbers, strict=True) for _ in range(number))


def with_company(kb: KnowledgeBase, spot: Spot) -> list[tuple[Spot, ...]]:
    """The sign in its zone with whatever else on the boat could answer what any rule there asks of others."""
    found: dict[tuple[Spot, ...], None] = {}
    for layer in program_of(kb).rules_for(*spot):
        for compiled in layer:
            found |= dict.fromkeys(grounds_for(kb, compiled.clauses, spot, all_alike))
    found.pop((spot,), None)
    return list(found)


def could_hold(kb: KnowledgeBase, clause: Clause, spot: Spot) -> bool:
    """The clause fits the sign in the zone, and the observed scales it reads apply there."""
    applicable = kb.applicable(*spot)
    return clause.fits(*spot) and all(
        not kb.scales[scale].observed or (scale in applicable and level <= kb.worst(spot[1], scale))
        for scale, level in clause.levels
    )


def likely(kb: KnowledgeBase, clauses: Iterable[Clause], spot: Spot) -> bool:
    """One of the clauses could hold, and nothing that it reads of its own finding needs company to come about."""
    worst = at_worst(kb)[spot]
    return any(
        could_hold(kb, clause, spot) and all(worst.get(scale, 0) >= level for scale, level in clause.levels)
        for clause in clauses
    )


@lru_cache(maxsize=4)
def at_worst(kb: KnowledgeBase) -> Mapping[Spot, Mapping[str, int]]:
    """For each sign in each zone the worst level that every scale can reach with nothing else on the boat."""
    return {(zone, sign): _worst(kb, zone, sign) for zone, signs in kb.offers.items() for sign in signs}


def _worst(kb: KnowledgeBase, zone: str, sign: str) -> Mapping[str, int]:
    readings = {scale: Reading(kb.worst(sign, scale), "worst") for scale in kb.applicable(zone, sign)}
    (judged,) = evaluate(kb, Boat("any"), [Finding("any", zone, sign, None, readings)])
    return judged.ceiling.levels


@lru_cache(maxsize=1000)
def _answering(kb: KnowledgeBase, probe: Probe) -> list[Spot]:
    """What else on the boat could answer a probe."""
    spots = [(zone, sign) for zone, signs in kb.offers.items() for sign in signs]
    able = [spot for spot in spots if any(could_hold(kb, clause, spot) for clause in probe.clauses)]
    return sorted(able, key=lambda spot: not likely(kb, probe.clauses, spot))
