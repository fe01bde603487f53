"""A fault planted in the formulas, in `evaluate` or in a rule is noticed: by the other of the two, or by a promise."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from dataclasses import replace
from typing import Any

import pytest

from tests.engines import ENGINES
from tests.inference.small import boat, finding, knowledge, presumption, rule
from triage.inference import bounds, evaluate
from triage.inference.evaluate import State
from triage.inference.evaluation import Bound
from triage.knowledge.compiled.conjuncts import Conjunct, Quantifier
from triage.knowledge.model import KnowledgeBase, Presumption
from triage.knowledge.model.conditions import All, AtLeast, AtMost, Elsewhere, Is
from triage.knowledge.model.conditions import Any as AnyOf
from triage.proof import symbolic_state
from triage.proof.symbolic import Formula, either, no
from triage.proof.symbolic_finding import SymbolicFinding
from triage.proof.symbolic_state import SymbolicState
from triage.survey.model import Boat, Finding

LINE = Is("sign", ("line",))
RULES = knowledge(
    rule("soft", AtLeast("give", 2), {"glass": 2}),
    rule("either", AnyOf((AtLeast("sound", 3), AtLeast("depth", 2))), {"glass": 1}),
    rule("loose", AtLeast("play", 1), {"hold": 2}),
    rule("cored", All((Is("build", ("cored",)), AtLeast("depth", 1))), {"hold": 1}),
    rule("twins", All((LINE, Elsewhere(LINE, where="twin"))), {"hold": 1}),
    rule("beside", All((LINE, Elsewhere(AtLeast("play", 2), where="same side"))), {"glass": 3}),
    rule("many", All((LINE, Elsewhere(AtLeast("give", 1), count=2))), {"hold": 3}),
    rule("broken", AtLeast("glass", 2), {"verdict": 2}),
    rule("held", AtLeast("hold", 1), {"verdict": 1}),
    rule("ashore", AtLeast("verdict", 2), {"afloat": 3}),
    presumption("firm", All((AtMost("give", 0), Is("build", ("single",)))), {"depth": 0, "sound": 1}),
    presumption("quiet", AtMost("sound", 0), {"play": 0, "give": 1}),
)
BOATS = (boat(), boat(build="single"), boat(build="cored"))
SURVEYS: tuple[tuple[Finding, ...], ...] = (
    (finding("rim", "line"),),
    (finding("rim", "line", give=0),),
    (finding("rim", "line", give=1, sound=1),),
    (finding("rim", "line", give=0, sound=2),),
    (finding("rim", "line", sound=0),),
    (finding("rim", "line", sound=0, give=2),),
    (finding("rim", "line", give=2, sound=3, play=1, depth=2),),
    (finding("step", "line", sound=0),),
    (finding("step", "line", sound=0, play=0),),
    (finding("rim", "loose", sound=0),),
    (finding("rim", "scuff"),),
    (finding("deck", "line", "port"), finding("deck", "line", "starboard")),
    (finding("deck", "line", "port"), finding("deck", "line")),
    (finding("deck", "line", "port"), finding("deck", "loose", "starboard", play=2)),
    (finding("deck", "line", "port"), finding("deck", "loose", "port", play=2)),
    (finding("deck", "line"), finding("deck", "loose", "port", play=2)),
    (finding("rim", "line"), finding("deck", "loose", give=1), finding("tank", "loose")),
    (finding("rim", "line"), finding("deck", "loose", give=1), finding("tank", "loose", give=3)),
)


def told(engine: str, kb: KnowledgeBase, boat: Boat, found: Sequence[Finding]) -> list[dict[str, Any]]:
    """Levels above the best and rules fired, at both ends of each finding."""
    return [
        {
            bound: ({scale: level for scale, level in naive.levels.items() if level}, naive.fired)
            for bound, naive in one.items()
        }
        for one in ENGINES[engine](kb, boat, found)
    ]


def disagree() -> bool:
    """Whether solver and `evaluate` differ on any of the surveys."""
    return any(
        told("solver", RULES, boat, found) != told("evaluate", RULES, boat, found)
        for boat in BOATS
        for found in SURVEYS
    )


def test_without_a_fault_they_agree() -> None:
    assert not disagree()


def unknown_word_matches_nothing(self: SymbolicFinding, word: str, values: Iterable[str], bound: Bound) -> Formula:
    return either(self.word(word).get(value, False) for value in values)


def unknown_word_matches_anything(self: SymbolicFinding, word: str, values: Iterable[str], bound: Bound) -> Formula:
    choice = self.word(word)
    return either((*(choice.get(value, False) for value in values), no(either(choice.values()))))


SYMBOLIC_STATE_HOLDS = SymbolicState.holds

IN_THE_FORMULAS: dict[str, tuple[object, str, Callable[..., Any]]] = {
    "an unknown word matches nothing at the upper bound": (SymbolicFinding, "word_is", unknown_word_matches_nothing),
    "an unknown word matches anything at the lower bound": (SymbolicFinding, "word_is", unknown_word_matches_anything),
    "nobody presumes": (SymbolicFinding, "presumed", lambda self, program: {}),
    "a contradicted presumption stays": (SymbolicFinding, "contradicts", lambda self, compiled: False),
    "named checks bar nothing": (SymbolicFinding, "named_checks_complete", lambda self: True),
    "a presumption needs no answer": (SymbolicFinding, "answered_at_most", lambda self, scale, level: True),
    "an answer counts one worse": (
        SymbolicFinding,
        "answered_at_least",
        lambda self, scale, level, bound: self.reading.get((scale, max(level - 1, 1)), False),
    ),
    "every other finding is related": (symbolic_state, "related", lambda quantifier, mine, other: True),
    "one other finding is enough": (symbolic_state, "at_least", lambda count, parts: either(parts)),
    "a quantifier sees nobody": (symbolic_state, "among", lambda states: lambda quantifier, mine: False),
    "a rule holds by its first conjunct alone": (
        SymbolicState,
        "holds",
        lambda self, compiled, context: SYMBOLIC_STATE_HOLDS(
            self, replace(compiled, conjuncts=compiled.conjuncts[:1]), context
        ),
    ),
    "a rule raises nothing further": (SymbolicState, "take", lambda self, raised: None),
}


@pytest.mark.parametrize("fault", IN_THE_FORMULAS)
def test_a_fault_in_the_formulas_is_noticed(fault: str, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(*IN_THE_FORMULAS[fault])

    assert disagree()


START_WITH, TESTS_HOLD = bounds.initial_state_given, evaluate.tests_hold


def start_without(kb: KnowledgeBase, finding: Finding, holding: Iterable[Presumption]) -> Any:
    return START_WITH(kb, finding, ())


def start_never_withdrawing(kb: KnowledgeBase, finding: Finding, holding: Iterable[Presumption]) -> Any:
    kept = (replace(one, presumes=tuple(p for p in one.presumes if p[0] not in finding.answered)) for one in holding)
    return START_WITH(kb, finding, kept)


def one_level_late(conjunct: Conjunct, state: State, bound: Bound) -> bool:
    return TESTS_HOLD(
        replace(conjunct, levels=tuple((scale, level + 1) for scale, level in conjunct.levels)), state, bound
    )


def anybody_related(quantifier: Quantifier, state: State, other: State, bound: Bound) -> bool:
    return True


IN_EVALUATE: dict[str, tuple[object, str, Callable[..., Any]]] = {
    "nobody presumes": (bounds, "initial_state_given", start_without),
    "a contradicted presumption stays": (bounds, "initial_state_given", start_never_withdrawing),
    "every presumption holds": (bounds, "_holds", lambda conjunct, finding, words: True),
    "a level is reached one late": (evaluate, "tests_hold", one_level_late),
    "words are not looked at": (
        evaluate,
        "tests_hold",
        lambda conjunct, state, bound: TESTS_HOLD(replace(conjunct, words=()), state, bound),
    ),
    "the upper bound is judged like the lower bound": (
        evaluate,
        "tests_hold",
        lambda conjunct, state, bound: TESTS_HOLD(conjunct, state, "lower"),
    ),
    "every other finding is related": (evaluate, "related", anybody_related),
    "quantifiers see nobody": (evaluate, "satisfied", lambda program, stratum, states, bound: {}),
}


@pytest.mark.parametrize("fault", IN_EVALUATE)
def test_a_fault_in_evaluate_is_noticed(fault: str, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(*IN_EVALUATE[fault])

    assert disagree()
