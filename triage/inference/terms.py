"""What it takes: every level of verdict, afloat and tow as the few observed levels that bring it about.

The rules that can hold for one sign in one zone, followed back through the derived scales, come to some dozens of short
lists. With them a thousand other answers can be tried in the time in which the rules are applied a few times, which is
what choosing a question needs. Nothing is concluded from them: what people are told comes from the engines.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field

from triage.inference.program import CompiledRule, program_of
from triage.knowledge.compiled.conjuncts import Conjunct, Quantifier
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


Terms = Mapping[tuple[str, int], tuple[Term, ...]]


@per_knowledge
def terms_of(kb: KnowledgeBase, zone: str, sign: str) -> Terms:
    """For each level of each outcome, from 1 up, the terms of which any one brings it about."""
    unfolding = Unfolding(kb, zone, sign)
    return {
        (scale, level): tuple(map(unfolding.bits.term, unfolding.terms(scale, level)))
        for scale in ASKED_ABOUT
        for level in range(1, kb.scales[scale].top + 1)
    }


Other = tuple[str, frozenset[str]] | Quantifier
"""What a term may ask for beside levels: a fact to be one of these, or other findings."""


class Bits:
    """A term as bits of a number: asking for all that two terms ask for is "or", asking for no more is a subset.

    A level is a bit for itself and for each below it, from 1 up.
    """

    def __init__(self, kb: KnowledgeBase, zone: str, sign: str) -> None:
        self.levels = {
            (scale, level): 1 << number
            for number, (scale, level) in enumerate(
                (scale, level) for scale in kb.applicable(zone, sign) for level in range(1, kb.worst(sign, scale) + 1)
            )
        }
        self.others: dict[Other, int] = {}

    def level(self, scale: str, level: int) -> int:
        """A scale at this level; 0 bits when the mark cannot have it."""
        if (scale, level) not in self.levels:
            return 0
        return sum(self.levels[scale, below] for below in range(1, level + 1))

    def conjunct(self, conjunct: Conjunct) -> int:
        """What a conjunct asks for beside levels."""
        asked: tuple[Other, ...] = (*conjunct.words, *conjunct.quantifiers)
        bits = 0
        for other in asked:
            bits |= self.others.setdefault(other, 1 << (len(self.levels) + len(self.others)))
        return bits

    def term(self, bits: int) -> Term:
        """The term that these bits are."""
        levels = {scale: level for (scale, level), bit in self.levels.items() if bits & bit}
        asked = [other for other, bit in self.others.items() if bits & bit]
        quantifiers = frozenset(other for other in asked if isinstance(other, Quantifier))
        return Term(levels, frozenset(other for other in asked if not isinstance(other, Quantifier)), quantifiers)


class Unfolding:
    """Follows rules, and whatever else has a condition, for one sign in one zone back to what is observed."""

    def __init__(self, kb: KnowledgeBase, zone: str, sign: str) -> None:
        self.kb, self.bits = kb, Bits(kb, zone, sign)
        self.raising: dict[str, list[tuple[int, CompiledRule]]] = {}
        for compiled in (compiled for stratum in program_of(kb).rules_for(zone, sign) for compiled in stratum):
            for scale, level in compiled.rule.raises:
                self.raising.setdefault(scale, []).append((level, compiled))
        self.done: dict[tuple[str, int], list[int]] = {}

    def terms(self, scale: str, level: int) -> list[int]:
        """The terms that bring the scale to this level, as bits; those that ask for least first."""
        if self.kb.scales[scale].observed:
            bits = self.bits.level(scale, level)
            return [bits] if bits else []
        if (scale, level) not in self.done:
            raising = [compiled for to, compiled in self.raising.get(scale, ()) if to >= level]
            self.done[scale, level] = self.any_of(conjunct for compiled in raising for conjunct in compiled.conjuncts)
        return self.done[scale, level]

    def any_of(self, conjuncts: Iterable[Conjunct]) -> list[int]:
        """The terms of which any one makes one of these hold, where all of them can hold for the mark."""
        found: list[int] = []
        for conjunct in conjuncts:
            alternatives = [self.bits.conjunct(conjunct)]
            for read, needed in conjunct.levels:
                more = self.terms(read, needed)
                alternatives = fewest(one | other for one in alternatives for other in more)
            found.extend(alternatives)
        return fewest(found)


def fewest(terms: Iterable[int]) -> list[int]:
    """The terms, as bits, without those that ask for all that another asks for, and more."""
    kept: list[int] = []
    for term in sorted(terms, key=int.bit_count):
        if not any(other & term == other for other in kept):
            kept.append(term)
    return kept
