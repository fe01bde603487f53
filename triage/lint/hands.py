"""An owner's repair where rules ask for a repairer: who does it would not agree with the work told, and its price."""

from __future__ import annotations

import functools
import itertools
import operator
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from triage.concluding.mending import meant
from triage.errors import Problem
from triage.inference.terms import Unfolding, fewest
from triage.knowledge.compiled.conjuncts import Conjunct, conjuncts_of
from triage.knowledge.model import HANDS, KnowledgeBase, Rule
from triage.knowledge.model.cause import Mark
from triage.knowledge.model.repair import Repair

Pair = tuple[Repair, Rule]
Asking = tuple[int, Rule, list[int]]
"""Hands that are asked for, by which rule, and the terms of which any one makes it ask."""


@dataclass(frozen=True)
class Disagreement:
    """An owner's repair that is told where a rule asks for a repairer; ``mark`` is the first on which it is so."""

    repair: Repair
    rule: Rule
    mark: Mark


def hands_problems(kb: KnowledgeBase) -> Iterator[Problem]:
    """Each pair once, at the repair."""
    for one in disagreements(kb):
        repair, rule, (zone, sign) = one.repair, one.rule, one.mark
        asks = f"{rule.id} asks for: {kb.level_name(HANDS, dict(rule.raises)[HANDS])}"
        what = f"{repair.id} is written for: {kb.level_name(HANDS, repair.who)}; for {sign} at {zone} {asks}"
        yield Problem(repair.place, what, "Write a repair of that trade that fits there too, or narrow the rule.")


def disagreements(kb: KnowledgeBase) -> tuple[Disagreement, ...]:
    """All of them, exactly, for a mark on which everything is answered: repair by repair, rule by rule.

    Rules and repairs only ask for more. So where a repair and a rule hold together and nothing that would overrule them
    does, this is so as well with no more than both ask for, and only that has to be tried. What they ask of other
    findings is taken as something that can be so.
    """
    found: dict[Pair, Mark] = {}
    for zone, signs in kb.offers.items():
        for sign in signs:
            for pair in _OneMark(kb, zone, sign).pairs():
                found.setdefault(pair, (zone, sign))
    pairs = (Disagreement(repair, rule, mark) for (repair, rule), mark in found.items())
    return tuple(sorted(pairs, key=lambda one: (one.repair.order, one.rule.order)))


class _OneMark:
    """What one sign in one zone asks for before a repair is the one meant, and before a rule speaks of hands."""

    def __init__(self, kb: KnowledgeBase, zone: str, sign: str) -> None:
        self.kb = kb
        self.professional = kb.level_of(HANDS, "professional")
        self.unfolding = Unfolding(kb, zone, sign)
        bits = self.unfolding.bits
        self.shown = 0
        for scale in kb.applicable(zone, sign):
            self.shown |= bits.level(scale, kb.best(sign, scale))
        self.repairs = [
            (repair, self.terms([one for one in conjuncts_of(kb, repair.when) if one.fits(zone, sign)]))
            for repair in kb.mending.repairs
        ]
        self.rules: list[Asking] = [
            (level, compiled.rule, self.terms(compiled.conjuncts))
            for level, compiled in self.unfolding.raising.get(HANDS, ())
        ]

    def terms(self, conjuncts: Sequence[Conjunct]) -> list[int]:
        """What the picture of the mark leaves to be asked for, of which any one is enough."""
        return fewest(term & ~self.shown for term in self.unfolding.any_of(conjuncts))

    def pairs(self) -> Iterator[Pair]:
        """Each repair with each rule that it disagrees with."""
        skilled = [(rule, terms) for level, rule, terms in self.rules if level >= self.professional]
        for repair, its_terms in self.repairs:
            if repair.who >= self.professional:
                continue
            for rule, terms in skilled:
                together = fewest(one | other for one in its_terms for other in terms)
                if any(self.told(state) is repair for term in together for state in self.states(term)):
                    yield repair, rule

    def told(self, state: int) -> Repair | None:
        """The repair that is told of those that fit."""
        fitting = [repair for repair, terms in self.repairs if _holds(terms, state)]
        return meant(self.kb, fitting, self.asked(state))

    def asked(self, state: int) -> int:
        """The hands that the rules ask for."""
        return max((level for level, _, terms in self.rules if _holds(terms, state)), default=0)

    def states(self, term: int) -> Iterator[int]:
        """The term as it is met: one value for each fact that it asks about, and all that this value answers."""
        facts = [(bit, *other) for other, bit in self.unfolding.bits.others.items() if isinstance(other, tuple)]
        asked: dict[str, frozenset[str]] = {}
        for bit, fact, values in facts:
            if term & bit:
                asked[fact] = asked.get(fact, values) & values
        for chosen in itertools.product(*map(sorted, asked.values())):
            told = dict(zip(asked, chosen, strict=True))
            answered = (bit for bit, fact, values in facts if told.get(fact) in values)
            yield functools.reduce(operator.or_, answered, term)


def _holds(terms: Sequence[int], state: int) -> bool:
    return any(term & state == term for term in terms)
