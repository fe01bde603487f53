"""What is known of buying: read, kept, checked; and what no promise can say of its rules."""

from __future__ import annotations

import itertools
from dataclasses import replace

import pytest

from tests.conftest import ROOT
from triage.buying.advice import advise_purchase
from triage.buying.offer import NOTHING_NAMED
from triage.buying.viewing import plan_viewing
from triage.concluding.assess import assess_survey
from triage.errors import BadRules
from triage.inference.evaluate import evaluate
from triage.inference.forward import forward
from triage.knowledge.model import KnowledgeBase
from triage.knowledge.model.conditions import AtLeast, parts
from triage.knowledge.model.purchase import DECISION, OFFER, PURCHASE
from triage.knowledge.store.load import knowledge_from_texts, load_knowledge, rule_texts
from triage.lint.buying import buying_problems
from triage.survey.model import Boat, Finding, Reading, Survey

MONEY = {"share", "asking", "over_budget", "beyond_budget"}
FINDING = Finding("offer", PURCHASE, OFFER)


@pytest.fixture(scope="module")
def judging(kb: KnowledgeBase) -> KnowledgeBase:
    assert kb.purchase.judging is not None
    return kb.purchase.judging


def test_rules_of_buying_stand_apart_from_those_of_the_boat(kb: KnowledgeBase, judging: KnowledgeBase) -> None:
    assert not set(kb.scales) & set(judging.scales)
    assert not {rule.id for rule in kb.rules} & {rule.id for rule in judging.rules}
    assert [PURCHASE] == list(judging.zones)


def test_they_hold_together(kb: KnowledgeBase) -> None:
    assert [] == list(buying_problems(kb))


def test_what_is_kept_is_what_was_read() -> None:
    texts = rule_texts(ROOT / "rules")
    read, kept = knowledge_from_texts(texts).purchase, load_knowledge(ROOT / "rules").purchase

    assert read.figures == kept.figures
    assert read.gear == kept.gear
    assert read.sale == kept.sale


def test_both_engines_agree_on_every_single_reading(judging: KnowledgeBase) -> None:
    observed = [scale for scale in judging.scales.values() if scale.observed]
    for scale in observed:
        for level in range(scale.top + 1):
            known = replace(FINDING, readings={scale.id: Reading.at(level)})
            (one,), (other,) = (judge(judging, Boat("any"), [known]) for judge in (evaluate, forward))
            assert one.interval(DECISION) == other.interval(DECISION)


def test_no_rule_that_ends_in_leaving_reads_what_was_accepted_at_a_price(judging: KnowledgeBase) -> None:
    leave = judging.scales[DECISION].top
    leaving = [rule for rule in judging.rules if (DECISION, leave) in rule.raises]
    read = {part.scale for rule in leaving for part in parts(rule.when) if isinstance(part, AtLeast)}

    assert "priced" not in read
    assert {"weak_main", "heavy", "identity", "refusal", "share", "beyond_budget"} == read


def test_the_age_of_a_boat_is_nothing_that_rules_can_read(judging: KnowledgeBase) -> None:
    assert not any(word in scale for scale in judging.scales for word in ("age", "year", "old"))


def test_money_that_was_not_named_decides_nothing(judging: KnowledgeBase) -> None:
    """With all the rest known, what is certain is the same whether money is at its best or not named."""
    others = [scale for scale in judging.scales.values() if scale.observed and scale.id not in MONEY]
    for changed, level in itertools.product(others, range(4)):
        known = {scale.id: Reading.at(min(level, scale.top) if scale is changed else 0) for scale in others}
        named = {**known, **{scale: Reading.at(0) for scale in MONEY}}
        (unnamed,) = evaluate(judging, Boat("any"), [replace(FINDING, readings=known)])
        (best,) = evaluate(judging, Boat("any"), [replace(FINDING, readings=named)])
        assert unnamed.lower.level(DECISION) == best.lower.level(DECISION)


@pytest.mark.parametrize(
    ("file", "old", "new", "told"),
    [
        ("figures.yaml", "  hidden_damage:\n    is: [120, 300, 900]", "  hidden_damage:\n    is: [120]", "is not 3"),
        ("figures.yaml", "margin_back_seen:", "margin_back_looked_at:", 'the figure "margin_back_seen" is missing'),
        ("gear.yaml", "missing: [60, 200]", "missing: [200, 60]", "does not run from the least to the most"),
        ("sale.yaml", "counts: refusal", "counts: refusals", 'no observed scale is called "refusals"'),
        ("decision.yaml", "weak_other: {at_least: some}", "weak_other: {at_least: much}", "has no level"),
    ],
)
def test_mistakes_are_told_where_they_stand(file: str, old: str, new: str, told: str) -> None:
    texts = dict(rule_texts(ROOT / "rules"))
    texts[f"buying/{file}"] = texts[f"buying/{file}"].replace(old.encode(), new.encode(), 1)

    with pytest.raises(BadRules) as raised:
        knowledge_from_texts(texts)

    assert told in str(raised.value)
    assert f"buying/{file}:" in str(raised.value)


def test_a_folder_without_them_still_judges_boats() -> None:
    texts = {name: text for name, text in rule_texts(ROOT / "rules").items() if not name.startswith("buying/")}

    kb = knowledge_from_texts(texts)
    assert kb.purchase.judging is None
    assessment = assess_survey(Survey(Boat("Wagtail"), ()), kb)
    with pytest.raises(BadRules, match="hold nothing about buying"):
        advise_purchase(assessment, NOTHING_NAMED, kb)
    with pytest.raises(BadRules, match="hold nothing about buying"):
        plan_viewing(assessment, NOTHING_NAMED, kb, 40, 2026)
