"""The rules of a knowledge base in the order they can be applied.

A rule may read scales that other rules raise. Derived scales form layers: those of a layer are final once every rule
that reads only earlier layers has been applied, so going through the layers once reaches the least fixpoint.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from functools import lru_cache

from triage.knowledge.clauses import Clause, Probe, clauses_of
from triage.knowledge.layers import derived_read, scale_layers
from triage.knowledge.model import KnowledgeBase, Presumption, Rule


@dataclass(frozen=True, eq=False)
class Compiled:
    """A rule with its clauses."""

    rule: Rule
    clauses: tuple[Clause, ...]


@dataclass(frozen=True, eq=False)
class CompiledPresumption:
    presumption: Presumption
    clauses: tuple[Clause, ...]


@dataclass(frozen=True, eq=False)
class Layer:
    """Rules whose every reading is final by now, and the probes that they need answered."""

    rules: tuple[Compiled, ...]
    probes: tuple[Probe, ...]


@dataclass(eq=False)
class Program:
    """Layers of rules, and for each (zone, sign) those that can hold there.

    ``words`` are the facts that rules test and that differ from boat to boat or from side to side.
    """

    kb: KnowledgeBase
    layers: tuple[Layer, ...]
    presumptions: tuple[CompiledPresumption, ...]
    words: frozenset[str]
    _here: dict[tuple[str, str], tuple[tuple[Compiled, ...], ...]] = field(default_factory=dict)
    _asked_here: dict[tuple[str, str], tuple[tuple[tuple[Probe, tuple[Clause, ...]], ...], ...]] = field(
        default_factory=dict
    )
    _presumed_here: dict[tuple[str, str], tuple[CompiledPresumption, ...]] = field(default_factory=dict)

    def rules_for(self, zone: str, sign: str) -> tuple[tuple[Compiled, ...], ...]:
        """By layer, the rules that can hold for this sign in this zone, with only the clauses that can."""
        key = (zone, sign)
        if key not in self._here:
            self._here[key] = tuple(
                tuple(
                    Compiled(compiled.rule, fitting)
                    for compiled in layer.rules
                    if (fitting := tuple(clause for clause in compiled.clauses if clause.fits(zone, sign)))
                )
                for layer in self.layers
            )
        return self._here[key]

    def probes_for(self, zone: str, sign: str) -> tuple[tuple[tuple[Probe, tuple[Clause, ...]], ...], ...]:
        """By layer, the probes that this sign in this zone can satisfy, with the clauses by which it can."""
        key = (zone, sign)
        if key not in self._asked_here:
            self._asked_here[key] = tuple(
                tuple(
                    (probe, fitting)
                    for probe in layer.probes
                    if (fitting := tuple(clause for clause in probe.clauses if clause.fits(zone, sign)))
                )
                for layer in self.layers
            )
        return self._asked_here[key]

    def presumptions_for(self, zone: str, sign: str) -> tuple[CompiledPresumption, ...]:
        """The presumptions that can hold for this sign in this zone."""
        key = (zone, sign)
        if key not in self._presumed_here:
            self._presumed_here[key] = tuple(
                compiled
                for compiled in self.presumptions
                if any(clause.fits(zone, sign) for clause in compiled.clauses)
            )
        return self._presumed_here[key]


@lru_cache(maxsize=8)
def program_of(kb: KnowledgeBase) -> Program:
    """The rules of ``kb``, compiled and layered once."""
    depth = scale_layers(kb)
    by_layer: dict[int, list[Compiled]] = {}
    for rule in kb.rules:
        layer = max((depth[scale] for scale in derived_read(kb, rule)), default=0)
        by_layer.setdefault(layer, []).append(Compiled(rule, clauses_of(kb, rule.when)))
    layers = []
    for _, rules in sorted(by_layer.items()):
        probes = (probe for compiled in rules for clause in compiled.clauses for probe in clause.probes)
        layers.append(Layer(tuple(rules), tuple(dict.fromkeys(probes))))
    presumptions = (CompiledPresumption(p, clauses_of(kb, p.when)) for p in kb.presumptions)
    return Program(kb, tuple(layers), tuple(presumptions), _words(layers))


def _words(layers: list[Layer]) -> frozenset[str]:
    tested = [clause for layer in layers for compiled in layer.rules for clause in compiled.clauses]
    probed = [clause for layer in layers for probe in layer.probes for clause in probe.clauses]
    return frozenset(word for clause in (*tested, *probed) for word, _ in clause.words)
