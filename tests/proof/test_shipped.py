"""The shipped rules keep their promises; and what a repairer insists on that no promise can say."""

from __future__ import annotations

from dataclasses import replace

import pytest

from tests.proof.asking import breaches
from triage.inference.evaluate import evaluate
from triage.knowledge.compiled.reads import derived_read
from triage.knowledge.model import AFLOAT, TOW, VERDICT, KnowledgeBase, Rule
from triage.proof.run import Asker, claims_of, prove_rules
from triage.survey.model import Boat, Finding, Reading
from triage.survey.read import survey_from_text

ZONES = ("chainplate", "cockpit_floor", "joint_bow")
"""Proved in every run of the tests; the others in the slow one."""

ANSWERS = {VERDICT, AFLOAT, TOW}


@pytest.mark.parametrize("zone", ZONES)
def test_every_promise_and_law_holds_in_a_place(kb: KnowledgeBase, zone: str) -> None:
    claims = claims_of(kb)
    universal = tuple(number for number, claim in enumerate(claims) if not claim.existential)

    answers = Asker(kb, {}).do((zone, universal))

    assert len(kb.offers[zone]) * 5 < len(answers)
    assert [] == [(claims[answer.claim].id, answer) for answer in answers if answer.found or answer.undecided]


def test_every_claim_about_the_rules_of_buying_holds(kb: KnowledgeBase) -> None:
    judging = kb.purchase.judging
    assert judging is not None

    outcomes = prove_rules(judging, workers=1)

    assert len(judging.rules) + 2 * len(judging.promises) < len(outcomes)
    assert [] == [outcome for outcome in outcomes if not outcome.holds]


@pytest.mark.slow
def test_every_claim_about_the_rules_holds_everywhere(kb: KnowledgeBase) -> None:
    outcomes = prove_rules(kb)

    assert len(kb.rules) + 2 * len(kb.promises) < len(outcomes)
    assert [] == [outcome for outcome in outcomes if not outcome.holds]


@pytest.mark.slow
def test_leaving_out_any_rule_from_conclusions_to_an_answer_breaks_a_promise(kb: KnowledgeBase) -> None:
    raising = [rule for rule in kb.rules if rule.raises and derived_read(kb, rule)]
    answers = [rule for rule in raising if {scale for scale, _ in rule.raises} <= ANSWERS]

    unnoticed = [rule.id for rule in answers if not missed(kb, rule)]

    assert len(answers) > 30
    assert [] == unnoticed


def missed(kb: KnowledgeBase, rule: Rule) -> bool:
    """Whether a promise misses the rule on the boat on which it alone says what it says."""
    asker = Asker(kb, {})
    (number,) = (n for n, claim in enumerate(asker.claims) if claim.id == rule.id and claim.existential)
    (example,) = (answer.examples[0] for answer in asker.existential(number) if answer.found)
    survey = survey_from_text(example, kb)
    without = replace(kb, rules=tuple(other for other in kb.rules if other is not rule))
    return bool(breaches(without, survey.boat, evaluate(without, survey.boat, survey.findings)))


def test_play_in_the_bearing_liner_alone_is_never_called_a_failure_of_the_hull(kb: KnowledgeBase) -> None:
    """The worst slop with all else at its mildest: whatever is milder stays below, because rules only raise."""
    sign = kb.signs["worn_bush"]
    mildest = {scale: sign.least.get(scale, 0) for scale in kb.applicable("rudder_fittings", sign.id)}
    readings = {scale: Reading.at(level) for scale, level in (mildest | {"slop": kb.scales["slop"].top}).items()}
    worn = Finding("worn", "rudder_fittings", sign.id, None, readings)

    (judged,) = evaluate(kb, Boat("any"), [worn])

    assert (0, 0) == judged.interval("laminate") == judged.interval("loadpath")
    assert "do" in {advice.kind for firing in judged.lower.firings for advice in firing.rule.advises}
