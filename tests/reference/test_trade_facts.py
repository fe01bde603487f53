"""Facts of the trade, written beside this file as a person would tell them, against what the rules conclude."""

from __future__ import annotations

import json
from typing import Any

import pytest

from tests.conftest import ROOT
from triage.inference.forward import forward
from triage.knowledge.model import KnowledgeBase
from triage.parsing.documents import read_document
from triage.survey.read import survey_from_text

WRITTEN: Any = read_document((ROOT / "tests/reference/trade_facts.yaml").read_text(encoding="utf-8"), "facts").value
FACTS: dict[str, Any] = {fact["says"]: fact for fact in WRITTEN["facts"]}


def test_there_are_many_facts_and_each_says_where_it_comes_from() -> None:
    assert len(FACTS) == len(WRITTEN["facts"]) >= 25
    assert {fact["source"] for fact in FACTS.values()} == {"common practice"}


@pytest.mark.parametrize("says", FACTS)
def test_the_rules_agree_with_the_trade(kb: KnowledgeBase, says: str) -> None:
    fact = FACTS[says]
    boat = {"name": "Wagtail", "facts": {**WRITTEN["ordinary"], **fact.get("on", {})}}
    survey = survey_from_text(json.dumps({"boat": boat, "findings": [fact["found"]]}), kb)

    (judged,) = forward(kb, survey.boat, survey.findings)

    expected = {scale: said if isinstance(said, list) else [said, said] for scale, said in fact["expect"].items()}
    assert expected == {scale: [kb.level_name(scale, level) for level in judged.interval(scale)] for scale in expected}
