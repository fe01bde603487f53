"""Where a claim is worth asking: the signs in zones that a conjunct can hold of at all, the likely ones first."""

from __future__ import annotations

import itertools
from collections import Counter
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from typing import TypeAlias

from triage.inference.evaluate import evaluate
from triage.inference.program import program_of
from triage.knowledge.compiled.conjuncts import Conjunct, Quantifier
from triage.knowledge.model import KnowledgeBase
from triage.knowledge.per_knowledge import per_knowledge
from triage.survey.model import Boat, Finding, Reading

ZoneSign: TypeAlias = tuple[str, str]
"""A zone and a sign."""


Mix: TypeAlias = Callable[[Sequence[ZoneSign], int], Iterable[tuple[ZoneSign, ...]]]
"""Out of what could answer a question about other findings, the sets of as many findings as it asks for."""


def any_mix(able: Sequence[ZoneSign], count: int) -> Iterable[tuple[ZoneSign, ...]]:
    """Every set; what holds of every boat must hold of each of them."""
    return itertools.combinations_with_replacement(able, count)


def all_alike(able: Sequence[ZoneSign], count: int) -> Iterable[tuple[ZoneSign, ...]]:
    """Sets of one kind, which are enough where one boat has to be found."""
    return ((pair,) * count for pair in able)


def candidates_for(
    kb: KnowledgeBase, conjuncts: Iterable[Conjunct], pair: ZoneSign, mix: Mix
) -> list[tuple[ZoneSign, ...]]:
    """The sign in its zone by itself, or with whatever else on the boat could answer what a conjunct asks of others."""
    found: dict[tuple[ZoneSign, ...], None] = {}
    for conjunct in conjuncts:
        if could_hold(kb, conjunct, pair):
            sets = [mix(_able_to_answer(kb, quantifier), quantifier.count) for quantifier in conjunct.quantifiers]
            for chosen in itertools.product(*sets):
                found |= dict.fromkeys((pair, *context) for context in _contexts(chosen))
    return list(found)


def _contexts(chosen: Sequence[tuple[ZoneSign, ...]]) -> Iterator[tuple[ZoneSign, ...]]:
    """The findings that answer several quantifiers: each kind as often as one needs it, up to as often as all do.

    One finding may answer more than one of them, and a boat on which it does is milder than one with two of its kind.
    """
    counts = [Counter(some) for some in chosen]
    kinds = list(dict.fromkeys(pair for some in chosen for pair in some))
    often = [range(max(c[kind] for c in counts), sum(c[kind] for c in counts) + 1) for kind in kinds]
    for numbers in itertools.product(*often):
        yield tuple(kind for kind, number in zip(kinds, numbers, strict=True) for _ in range(number))


def with_context(kb: KnowledgeBase, pair: ZoneSign) -> list[tuple[ZoneSign, ...]]:
    """The sign in its zone with whatever else on the boat could answer what any rule there asks of others."""
    found: dict[tuple[ZoneSign, ...], None] = {}
    for stratum in program_of(kb).rules_for(*pair):
        for compiled in stratum:
            found |= dict.fromkeys(candidates_for(kb, compiled.conjuncts, pair, all_alike))
    found.pop((pair,), None)
    return list(found)


def could_hold(kb: KnowledgeBase, conjunct: Conjunct, pair: ZoneSign) -> bool:
    """The conjunct fits the sign in the zone, and the observed scales it reads apply there."""
    applicable = kb.applicable(*pair)
    return conjunct.fits(*pair) and all(
        not kb.scales[scale].observed or (scale in applicable and level <= kb.worst(pair[1], scale))
        for scale, level in conjunct.levels
    )


def likely(kb: KnowledgeBase, conjuncts: Iterable[Conjunct], pair: ZoneSign) -> bool:
    """One of the conjuncts could hold, and nothing that it reads of its own finding needs context to come about."""
    worst = at_worst(kb)[pair]
    return any(
        could_hold(kb, conjunct, pair) and all(worst.get(scale, 0) >= level for scale, level in conjunct.levels)
        for conjunct in conjuncts
    )


@per_knowledge
def at_worst(kb: KnowledgeBase) -> Mapping[ZoneSign, Mapping[str, int]]:
    """For each sign in each zone the worst level that every scale can reach with nothing else on the boat."""
    return {(zone, sign): _worst(kb, zone, sign) for zone, signs in kb.offers.items() for sign in signs}


def _worst(kb: KnowledgeBase, zone: str, sign: str) -> Mapping[str, int]:
    readings = {scale: Reading.at(kb.worst(sign, scale), "worst") for scale in kb.applicable(zone, sign)}
    (judged,) = evaluate(kb, Boat("any"), [Finding("any", zone, sign, None, readings)])
    return judged.upper.levels


@per_knowledge
def _able_to_answer(kb: KnowledgeBase, quantifier: Quantifier) -> list[ZoneSign]:
    """What else on the boat could answer a quantifier."""
    pairs = [(zone, sign) for zone, signs in kb.offers.items() for sign in signs]
    able = [pair for pair in pairs if any(could_hold(kb, conjunct, pair) for conjunct in quantifier.conjuncts)]
    return sorted(able, key=lambda pair: not likely(kb, quantifier.conjuncts, pair))
