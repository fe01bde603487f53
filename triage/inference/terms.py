"""What it takes: every level of verdict, afloat and tow as the few observed levels that bring it about.

The rules that can hold for one sign in one zone, followed back through the derived scales, come to some dozens of short
lists. With them a thousand other answers can be tried in the time in which the rules are applied a few times, which is
what choosing a question needs. Nothing is concluded from them: what people are told comes from the engines.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field

from triage.inference.program import program_of
from triage.knowledge.compiled.conjuncts import Quantifier
from triage.knowledge.model import AFLOAT, TOW, VERDICT, KnowledgeBase
from triage.knowledge.per_knowledge import per_knowledge

ASKED_ABOUT = (VERDICT, AFLOAT, TOW)
"""What people ask about; who can mend it follows from the same readings."""


@dataclass(frozen=True)
class Term:
    """Observed levels, facts and other findings that are enough together."""

    levels: Mapping[str, int] = field(default_factory=dict)
    words: frozenset[tuple[str, frozenset[str]]] = frozenset()
    quantifiers: frozenset[Quantifier] = frozenset()

    def __or__(self, other: Term) -> Term:
        """What asks for all that either asks for."""
        levels = dict(self.levels)
        for scale, level in other.levels.items():
            levels[scale] = max(level, levels.get(scale, level))
        return Term(levels, self.words | other.words, self.quantifiers | other.quantifiers)

    def __le__(self, other: Term) -> bool:
        """Whether it asks for nothing that the other does not ask for."""
        return (
            all(other.levels.get(scale, 0) >= level for scale, level in self.levels.items())
            and self.words <= other.words
            and self.quantifiers <= other.quantifiers
        )

    @property
    def size(self) -> int:
        """How much it asks for: levels, facts and other findings together."""
        return sum(self.levels.values()) + len(self.words) + len(self.quantifiers)


Terms = Mapping[tuple[str, int], tuple[Term, ...]]


@per_knowledge
def terms_of(kb: KnowledgeBase, zone: str, sign: str) -> Terms:
    """For each level of each outcome, from 1 up, the terms of which any one brings it about."""
    unfolding = _Unfolding(kb, zone, sign)
    return {
        (scale, level): tuple(unfolding.terms(scale, level))
        for scale in ASKED_ABOUT
        for level in range(1, kb.scales[scale].top + 1)
    }


class _Unfolding:
    """Follows the rules for one sign in one zone back to what is observed."""

    def __init__(self, kb: KnowledgeBase, zone: str, sign: str) -> None:
        self.kb, self.sign = kb, sign
        self.applicable = set(kb.applicable(zone, sign))
        self.rules = [compiled for stratum in program_of(kb).rules_for(zone, sign) for compiled in stratum]
        self.done: dict[tuple[str, int], list[Term]] = {}

    def terms(self, scale: str, level: int) -> list[Term]:
        if self.kb.scales[scale].observed:
            possible = scale in self.applicable and level <= self.kb.worst(self.sign, scale)
            return [Term({scale: level})] if possible else []
        if (scale, level) not in self.done:
            raising = [c for c in self.rules if any(to >= level for raised, to in c.rule.raises if raised == scale)]
            found: list[Term] = []
            for conjunct in (conjunct for compiled in raising for conjunct in compiled.conjuncts):
                alternatives = [Term({}, frozenset(conjunct.words), frozenset(conjunct.quantifiers))]
                for read, needed in conjunct.levels:
                    more = self.terms(read, needed)
                    alternatives = _fewest(one | other for one in alternatives for other in more)
                found.extend(alternatives)
            self.done[scale, level] = _fewest(found)
        return self.done[scale, level]


def _fewest(terms: Iterable[Term]) -> list[Term]:
    """The terms without those that ask for all that another asks for, and more."""
    kept: list[Term] = []
    for term in sorted(terms, key=lambda term: term.size):
        if not any(other <= term for other in kept):
            kept.append(term)
    return kept
