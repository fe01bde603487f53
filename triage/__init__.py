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
    from triage.assess import assess_survey
    from triage.assessment import Assessment
    from triage.errors import BadInput, BadRules, BadSurvey, MissingExtra, Problem, TriageError
    from triage.knowledge.load import load_knowledge
    from triage.knowledge.model import KnowledgeBase
    from triage.report import render
    from triage.survey.model import Boat, Finding, Reading, Survey
    from triage.survey.read import read_survey

_HOME = {
    "Assessment": "triage.assessment",
    "BadInput": "triage.errors",
    "BadRules": "triage.errors",
    "BadSurvey": "triage.errors",
    "Boat": "triage.survey.model",
    "Finding": "triage.survey.model",
    "KnowledgeBase": "triage.knowledge.model",
    "MissingExtra": "triage.errors",
    "Problem": "triage.errors",
    "Reading": "triage.survey.model",
    "Survey": "triage.survey.model",
    "TriageError": "triage.errors",
    "assess_survey": "triage.assess",
    "load_knowledge": "triage.knowledge.load",
    "read_survey": "triage.survey.read",
    "render": "triage.report",
}

__all__ = [
    "Assessment",
    "BadInput",
    "BadRules",
    "BadSurvey",
    "Boat",
    "Finding",
    "KnowledgeBase",
    "MissingExtra",
    "Problem",
    "Reading",
    "Survey",
    "TriageError",
    "assess_survey",
    "load_knowledge",
    "read_survey",
    "render",
]


def __getattr__(name: str) -> object:
    if name not in _HOME:
        raise AttributeError(f"module {__name__!r} has no attribute {name!r}")
    return getattr(importlib.import_module(_HOME[name]), name)
