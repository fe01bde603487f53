"""Reasoned damage assessment for small glass-fibre sailing dinghies.

    from triage import assess_survey, load_knowledge, read_survey

    kb = load_knowledge()
    assessment = assess_survey(read_survey("survey.yaml", kb), kb)

Names are imported when they are first used, so that ``triage --help`` stays quick.
"""

from __future__ import annotations

import importlib
from typing import TYPE_CHECKING

__version__ = "0.1.0"

if TYPE_CHECKING:
    from triage.asking.interview import answer, next_question, take_up
    from triage.asking.question import Done, Question
    from triage.asking.suggest import Means
    from triage.assess import assess_survey
    from triage.assessment import Assessment
    from triage.errors import BadInput, BadRules, BadSurvey, MissingExtra, Problem, TriageError
    from triage.knowledge.load import load_knowledge
    from triage.knowledge.model import KnowledgeBase
    from triage.report import render
    from triage.survey.model import Boat, Finding, Reading, Survey
    from triage.survey.read import read_survey
    from triage.survey.write import survey_text
    from triage.wording.understand import understand

_HOME = {
    "Assessment": "triage.assessment",
    "BadInput": "triage.errors",
    "BadRules": "triage.errors",
    "BadSurvey": "triage.errors",
    "Boat": "triage.survey.model",
    "Done": "triage.asking.question",
    "Finding": "triage.survey.model",
    "KnowledgeBase": "triage.knowledge.model",
    "Means": "triage.asking.suggest",
    "MissingExtra": "triage.errors",
    "Problem": "triage.errors",
    "Question": "triage.asking.question",
    "Reading": "triage.survey.model",
    "Survey": "triage.survey.model",
    "TriageError": "triage.errors",
    "answer": "triage.asking.interview",
    "assess_survey": "triage.assess",
    "load_knowledge": "triage.knowledge.load",
    "next_question": "triage.asking.interview",
    "read_survey": "triage.survey.read",
    "render": "triage.report",
    "survey_text": "triage.survey.write",
    "take_up": "triage.asking.interview",
    "understand": "triage.wording.understand",
}

__all__ = [
    "Assessment",
    "BadInput",
    "BadRules",
    "BadSurvey",
    "Boat",
    "Done",
    "Finding",
    "KnowledgeBase",
    "Means",
    "MissingExtra",
    "Problem",
    "Question",
    "Reading",
    "Survey",
    "TriageError",
    "answer",
    "assess_survey",
    "load_knowledge",
    "next_question",
    "read_survey",
    "render",
    "survey_text",
    "take_up",
    "understand",
]


def __getattr__(name: str) -> object:
    if name not in _HOME:
        raise AttributeError(f"module {__name__!r} has no attribute {name!r}")
    return getattr(importlib.import_module(_HOME[name]), name)
