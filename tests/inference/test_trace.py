"""The trace: which rule fired on which finding, by which of its conjuncts, raising what from where to where."""

from __future__ import annotations

import pytest

from tests.inference.small import boat, finding, knowledge, presumption, rule
from triage.inference.evaluate import evaluate
from triage.inference.evaluation import Evaluation, Firing
from triage.inference.forward import forward
from triage.knowledge.model import KnowledgeBase
from triage.knowledge.model.conditions import Any, AtLeast, AtMost, Elsewhere, Is
from triage.survey.model import Finding

TRACING = {"evaluate": evaluate, "forward": forward}


@pytest.fixture(params=TRACING)
def engine(request: pytest.FixtureRequest) -> str:
    name: str = request.param
    return name


def judged(engine: str, kb: KnowledgeBase, *findings: Finding) -> Evaluation:
    return TRACING[engine](kb, boat(), findings)[0]


def raised(firings: tuple[Firing, ...]) -> list[tuple[str, tuple[tuple[str, int, int], ...]]]:
    return [(firing.rule.id, firing.raised) for firing in firings]


def test_a_firing_tells_from_where_to_where_it_raised_a_scale(engine: str) -> None:
    kb = knowledge(rule("mild", AtLeast("give", 1), {"glass": 1}), rule("grave", AtLeast("give", 2), {"glass": 3}))

    lower = judged(engine, kb, finding("deck", "line", give=2)).lower

    assert raised(lower.firings) == [("mild", (("glass", 0, 1),)), ("grave", (("glass", 1, 3),))]


def test_a_rule_that_holds_and_adds_nothing_is_in_the_trace_too(engine: str) -> None:
    kb = knowledge(rule("grave", AtLeast("give", 1), {"glass": 3}), rule("mild", AtLeast("give", 1), {"glass": 1}))

    lower = judged(engine, kb, finding("deck", "line", give=1)).lower

    assert raised(lower.firings) == [("grave", (("glass", 0, 3),)), ("mild", ())]


def test_a_rule_that_raises_two_scales_tells_of_both(engine: str) -> None:
    kb = knowledge(rule("both", AtLeast("give", 1), {"glass": 1, "hold": 2}))

    lower = judged(engine, kb, finding("deck", "line", give=1)).lower

    assert raised(lower.firings) == [("both", (("glass", 0, 1), ("hold", 0, 2)))]


def test_of_several_branches_that_hold_the_first_one_speaks(engine: str) -> None:
    kb = knowledge(rule("either", Any((AtLeast("give", 2), AtLeast("sound", 1))), {"glass": 1}))

    (firing,) = judged(engine, kb, finding("deck", "line", give=2, sound=3)).lower.firings
    (other,) = judged(engine, kb, finding("deck", "line", give=0, sound=3)).lower.firings

    assert firing.conjunct.levels == (("give", 2),)
    assert other.conjunct.levels == (("sound", 1),)


def test_rules_fire_in_the_order_in_which_they_can_be_applied_then_as_they_are_written(engine: str) -> None:
    kb = knowledge(
        rule("reads glass", AtLeast("glass", 1), {"verdict": 1}),
        rule("second", AtLeast("give", 1), {"hold": 1}),
        rule("third", AtLeast("give", 1), {"glass": 1}),
    )

    lower = judged(engine, kb, finding("deck", "line", give=1)).lower

    assert [firing.rule.id for firing in lower.firings] == ["second", "third", "reads glass"]


def test_a_firing_names_the_other_findings_it_rests_on(engine: str) -> None:
    kb = knowledge(rule("spreads", Elsewhere(AtLeast("give", 2)), {"glass": 1}))
    one, two, firm = finding("rim", "line", give=2), finding("tank", "line", give=3), finding("step", "line", give=0)

    (firing,) = judged(engine, kb, finding("deck", "scuff", depth=0), one, two, firm).lower.firings

    assert (one.id, two.id) == firing.witnesses


def test_the_ceiling_has_a_trace_of_its_own(engine: str) -> None:
    kb = knowledge(rule("soft", AtLeast("give", 2), {"glass": 2}), rule("cored", Is("build", ("cored",)), {"hold": 1}))

    outcome = judged(engine, kb, finding("deck", "line"))

    assert raised(outcome.lower.firings) == []
    assert raised(outcome.upper.firings) == [("soft", (("glass", 0, 2),)), ("cored", (("hold", 0, 1),))]


def test_a_presumption_in_use_tells_what_it_lowered(engine: str) -> None:
    firm_rings = presumption("firm rings", AtMost("give", 0), {"sound": 0, "depth": 1})

    outcome = judged(engine, knowledge(firm_rings), finding("deck", "line", give=0, depth=1))

    assert [(firm_rings, (("sound", 0),))] == [(used.presumption, used.levels) for used in outcome.presumed]
    assert outcome.defeated == ()


def test_a_withdrawn_presumption_tells_which_answers_speak_against_it(engine: str) -> None:
    firm_rings = presumption("firm rings", AtMost("give", 0), {"sound": 0, "depth": 1})

    outcome = judged(engine, knowledge(firm_rings), finding("deck", "line", give=0, sound=1, depth=0))

    assert outcome.presumed == ()
    assert [(firm_rings, ("sound",))] == [(gone.presumption, gone.against) for gone in outcome.defeated]
