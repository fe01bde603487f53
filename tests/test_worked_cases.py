"""Boats judged by hand, all the way through `assess_survey`; cases, and where the rules are stricter, are in YAML."""

from __future__ import annotations

import json
from typing import Any

import pytest

from tests.conftest import ROOT
from triage.concluding.assess import assess_survey
from triage.conclusions.assessment import Assessment
from triage.conclusions.values import Range
from triage.knowledge.model import KnowledgeBase
from triage.parsing.documents import read_document
from triage.survey.read import survey_from_text

CASES: list[dict[str, Any]] = read_document(
    (ROOT / "tests/worked_cases.yaml").read_text(encoding="utf-8"), "worked cases"
).value["cases"]
GRAVER = {"cosmetic": 0, "monitor": 1, "structural": 2}


def assess(kb: KnowledgeBase, case: dict[str, Any]) -> Assessment:
    findings = [{**finding, "id": str(number)} for number, finding in enumerate(case["findings"])]
    survey = {"boat": {"name": "Wagtail", "facts": case.get("facts", {})}, "findings": findings}
    return assess_survey(survey_from_text(json.dumps(survey), kb), kb)


def said(verdict: Range) -> str:
    return verdict.best if verdict.settled else f"{verdict.best} to {verdict.worst}"


def ends(verdict: str) -> tuple[int, int]:
    best, _, worst = verdict.partition(" to ")
    return GRAVER[best], GRAVER[worst or best]


def test_no_case_is_missing_or_told_twice() -> None:
    names = [case["name"] for case in CASES]

    assert len(names) >= 24
    assert len(set(names)) == len(names)


@pytest.mark.parametrize("case", CASES, ids=lambda case: case["name"])
def test_a_worked_case_comes_out_as_judged(kb: KnowledgeBase, case: dict[str, Any]) -> None:
    assessment = assess(kb, case)

    verdicts = {finding.id: said(finding.verdict) for finding in assessment.findings}
    turns = {turn.scale: said(turn.verdict) for finding in assessment.findings for turn in finding.would_change}
    assert case["expect"] == [verdicts[str(number)] for number in range(len(case["findings"]))]
    assert set(case.get("suspected", [])) <= {suspicion.zone for suspicion in assessment.suspicions}
    assert case.get("would_change", {}).items() <= turns.items()
    if "afloat" in case:
        assert case["afloat"] == assessment.afloat.range.worst


@pytest.mark.parametrize("case", [case for case in CASES if "first_judged" in case], ids=lambda case: case["name"])
def test_where_the_rules_differ_from_the_first_judgement_the_case_argues_why(case: dict[str, Any]) -> None:
    assert case["argued"]
    assert case["expect"] != case["first_judged"]
    for first, now in zip(case["first_judged"], case["expect"], strict=True):
        milder_end = ends(now)[1] < ends(first)[0]
        assert not milder_end, "what was certain may become open, never milder for certain"
