"""The rules of a knowledge base in the order they can be applied.

A rule may read scales that other rules raise. Derived scales form strata: those of a stratum are final once every rule
that reads only earlier strata has been applied, so going through the strata once reaches the least fixpoint.
"""

from __future__ import annotations

from dataclasses import dataclass, field

from triage.knowledge.compiled import orders
from triage.knowledge.compiled.conjuncts import Conjunct, Quantifier, conjuncts_of
from triage.knowledge.compiled.reads import derived_read
from triage.knowledge.model import KnowledgeBase, Presumption, Rule
from triage.knowledge.per_knowledge import per_knowledge


@dataclass(frozen=True, eq=False)
class CompiledRule:
    """A rule with its conjuncts."""

    rule: Rule
    conjuncts: tuple[Conjunct, ...]


@dataclass(frozen=True, eq=False)
class CompiledPresumption:
    """A presumption with its conjuncts."""

    presumption: Presumption
    conjuncts: tuple[Conjunct, ...]


@dataclass(frozen=True, eq=False)
class Stratum:
    """Rules whose every reading is final by now, and the quantifiers that they need answered."""

    rules: tuple[CompiledRule, ...]
    quantifiers: tuple[Quantifier, ...]


@dataclass(eq=False)
class Program:
    """Layers of rules, and for each (zone, sign) those that can hold there.

    ``words`` are the facts that rules test and that differ from boat to boat or from side to side.
    """

    kb: KnowledgeBase
    strata: tuple[Stratum, ...]
    presumptions: tuple[CompiledPresumption, ...]
    words: frozenset[str]
    _here: dict[tuple[str, str], tuple[tuple[CompiledRule, ...], ...]] = field(default_factory=dict)
    _asked_here: dict[tuple[str, str], tuple[tuple[tuple[Quantifier, tuple[Conjunct, ...]], ...], ...]] = field(
        default_factory=dict
    )
    _presumed_here: dict[tuple[str, str], tuple[CompiledPresumption, ...]] = field(default_factory=dict)

    def rules_for(self, zone: str, sign: str) -> tuple[tuple[CompiledRule, ...], ...]:
        """By stratum, the rules that can hold for this sign in this zone, with only the conjuncts that can."""
        key = (zone, sign)
        if key not in self._here:
            self._here[key] = tuple(
                tuple(
                    CompiledRule(compiled.rule, fitting)
                    for compiled in stratum.rules
                    if (fitting := tuple(conjunct for conjunct in compiled.conjuncts if conjunct.fits(zone, sign)))
                )
                for stratum in self.strata
            )
        return self._here[key]

    def quantifiers_for(self, zone: str, sign: str) -> tuple[tuple[tuple[Quantifier, tuple[Conjunct, ...]], ...], ...]:
        """By stratum, the quantifiers that this sign in this zone can satisfy, with the conjuncts by which it can."""
        key = (zone, sign)
        if key not in self._asked_here:
            self._asked_here[key] = tuple(
                tuple(
                    (quantifier, fitting)
                    for quantifier in stratum.quantifiers
                    if (fitting := tuple(conjunct for conjunct in quantifier.conjuncts if conjunct.fits(zone, sign)))
                )
                for stratum in self.strata
            )
        return self._asked_here[key]

    def presumptions_for(self, zone: str, sign: str) -> tuple[CompiledPresumption, ...]:
        """The presumptions that can hold for this sign in this zone."""
        key = (zone, sign)
        if key not in self._presumed_here:
            self._presumed_here[key] = tuple(
                compiled
                for compiled in self.presumptions
                if any(conjunct.fits(zone, sign) for conjunct in compiled.conjuncts)
            )
        return self._presumed_here[key]


@per_knowledge
def program_of(kb: KnowledgeBase) -> Program:
    """The rules of ``kb``, compiled and layered once."""
    return compile_rules(kb)


def compile_rules(kb: KnowledgeBase) -> Program:
    """The rules of ``kb``, compiled and layered anew."""
    depth = orders.strata(kb)
    by_layer: dict[int, list[CompiledRule]] = {}
    for rule in kb.rules:
        stratum = max((depth[scale] for scale in derived_read(kb, rule)), default=0)
        by_layer.setdefault(stratum, []).append(CompiledRule(rule, conjuncts_of(kb, rule.when)))
    strata = []
    for _, rules in sorted(by_layer.items()):
        quantifiers = (
            quantifier for compiled in rules for conjunct in compiled.conjuncts for quantifier in conjunct.quantifiers
        )
        strata.append(Stratum(tuple(rules), tuple(dict.fromkeys(quantifiers))))
    presumptions = (CompiledPresumption(p, conjuncts_of(kb, p.when)) for p in kb.presumptions)
    return Program(kb, tuple(strata), tuple(presumptions), _words(strata))


def _words(strata: list[Stratum]) -> frozenset[str]:
    tested = [conjunct for stratum in strata for compiled in stratum.rules for conjunct in compiled.conjuncts]
    probed = [conjunct for stratum in strata for quantifier in stratum.quantifiers for conjunct in quantifier.conjuncts]
    return frozenset(word for conjunct in (*tested, *probed) for word, _ in conjunct.words)
