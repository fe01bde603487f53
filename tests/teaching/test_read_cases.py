"""Thirty drawn cases were read one by one, with the key in view and without; both are held against the program."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest
import yaml

from tests.conftest import ROOT
from triage.concluding.assess import assess_survey
from triage.knowledge.model import KnowledgeBase
from triage.survey.read import survey_from_text

FILE = Path(ROOT) / "tests" / "teaching" / "read_cases.yaml"
CASES: list[dict[str, Any]] = yaml.safe_load(FILE.read_text(encoding="utf-8"))
GRADES = ("cosmetic", "monitor", "structural")


def verdicts(kb: KnowledgeBase, case: dict[str, Any]) -> tuple[str, str]:
    survey = survey_from_text(yaml.safe_dump(case["survey"]).encode(), kb, source=case["drawn"])
    judged = next(one for one in assess_survey(survey, kb).findings if one.id == case["focus"])
    return judged.verdict.best, judged.verdict.worst


def test_thirty_cases_were_read_and_all_verdicts_are_among_them() -> None:
    assert 30 == len(CASES) == len({case["drawn"] for case in CASES})
    assert {*GRADES} == {case["read"] for case in CASES}


@pytest.mark.parametrize("case", CASES, ids=lambda case: str(case["drawn"]))
def test_what_was_read_is_what_the_program_says(kb: KnowledgeBase, case: dict[str, Any]) -> None:
    assert (case["read"], case["read"]) == verdicts(kb, case), case["because"]


@pytest.mark.parametrize("case", CASES, ids=lambda case: str(case["drawn"]))
def test_who_had_not_seen_the_answers_is_at_most_a_grade_away(kb: KnowledgeBase, case: dict[str, Any]) -> None:
    read = [GRADES.index(grade) for grade in case["blind"].split(" to ")]
    told = [GRADES.index(grade) for grade in verdicts(kb, case)]

    assert abs(min(read) - min(told)) <= 1
    assert abs(max(read) - max(told)) <= 1
