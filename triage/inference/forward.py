"""experta runs the rules forward: the engine behind every interactive answer. Only this module imports it.

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

from triage.inference.bounds import initial_state_given
from triage.inference.evaluate import State, fire
from triage.inference.evaluation import BOUNDS, Bound, Evaluation, Fixpoint
from triage.inference.program import Program, program_of
from triage.inference.standing import Asked, Hits
from triage.knowledge.compiled.conjuncts import Conjunct, Quantifier
from triage.knowledge.model import KnowledgeBase, Presumption, Rule
from triage.knowledge.per_knowledge import per_knowledge
from triage.survey.model import Boat, Finding
from triage.survey.validity import admit


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


def forward(kb: KnowledgeBase, boat: Boat, findings: Sequence[Finding]) -> tuple[Evaluation, ...]:
    """Judge the findings of one boat together, at both ends of their ranges. Agrees with `evaluate` on every input."""
    admit(kb, boat, findings)
    program = program_of(kb)
    engine = engine_of(kb)
    engine.reset()
    zones = [kb.zones[finding.zone] for finding in findings]
    words = [boat.words(zone, finding.side) for zone, finding in zip(zones, findings, strict=True)]
    holding = _presume(engine, findings, words)
    starts = [initial_state_given(kb, finding, held) for finding, held in zip(findings, holding, strict=True)]
    ends: dict[Bound, list[Fixpoint]] = {}
    for bound in BOUNDS:
        states = [
            State(finding, zone.sided, known, begun.levels(bound))
            for finding, zone, known, begun in zip(findings, zones, words, starts, strict=True)
        ]
        _raise_levels(engine, program, states, bound)
        ends[bound] = [Fixpoint(state.levels, tuple(state.firings)) for state in states]
    return tuple(
        Evaluation(finding, lower, upper, begun.presumed, begun.defeated)
        for finding, lower, upper, begun in zip(findings, ends["lower"], ends["upper"], starts, strict=True)
    )


def _presume(
    engine: Engine, findings: Sequence[Finding], words: Sequence[Mapping[str, str]]
) -> list[list[Presumption]]:
    """For each finding the presumptions whose condition holds on its answers, each once, in order."""
    facts = [
        engine.presuming(k=k, zone=finding.zone, sign=finding.sign, **known, **finding.upper)
        for k, (finding, known) in enumerate(zip(findings, words, strict=True))
    ]
    held: list[dict[Presumption, None]] = [{} for _ in findings]
    for k, presumption in engine.ask(facts):
        held[k][presumption] = None
    return [list(found) for found in held]


def _raise_levels(engine: Engine, program: Program, states: Sequence[State], bound: Bound) -> None:
    for stratum, (look, stage) in zip(program.strata, engine.strata, strict=True):
        hits: dict[Quantifier, list[State]] = {quantifier: [] for quantifier in stratum.quantifiers}
        asked = [Asked(number, quantifier) for number, quantifier in enumerate(stratum.quantifiers)]
        numbers = {one.quantifier: one.number for one in asked}
        satisfied = [0] * len(states)
        if stratum.quantifiers and len(states) > 1:
            facts = [look(**_attributes(program, k, state, bound, look)) for k, state in enumerate(states)]
            for k, quantifier in engine.ask(facts):
                if not satisfied[k] >> numbers[quantifier] & 1:
                    satisfied[k] |= 1 << numbers[quantifier]
                    hits[quantifier].append(states[k])
        standing = Hits(states, satisfied, bound)
        facts = []
        for k, state in enumerate(states):
            answers = {f"quantifier{one.number}": 1 for one in asked if standing.enough(one, k, {})}
            facts.append(stage(**_attributes(program, k, state, bound, stage), **answers))
        fired: set[tuple[int, Rule]] = set()
        for k, (rule, conjunct) in engine.ask(facts):
            if (k, rule) not in fired:  # of several conjuncts that hold, the first one speaks
                fired.add((k, rule))
                states[k].firings.append(fire(rule, conjunct, states[k], bound, hits))


def _attributes(program: Program, k: int, state: State, bound: Bound, kind: type[Told]) -> dict[str, Any]:
    """One finding at one end of its range, as the attributes of a fact: those that are read, without levels of 0."""
    known: dict[str, Any] = {"zone": state.finding.zone, "sign": state.finding.sign}
    if bound == "upper":
        known |= dict.fromkeys(program.words, UNKNOWN)
    known |= state.words
    known |= state.levels
    return {"k": k, "bound": bound} | {name: known[name] for name in kind.reads & known.keys() if known[name] != 0}
