"""Published texts against what the rules conclude: for every rule that is called published, what its text asks for."""

from __future__ import annotations

import json
from typing import Any

import pytest

from tests.conftest import ROOT
from tests.reference.test_published import CHECKED_BY_FIGURES
from triage.inference.forward import forward
from triage.knowledge.model import VERDICT, KnowledgeBase
from triage.parsing.documents import read_document
from triage.survey.read import survey_from_text

WRITTEN: Any = read_document((ROOT / "tests/reference/published_facts.yaml").read_text(encoding="utf-8"), "facts").value
FACTS: dict[str, Any] = {fact["rule"]: fact for fact in WRITTEN["facts"]}


@pytest.mark.parametrize("rule", FACTS)
def test_the_rule_holds_and_the_answer_is_what_the_text_asks_for(kb: KnowledgeBase, rule: str) -> None:
    fact = FACTS[rule]
    boat = {"name": "Wagtail", "facts": {**WRITTEN["ordinary"], **fact.get("on", {})}}
    survey = survey_from_text(json.dumps({"boat": boat, "findings": [fact["found"]]}), kb)

    (judged,) = forward(kb, survey.boat, survey.findings)

    assert rule in {firing.rule.id for firing in judged.lower.firings}
    expected = {
        scale: said if isinstance(said, list) else [said, said] for scale, said in fact.get("expect", {}).items()
    }
    assert expected == {scale: [kb.level_name(scale, level) for level in judged.interval(scale)] for scale in expected}
    least = [level.name for level in kb.scales[VERDICT].levels].index(fact.get("at_least", "cosmetic"))
    assert judged.lower.level(VERDICT) >= least
    assert judged.lower.level("trust") >= int(fact.get("trust", 0))


def test_every_published_rule_that_raises_something_is_checked(kb: KnowledgeBase) -> None:
    published = {rule.id for rule in kb.rules if rule.basis.kind == "published" and rule.raises}

    assert published == FACTS.keys() | CHECKED_BY_FIGURES
