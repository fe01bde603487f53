"""The laws hold of any rules; and each notices when the formulas, or the order of judging, are spoilt."""

from __future__ import annotations

import pytest
from hypothesis import given, settings

from tests.inference.small import ALWAYS, presumption, rule
from tests.proof.asking import failing, promised, proved
from tests.strategies import knowledge_bases
from triage.inference.evaluation import Bound
from triage.inference.program import CompiledPresumption, CompiledRule, Program, program_of
from triage.knowledge.compiled.conjuncts import Conjunct, Quantifier
from triage.knowledge.model import KnowledgeBase
from triage.knowledge.model.conditions import All, AtLeast, AtMost, Elsewhere, Is, parts
from triage.proof import symbolic_state, symbolic_survey
from triage.proof.laws import LAWS
from triage.proof.symbolic import Formula, both, no
from triage.proof.symbolic_finding import SymbolicFinding
from triage.proof.symbolic_state import Context, SymbolicState

KB = promised(
    rule("soft", AtLeast("give", 2), {"glass": 2}),
    rule("cored", All((Is("build", ("cored",)), AtLeast("depth", 1))), {"glass": 1}),
    rule("beside", All((AtLeast("play", 1), Elsewhere(AtLeast("glass", 2)))), {"hold": 2}),
    rule("broken", AtLeast("glass", 2), {"verdict": 2}),
    rule("held", AtLeast("hold", 2), {"verdict": 1}),
    presumption("firm", AtMost("give", 0), {"depth": 0, "sound": 1}),
)


@settings(max_examples=8)
@given(kb=knowledge_bases())
def test_the_laws_hold_of_any_rules(kb: KnowledgeBase) -> None:
    words = {part.word for rule in kb.rules for part in parts(rule.when) if isinstance(part, Is)}

    assert failing(kb) <= ({"law/answers-settle"} if "side" in words else set())  # a part in the middle has no side


def test_every_law_is_asked_of_every_sign_in_every_zone() -> None:
    outcomes = proved(KB, "law")

    assert len(LAWS) == len(outcomes)
    assert {sum(map(len, KB.offers.values()))} == {outcome.asked for outcome in outcomes.values()}


def test_a_presumption_that_lowered_what_was_answered_would_break_a_law(monkeypatch: pytest.MonkeyPatch) -> None:
    honest = SymbolicFinding.initial

    def presuming_over_answers(self: SymbolicFinding, program: Program, bound: Bound) -> dict[tuple[str, int], Formula]:
        levels = honest(self, program, bound)
        return levels if bound == "lower" else {key: both((level, key[0] != "give")) for key, level in levels.items()}

    monkeypatch.setattr(SymbolicFinding, "initial", presuming_over_answers)

    assert "law/best-above-worst" in failing(KB)


def test_a_word_that_stayed_open_when_known_would_break_a_law(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(SymbolicFinding, "word_is", lambda self, word, values, bound: bound == "upper")

    assert "law/answers-settle" in failing(KB)


def test_a_rule_that_stopped_at_a_worse_level_would_break_a_law(monkeypatch: pytest.MonkeyPatch) -> None:
    honest = SymbolicState.tests_hold

    def exactly(self: SymbolicState, conjunct: Conjunct) -> Formula:
        return both((honest(self, conjunct), *(no(self.level(scale, level + 1)) for scale, level in conjunct.levels)))

    monkeypatch.setattr(SymbolicState, "tests_hold", exactly)

    assert "law/worse-never-milder" in failing(KB)


def test_a_rule_that_another_finding_silenced_would_break_a_law(monkeypatch: pytest.MonkeyPatch) -> None:
    honest = SymbolicState.holds
    silencing = Quantifier((Conjunct(levels=(("sound", 3),)),), 1, "anywhere")

    def unless_somebody_is_loud(self: SymbolicState, compiled: CompiledRule, context: Context) -> Formula:
        return both((honest(self, compiled, context), no(context(silencing, self))))

    monkeypatch.setattr(SymbolicState, "holds", unless_somebody_is_loud)

    assert "law/worse-never-milder" in failing(promised(KB.rules[2]))  # it needs one other finding, and fears another


def test_a_presumption_that_an_unrelated_answer_withdrew_would_break_a_law(monkeypatch: pytest.MonkeyPatch) -> None:
    honest = SymbolicFinding.in_force

    def while_play_is_open(self: SymbolicFinding, compiled: CompiledPresumption) -> Formula:
        return both((honest(self, compiled), no(self.answered.get("play", False))))

    monkeypatch.setattr(SymbolicFinding, "in_force", while_play_is_open)

    assert "law/answers-narrow" in failing(KB)


def test_layers_in_the_wrong_order_would_break_a_law(monkeypatch: pytest.MonkeyPatch) -> None:
    honest = program_of(KB)
    upside_down = Program(KB, honest.strata[::-1], honest.presumptions, honest.words)
    monkeypatch.setattr(symbolic_state, "program_of", lambda kb: upside_down)
    monkeypatch.setattr(symbolic_survey, "program_of", lambda kb: upside_down)

    assert "law/nothing-left-to-raise" in failing(KB)


def test_a_rule_that_says_nothing_new_is_idle_and_so_is_a_level_nothing_reaches() -> None:
    kb = promised(
        rule("soft", AtLeast("give", 2), {"glass": 2}),
        rule("less", AtLeast("give", 3), {"glass": 1}),
        rule("same-again", All((AtLeast("give", 2), AtLeast("sound", 1))), {"glass": 2}),
        rule("further", AtLeast("give", 3), {"glass": 3}),
        rule("never", AtLeast("hold", 1), {"verdict": 1}),
        rule("anything", ALWAYS, {"hands": 1}),
    )

    idle = {id_ for (_, id_), outcome in proved(kb, "nonvacuity").items() if not outcome.holds}

    others = {f"{scale} {level}" for scale in ("hold", "verdict", "afloat", "tow", "hands") for level in (1, 2, 3)}
    assert {"less", "same-again", "never", *others} - {"hands 1"} == idle


def test_a_rule_that_needs_others_on_the_boat_is_not_idle() -> None:
    line = Is("sign", ("line",))
    kb = promised(
        rule("three", All((line, Elsewhere(line, count=2))), {"glass": 1}),
        rule("after", AtLeast("glass", 1), {"verdict": 1}),
        rule("in-vain", All((line, Elsewhere(All((Is("sign", ("scuff",)), AtLeast("give", 1)))))), {"hold": 1}),
    )

    outcomes = proved(kb, "nonvacuity")

    assert [True, True, False] == [outcomes["nonvacuity", id_].holds for id_ in ("three", "after", "in-vain")]
    assert outcomes["nonvacuity", "three"].found[0].confirmed
