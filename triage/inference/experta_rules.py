"""The rules as experta's: one room for all that is made of it. Only this module imports it.

One fact class for each stratum of rules holds all that the stratum reads of one finding at one end of its range, so
every rule has a single pattern and no joins. What a rule asks of other findings is answered before, by rules made for
its quantifiers, and enters as a 0/1 attribute. Rules, facts, agenda and run loop are experta's; the matcher and the
agenda order are plugged into its own seams, because its network copies a token for every test and fires in an order
that depends on memory addresses.
"""

from __future__ import annotations

import collections
import inspect
import logging
import threading
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from contextlib import contextmanager
from typing import Any, ClassVar

from triage.inference.program import Program, program_of
from triage.knowledge.compiled.conjuncts import Conjunct, Quantifier
from triage.knowledge.model import KnowledgeBase
from triage.knowledge.per_knowledge import per_knowledge


@contextmanager
def _as_experta_expects() -> Iterator[None]:
    """For the time of an import: frozendict 1.2, which experta pins, needs `collections.Mapping`.

    experta also sets up logging for the whole process; whatever it adds is taken off again.
    """
    handlers = list(logging.root.handlers)
    lacking = not hasattr(collections, "Mapping")
    if lacking:
        collections.Mapping = Mapping  # type: ignore[attr-defined]
    try:
        yield
    finally:
        if lacking:
            del collections.Mapping  # type: ignore[attr-defined]
        logging.root.handlers[:] = handlers


with _as_experta_expects():
    import experta
    from experta import abstract
    from experta.activation import Activation

UNKNOWN = "*"
"""What a word nobody knows is at the upper bound, where it matches anything."""


class Told(experta.Fact):  # type: ignore[misc]  # experta carries no types
    """What is told of one finding at one end of its range; ``reads`` are the attributes that some rule tests."""

    reads: ClassVar[frozenset[str]] = frozenset()


class OnePatternMatcher(abstract.Matcher):  # type: ignore[misc]  # experta carries no types
    """Matches rules that have exactly one pattern: a bit for each rule, and-ed over the attributes of a fact."""

    def __init__(self, engine: experta.KnowledgeEngine) -> None:
        super().__init__(engine)
        rules: dict[type, list[Any]] = {}
        for rule in sorted(engine.get_rules(), key=lambda rule: rule.__name__):
            (pattern,) = rule
            # A rule taken from the class is bound to whichever engine asked last; a copy is bound to none.
            rules.setdefault(type(pattern), []).append((pattern, rule.new_conditions(*rule)))
        self.tables = {kind: _Table(found) for kind, found in rules.items()}

    def changes(self, adding: Iterable[Any] = (), deleting: Iterable[Any] = ()) -> tuple[list[Activation], set[Any]]:
        """New activations, in the order of the facts and then of the rules. Nothing is ever retracted."""
        return [activation for fact in adding for activation in self._activations(fact)], set()

    def _activations(self, fact: Any) -> list[Activation]:
        table = self.tables.get(type(fact))
        return [] if table is None else [Activation(rule, (fact,), {"fact": fact}) for rule in table.matching(fact)]

    def reset(self) -> None:
        """There is no memory to clear: activations depend on one fact alone."""


class _Table:
    """The rules on one fact class, with a remembered bit mask for every attribute and value met so far."""

    def __init__(self, rules: list[tuple[Any, Any]]) -> None:
        self.rules = [rule for _, rule in rules]
        self.tests: dict[str, list[tuple[int, Callable[[Any], bool]]]] = {}
        for bit, (pattern, _) in enumerate(rules):
            for attribute, predicate in pattern.items():
                if not pattern.is_special(attribute):
                    self.tests.setdefault(attribute, []).append((1 << bit, predicate.match))
        self.all = (1 << len(rules)) - 1
        self.masks: dict[tuple[str, Any], int] = {}

    def matching(self, fact: Any) -> list[Any]:
        mask = self.all
        for attribute in self.tests:
            key = (attribute, fact.get(attribute))
            if key not in self.masks:
                self.masks[key] = self._mask(*key)
            mask &= self.masks[key]
            if not mask:
                return []
        found = []
        while mask:
            lowest = mask & -mask
            found.append(self.rules[lowest.bit_length() - 1])
            mask ^= lowest
        return found

    def _mask(self, attribute: str, value: Any) -> int:
        """The rules that do not test the attribute, or whose test it passes; an absent attribute passes none."""
        failed = sum(bit for bit, test in self.tests[attribute] if value is None or not test(value))
        return self.all & ~failed


class InOrder(abstract.Strategy):  # type: ignore[misc]  # experta carries no types
    """Fires in the order of arrival; experta takes the last activation of the agenda first."""

    def _update_agenda(self, agenda: Any, added: list[Activation], removed: set[Activation]) -> None:
        agenda.activations[:0] = reversed(added)


class Engine(experta.KnowledgeEngine):  # type: ignore[misc]  # experta carries no types
    """What the rules of one knowledge base are turned into; ``fired`` collects what fired since it was cleared."""

    __matcher__ = OnePatternMatcher
    __strategy__ = InOrder
    strata: ClassVar[list[tuple[type, type]]]
    presuming: ClassVar[type]
    fired: list[tuple[int, Any]]

    def __init__(self) -> None:
        super().__init__()
        self._initial: list[Any] = super().get_deffacts()

    def get_deffacts(self) -> list[Any]:
        """The initial facts, worked out once; experta would look through all rules at every reset."""
        return self._initial

    def ask(self, facts: Sequence[Any]) -> list[tuple[int, Any]]:
        """Declare the facts, run, and return (number of the fact, what its rule stands for) for everything fired."""
        self.fired = []
        if facts:
            self.declare(*facts)
            self.run()
        return self.fired


def build(program: Program) -> type[Engine]:
    """The engine class for these rules: a fact class and an experta rule for every conjunct, stratum by stratum."""
    body: dict[str, Any] = {"strata": []}
    for number, stratum in enumerate(program.strata):
        look = type(f"Look{number}", (Told,), {})
        stage = type(f"Stage{number}", (Told,), {})
        body["strata"].append((look, stage))
        for index, quantifier in enumerate(stratum.quantifiers):
            for conjunct in quantifier.conjuncts:
                _add(body, look, _tests(conjunct, {}), quantifier, index)
        asked = {quantifier: f"quantifier{index}" for index, quantifier in enumerate(stratum.quantifiers)}
        for index, compiled in enumerate(stratum.rules):
            for conjunct in compiled.conjuncts:
                _add(body, stage, _tests(conjunct, asked), (compiled.rule, conjunct), index)
    body["presuming"] = type("Presuming", (Told,), {})
    for index, presuming in enumerate(program.presumptions):
        for conjunct in presuming.conjuncts:
            _add(body, body["presuming"], _tests(conjunct, {}), presuming.presumption, index)
    return type("Rules", (Engine,), body)


ACTS = inspect.Signature(
    [inspect.Parameter(name, inspect.Parameter.POSITIONAL_OR_KEYWORD) for name in ("self", "fact")]
)
"""What every action takes; worked out once and not twice for each rule, which was most of building the rules."""


def _add(body: dict[str, Any], kind: type[Told], tests: Mapping[str, Any], meaning: object, index: int) -> None:
    def act(self: Engine, fact: Any) -> None:
        self.fired.append((fact["k"], meaning))

    act.__signature__ = ACTS  # type: ignore[attr-defined]  # experta asks for it, twice for each rule
    kind.reads |= frozenset(tests)
    act.__name__ = f"{kind.__name__}_{index:05}_{len(body):06}"  # names sort in rule order
    body[act.__name__] = experta.Rule(experta.AS.fact << kind(**tests))(act)


def _tests(conjunct: Conjunct, asked: Mapping[Quantifier, str]) -> dict[str, Any]:
    """The conjunct as predicates on attributes of a fact."""
    tests: dict[str, Any] = {}
    if conjunct.zones is not None:
        tests["zone"] = experta.P(conjunct.zones.__contains__)
    if conjunct.signs is not None:
        tests["sign"] = experta.P(conjunct.signs.__contains__)
    tests |= {word: experta.P((values | {UNKNOWN}).__contains__) for word, values in conjunct.words}
    tests |= {scale: experta.P(level.__le__) for scale, level in conjunct.levels}
    tests |= {scale: experta.P(level.__ge__) for scale, level in conjunct.bounds}
    tests |= {asked[quantifier]: experta.P((1).__le__) for quantifier in conjunct.quantifiers}
    return tests


@per_knowledge
def _in_threads(_: KnowledgeBase) -> threading.local:
    """One engine for each thread: experta's are neither cheap to build nor shareable."""
    return threading.local()


def engine_of(kb: KnowledgeBase) -> Engine:
    """The engine of this thread with the rules of ``kb``."""
    here = _in_threads(kb)
    if not hasattr(here, "engine"):
        here.engine = build(program_of(kb))()
    engine: Engine = here.engine
    return engine
