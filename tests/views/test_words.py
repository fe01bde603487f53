"""Words that can be read aloud: short sentences of short words, and not many of them."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
import textstat

from tests.conftest import ROOT
from triage.concluding.assess import assess_survey
from triage.knowledge.model import KnowledgeBase
from triage.survey.read import read_survey
from triage.views.report import render

EXAMPLES = sorted((ROOT / "examples").glob("*.yaml"))

GRADE_SHORT, GRADE_FULL = 6, 7
"""Flesch-Kincaid: years of school. Somebody cold and in a hurry reads what a twelve-year-old can; the reasons may ask
for one year more.
"""

WORDS_OF_ONE_MARK, WORDS_OF_A_BOAT = 260, 600
"""What is read aloud in under two minutes, and in four."""


@pytest.mark.parametrize("example", EXAMPLES, ids=lambda path: path.stem)
def test_an_answer_is_easy_to_read_and_short(example: Path, kb: KnowledgeBase) -> None:
    assessment = assess_survey(read_survey(example, kb), kb)
    short, full = (re.sub(r"[○◇■?]\s", "", render(assessment, form)) for form in ("text", "full"))

    assert textstat.flesch_kincaid_grade(short) <= GRADE_SHORT
    assert textstat.flesch_kincaid_grade(full) <= GRADE_FULL
    assert len(short.split()) <= (WORDS_OF_ONE_MARK if len(assessment.jobs) == 1 else WORDS_OF_A_BOAT)
