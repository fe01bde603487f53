"""Conjuncts as bits of a number: which of them hold is a table look-up for each scale and fact, and-ed together.

For one sign in one zone the conjuncts that can hold there are numbered, stratum by stratum, in the order of the rules.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from itertools import compress
from typing import TypeVar

from triage.inference.evaluation import BOUNDS, Bound, Firing
from triage.inference.program import program_of
from triage.inference.standing import Asked
from triage.knowledge.compiled.conjuncts import Conjunct
from triage.knowledge.model import KnowledgeBase, Presumption, Rule
from triage.knowledge.per_knowledge import per_knowledge

T = TypeVar("T")

Allowed = tuple[tuple[int, int], ...]
"""By stratum, what remains of the conjuncts and of the probes."""


@dataclass(frozen=True, eq=False, slots=True)
class Numbered:
    """A conjunct of a rule, in the order of the rules: the conjuncts of one rule stand together.

    ``fired`` holds its firings without witnesses, by what they raised: there are few, and they are met again and again;
    ``idle`` is the one that raises nothing.
    """

    rule: Rule
    conjunct: Conjunct
    asked: tuple[Asked, ...]
    idle: Firing
    fired: dict[tuple[tuple[str, int, int], ...], Firing] = field(default_factory=dict)


class Tests:
    """For every scale and every fact that some conjunct tests: the conjuncts whose tests on it hold, by what is so."""

    def __init__(self, kb: KnowledgeBase, conjuncts: Sequence[Conjunct]) -> None:
        self.all = (1 << len(conjuncts)) - 1
        levels: dict[str, list[int]] = {}
        bounds: dict[str, list[int]] = {}
        for bit, conjunct in _bits(conjuncts):
            for scale, least in conjunct.levels:
                self._forbid(levels, kb, scale, range(least), bit)
            for scale, most in conjunct.bounds:
                self._forbid(bounds, kb, scale, range(most + 1, kb.scales[scale].top + 1), bit)
        self.levels = tuple(levels.items())
        self.bounds = tuple(
            (scale, tuple(masks), self._without(scale in dict(one.bounds) for one in conjuncts))
            for scale, masks in bounds.items()
        )
        self.words = tuple(self._words(conjuncts))

    def _forbid(self, masks: dict[str, list[int]], kb: KnowledgeBase, scale: str, at: range, bit: int) -> None:
        """At these levels of the scale the conjunct does not hold."""
        by_level = masks.setdefault(scale, [self.all] * (kb.scales[scale].top + 1))
        for level in at:
            by_level[level] &= ~bit

    def _words(self, conjuncts: Sequence[Conjunct]) -> Iterator[tuple[str, Mapping[str, int], int]]:
        """Each word, what remains at each of its values, and what remains where it matches nothing."""
        tests = [dict(conjunct.words) for conjunct in conjuncts]
        for word in dict.fromkeys(word for test in tests for word in test):
            values = sorted({value for test in tests for value in test.get(word, ())})
            masks = {
                value: self._without(word in test and value not in test[word] for test in tests) for value in values
            }
            yield word, masks, self._without(word in test for test in tests)

    def _without(self, failing: Iterable[bool]) -> int:
        return self.all & ~sum(1 << n for n, fails in enumerate(failing) if fails)

    def allowed(self, words: Mapping[str, str], bound: Bound) -> int:
        """What remains in the light of the facts; one that nobody knows holds at the upper bound, whatever is asked."""
        mask = self.all
        for word, masks, untested in self.words:
            if word in words:
                mask &= masks.get(words[word], untested)
            elif bound == "lower":
                mask &= untested
        return mask

    def reached(self, allowed: int, levels: Mapping[str, int]) -> int:
        """What remains of ``allowed`` at these levels."""
        for scale, masks in self.levels:
            allowed &= masks[levels.get(scale, 0)]
            if not allowed:
                break
        return allowed

    def good(self, allowed: int, answered: Mapping[str, int]) -> int:
        """What remains of ``allowed`` when the conjuncts ask for answers no worse than their bounds."""
        for scale, masks, untested in self.bounds:
            allowed &= masks[answered[scale]] if scale in answered else untested
        return allowed


DIGITS = bytes.maketrans(b"01", b"\0\1")


def chosen(some: Sequence[T], bits: int) -> Iterator[T]:
    """Those whose bit is set, the lowest bit first."""
    return compress(some, f"{bits:b}"[::-1].encode().translate(DIGITS))


def _bits(conjuncts: Iterable[Conjunct]) -> Iterator[tuple[int, Conjunct]]:
    return ((1 << number, conjunct) for number, conjunct in enumerate(conjuncts))


@dataclass(frozen=True, eq=False)
class Layer:
    """One stratum for one sign in one zone.

    ``asks`` are the quantifiers of its conjuncts. ``probes`` are the conjuncts by which a
    finding satisfies quantifiers of the stratum; ``satisfies`` holds for each of them its quantifier as a bit.
    """

    tests: Tests
    conjuncts: tuple[Numbered, ...]
    asks: tuple[Asked, ...]
    probes: Tests
    satisfies: tuple[int, ...]

    def satisfied(self, allowed: int, levels: Mapping[str, int]) -> int:
        """The quantifiers that a finding at these levels satisfies, as bits."""
        found = 0
        for quantifier in chosen(self.satisfies, self.probes.reached(allowed, levels)):
            found |= quantifier
        return found


@dataclass(frozen=True, eq=False)
class Tables:
    """Everything that can hold for one sign in one zone. ``heard`` are the facts that anything in it tests."""

    layers: tuple[Layer, ...]
    presuming: Tests
    presumptions: tuple[Presumption, ...]
    heard: frozenset[str]
    _allowed: dict[frozenset[tuple[str, str]], Mapping[Bound, Allowed]] = field(default_factory=dict)

    def allowed(self, words: Mapping[str, str]) -> Mapping[Bound, Allowed]:
        """What remains in the light of the facts, by bound."""
        key = frozenset(words.items())
        found = self._allowed.get(key)
        if found is None:
            found = self._allowed[key] = {
                bound: tuple((one.tests.allowed(words, bound), one.probes.allowed(words, bound)) for one in self.layers)
                for bound in BOUNDS
            }
        return found

    def holding(self, words: Mapping[str, str], answered: Mapping[str, int]) -> list[Presumption]:
        """The presumptions whose condition holds on what was answered and is known, each once."""
        mask = self.presuming.good(self.presuming.allowed(words, "lower"), answered)
        return list(dict.fromkeys(chosen(self.presumptions, mask)))


@per_knowledge
def tables_of(kb: KnowledgeBase, zone: str, sign: str) -> Tables:
    """The rules that can hold for one sign in one zone, as tables, made once."""
    return tables(kb, zone, sign)


def tables(kb: KnowledgeBase, zone: str, sign: str) -> Tables:
    """The rules that can hold for one sign in one zone, as tables."""
    program = program_of(kb)
    rules, probes = program.rules_for(zone, sign), program.quantifiers_for(zone, sign)
    layers = []
    for stratum, here, seen in zip(program.strata, rules, probes, strict=True):
        asked = {quantifier: Asked(n, quantifier) for n, quantifier in enumerate(stratum.quantifiers)}
        numbered: list[Numbered] = []
        for compiled in here:
            for conjunct in compiled.conjuncts:
                questions = tuple(asked[quantifier] for quantifier in conjunct.quantifiers)
                numbered.append(Numbered(compiled.rule, conjunct, questions, Firing(compiled.rule, conjunct, ())))
        by = [(conjunct, 1 << asked[quantifier].number) for quantifier, some in seen for conjunct in some]
        layers.append(
            Layer(
                tests=Tests(kb, [one.conjunct for one in numbered]),
                conjuncts=tuple(numbered),
                asks=tuple(dict.fromkeys(question for one in numbered for question in one.asked)),
                probes=Tests(kb, [conjunct for conjunct, _ in by]),
                satisfies=tuple(quantifier for _, quantifier in by),
            )
        )
    presuming = [
        (compiled.presumption, conjunct)
        for compiled in program.presumptions_for(zone, sign)
        for conjunct in compiled.conjuncts
        if conjunct.fits(zone, sign)
    ]
    waiting = Tests(kb, [conjunct for _, conjunct in presuming])
    tests = (waiting, *(one for layer in layers for one in (layer.tests, layer.probes)))
    return Tables(
        layers=tuple(layers),
        presuming=waiting,
        presumptions=tuple(presumption for presumption, _ in presuming),
        heard=frozenset(word for one in tests for word, _, _ in one.words),
    )
