"""The rules as somebody would first write them for experta: one fact for a finding, one for each thing concluded of it,
joined on the number of the finding, and experta's own matcher. Something to measure against, and nothing else.
"""

from __future__ import annotations

import importlib
import inspect
from collections.abc import Callable, Iterator, Sequence
from itertools import chain, product
from typing import Any, Literal

import triage.inference.experta_rules  # noqa: F401  # makes this Python fit for experta
from triage.inference.bounds import initial_state
from triage.inference.evaluation import BOUNDS
from triage.knowledge.compiled.conjuncts import Conjunct, conjuncts_of
from triage.knowledge.model import OTHER_SIDE, KnowledgeBase, Rule
from triage.knowledge.model.conditions import Where
from triage.survey.model import Boat, Finding

experta: Any = importlib.import_module("experta")

UNKNOWN = "*"
Fired = set[tuple[int, str, str]]


class Found(experta.Fact):  # type: ignore[misc]  # experta carries no types
    """A finding at one end of its range, with its words and all that was observed of it."""


class Concluded(experta.Fact):  # type: ignore[misc]  # experta carries no types
    """A derived scale of one finding is at this level or worse."""


def build(kb: KnowledgeBase) -> experta.KnowledgeEngine:
    """An engine with a rule for each conjunct, and for each way in which the other findings it asks for may be so."""
    body: dict[str, Any] = {}
    for rule in kb.rules:
        for conjunct in conjuncts_of(kb, rule.when):
            for patterns in _ways(kb, conjunct):
                name = f"rule_{len(body)}"
                body[name] = experta.Rule(*patterns)(_action(name, rule))
    return type("Naive", (experta.KnowledgeEngine,), body)()


def judge(engine: experta.KnowledgeEngine, kb: KnowledgeBase, boat: Boat, findings: Sequence[Finding]) -> Fired:
    """Run the engine on one boat: (number of the finding, bound, rule) for everything that fired."""
    engine.reset()
    engine.fired = set()
    for n, finding in enumerate(findings):
        zone = kb.zones[finding.zone]
        begun = initial_state(kb, boat, finding)
        for bound in BOUNDS:
            words = dict.fromkeys((*kb.facts, "side", "encloses_buoyancy"), UNKNOWN if bound == "upper" else "")
            words |= boat.words(zone, finding.side)
            place = {"zone": finding.zone, "sign": finding.sign, "sided": zone.sided}
            engine.declare(Found(n=n, bound=bound, **place, **words, **begun.levels(bound)))
    engine.run()
    fired: Fired = engine.fired
    return fired


def _action(name: str, rule: Rule) -> Callable[..., None]:
    def act(self: Any, f: int, bound: str, **_: Any) -> None:
        self.fired.add((f, bound, rule.id))
        for scale, level in rule.raises:
            for step in range(1, level + 1):
                self.declare(Concluded(n=f, bound=bound, scale=scale, level=step))

    act.__name__ = name
    return act


def _ways(kb: KnowledgeBase, conjunct: Conjunct) -> Iterator[list[Any]]:
    """The patterns of a conjunct, once for each choice of what is so of each other finding."""
    quantifiers = conjunct.quantifiers
    for choices in product(*(product(one.conjuncts, repeat=one.count) for one in quantifiers)):
        asked = zip(quantifiers, choices, strict=True)
        others = (_probe(kb, one.where, chosen, "f", k) for k, (one, chosen) in enumerate(asked))
        yield [*_patterns(kb, conjunct, "f"), *chain.from_iterable(others)]


def _patterns(kb: KnowledgeBase, conjunct: Conjunct, me: str, other_than: Sequence[str] = ()) -> list[Any]:
    """A pattern for the finding itself, and one for each conclusion that the conjunct rests on."""
    number = experta.W(me)
    for other in other_than:
        number = number & ~experta.W(other)
    tests: dict[str, Any] = {"n": number, "bound": experta.W("bound")}
    tests |= {slot: experta.W(f"{me}_{slot}") for slot in ("zone", "side", "sided")}
    if conjunct.zones is not None:
        tests["zone"] = tests["zone"] & _among(conjunct.zones)
    if conjunct.signs is not None:
        tests["sign"] = _among(conjunct.signs)
    for word, values in conjunct.words:
        tests[word] = tests.get(word, experta.W()) & _among(values | {UNKNOWN})
    tests |= {scale: _at_least(level) for scale, level in conjunct.levels if kb.scales[scale].observed}
    patterns = [Found(**tests)]
    for scale, level in conjunct.levels:
        if not kb.scales[scale].observed:
            patterns.append(Concluded(n=experta.W(me), bound=experta.W("bound"), scale=scale, level=level))
    return patterns


def _probe(kb: KnowledgeBase, where: Where, conjuncts: Sequence[Conjunct], me: str, k: int) -> list[Any]:
    """As many other findings as there are conjuncts, all different, each as its conjunct says."""
    patterns: list[Any] = []
    others: list[str] = []
    for number, conjunct in enumerate(conjuncts):
        other = f"{me}_{k}_{number}"
        patterns.extend(_patterns(kb, conjunct, other, [me, *others]))
        if where != "anywhere":
            patterns.append(experta.TEST(_stands(where, me, other)))
        others.append(other)
    return patterns


def _stands(where: Literal["twin", "same side"], me: str, other: str) -> Callable[..., bool]:
    def stands(**context: Any) -> bool:
        mine, its = context[f"{me}_side"], context[f"{other}_side"]
        sided = context[f"{me}_sided"] and context[f"{other}_sided"]
        unknown = UNKNOWN in (mine, its)
        if where == "twin":
            same_place = context[f"{me}_zone"] == context[f"{other}_zone"]
            return bool(same_place and sided and (unknown or (mine != "" and its == OTHER_SIDE[mine])))
        return not sided or unknown or (mine == its != "")

    asks = [f"{one}_{slot}" for one in (me, other) for slot in ("zone", "side", "sided")]
    named = [inspect.Parameter(name, inspect.Parameter.KEYWORD_ONLY) for name in asks]
    stands.__signature__ = inspect.Signature(named)  # type: ignore[attr-defined]  # experta asks for what it names
    return stands


def _among(values: frozenset[str]) -> Any:
    return experta.P(lambda value: value in values)


def _at_least(level: int) -> Any:
    return experta.P(lambda value: value >= level)
