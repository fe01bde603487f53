"""Reasoned damage assessment for small glass-fibre sailing dinghies.

    from triage import assess_survey, load_knowledge, read_survey

    kb = load_knowledge()
    assessment = assess_survey(read_survey("survey.yaml", kb), kb)

Names are imported when they are first used, so that ``triage --help`` stays quick.
"""

from __future__ import annotations

import importlib
from typing import TYPE_CHECKING

from triage.version import __version__ as __version__

if TYPE_CHECKING:
    from triage.asking.suggest import Resources
    from triage.concluding.assess import assess_survey
    from triage.conclusions.assessment import Assessment
    from triage.dialogue.interview import add_finding, answer, next_question
    from triage.dialogue.question import Done, Question
    from triage.errors import BadInput, BadRules, BadSurvey, CannotWork, MissingExtra, Problem, TriageError
    from triage.knowledge.model import KnowledgeBase
    from triage.knowledge.store.load import load_knowledge
    from triage.listening.understand import understand
    from triage.survey.model import Boat, Finding, Reading, Survey
    from triage.survey.read import read_survey, survey_from
    from triage.survey.write import survey_text
    from triage.views.report import render

_HOME = {
    "Assessment": "triage.conclusions.assessment",
    "BadInput": "triage.errors",
    "BadRules": "triage.errors",
    "BadSurvey": "triage.errors",
    "Boat": "triage.survey.model",
    "CannotWork": "triage.errors",
    "Done": "triage.dialogue.question",
    "Finding": "triage.survey.model",
    "KnowledgeBase": "triage.knowledge.model",
    "Resources": "triage.asking.suggest",
    "MissingExtra": "triage.errors",
    "Problem": "triage.errors",
    "Question": "triage.dialogue.question",
    "Reading": "triage.survey.model",
    "Survey": "triage.survey.model",
    "TriageError": "triage.errors",
    "answer": "triage.dialogue.interview",
    "assess_survey": "triage.concluding.assess",
    "load_knowledge": "triage.knowledge.store.load",
    "next_question": "triage.dialogue.interview",
    "read_survey": "triage.survey.read",
    "render": "triage.views.report",
    "survey_from": "triage.survey.read",
    "survey_text": "triage.survey.write",
    "add_finding": "triage.dialogue.interview",
    "understand": "triage.listening.understand",
}

__all__ = [
    "Assessment",
    "BadInput",
    "BadRules",
    "BadSurvey",
    "Boat",
    "CannotWork",
    "Done",
    "Finding",
    "KnowledgeBase",
    "MissingExtra",
    "Problem",
    "Question",
    "Reading",
    "Resources",
    "Survey",
    "TriageError",
    "add_finding",
    "answer",
    "assess_survey",
    "load_knowledge",
    "next_question",
    "read_survey",
    "render",
    "survey_from",
    "survey_text",
    "understand",
]


def __getattr__(name: str) -> object:
    if name not in _HOME:
        raise AttributeError(f"module {__name__!r} has no attribute {name!r}")
    return getattr(importlib.import_module(_HOME[name]), name)
