"""Where a claim is worth asking: the signs in zones that a clause can hold of at all, the likely ones first."""

from __future__ import annotations

import itertools
from collections.abc import Iterable, Mapping
from functools import lru_cache
from typing import TypeAlias

from triage.inference.evaluate import evaluate
from triage.inference.program import program_of
from triage.knowledge.clauses import Clause, Probe
from triage.knowledge.model import KnowledgeBase
from triage.survey.model import Boat, Finding, Reading

Spot: TypeAlias = tuple[str, str]
"""A zone and a sign."""


def grounds_for(kb: KnowledgeBase, clauses: Iterable[Clause], spot: Spot) -> list[tuple[Spot, ...]]:
    """The sign in its zone by itself, or with whatever else on the boat could answer what a clause asks of others."""
    found: dict[tuple[Spot, ...], None] = {}
    for clause in clauses:
        if could_hold(kb, clause, spot):
            others = [_answering(kb, probe) for probe in clause.probes]
            for chosen in itertools.product(*others):
                pairs = zip(chosen, clause.probes, strict=True)
                found[spot, *(other for other, probe in pairs for _ in range(probe.count))] = None
    return list(found)


def with_company(kb: KnowledgeBase, spot: Spot) -> list[tuple[Spot, ...]]:
    """The sign in its zone with whatever else on the boat could answer what any rule there asks of others."""
    found: dict[tuple[Spot, ...], None] = {}
    for layer in program_of(kb).rules_for(*spot):
        for compiled in layer:
            found |= dict.fromkeys(grounds_for(kb, compiled.clauses, spot))
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
