"""Reasoned damage assessment for small glass-fibre sailing dinghies.

A survey that is written down becomes an assessment:

    from triage import assess_survey, load_knowledge, read_survey, render

    kb = load_knowledge()
    assessment = assess_survey(read_survey("survey.yaml", kb), kb)
    print(render(assessment, "text"))

A survey that is not comes about in a conversation, which any face can hold; `step` only says what comes of an event:

    from triage import Boat, Chose, Said, Survey, begin, kept, step, survey_text

    state, messages = begin(kb, Survey(Boat("Wagtail"), ()))
    state, messages = step(kb, state, Said("crack where the mast wires bolt on, port side"))
    state, messages = step(kb, state, Chose(1))
    print(survey_text(kept(state)))

Whoever thinks of buying her brings an offer along:

    from triage import advise_purchase, read_offer, render_purchase

    print(render_purchase(advise_purchase(assessment, read_offer("offer.yaml", kb), kb)))

A class learns on boats that are drawn from the rules, each with its answer:

    from triage import draw_case, key_of

    case = draw_case(kb, 17)
    print(survey_text(case.shown), key_of(kb, case).finding.verdict.best)

Names are imported when they are first used, so that ``triage --help`` stays quick.
"""

from __future__ import annotations

import importlib
from typing import TYPE_CHECKING

from triage.version import __version__ as __version__

if TYPE_CHECKING:
    from triage.asking.effort import Resources
    from triage.buying.advice import PurchaseAdvice, advise_purchase
    from triage.buying.offer import Offer
    from triage.buying.read_offer import offer_from, read_offer
    from triage.concluding.assess import assess_survey
    from triage.conclusions.assessment import Assessment
    from triage.dialogue.events import Chose, Said
    from triage.dialogue.interview import add_finding
    from triage.dialogue.keeping import kept
    from triage.dialogue.state import State
    from triage.dialogue.step import begin, present, step
    from triage.errors import BadInput, BadOffer, BadRules, BadSurvey, CannotWork, MissingExtra, Problem, TriageError
    from triage.knowledge.model import KnowledgeBase
    from triage.knowledge.store.load import load_knowledge
    from triage.listening.understand import understand
    from triage.survey.model import Boat, Finding, Reading, Survey
    from triage.survey.read import read_survey, survey_from
    from triage.survey.write import survey_text
    from triage.teaching.drawn import draw_case
    from triage.teaching.key import key_of
    from triage.views.purchase import render_purchase
    from triage.views.report import render

_HOME = {
    "Assessment": "triage.conclusions.assessment",
    "BadInput": "triage.errors",
    "BadOffer": "triage.errors",
    "Offer": "triage.buying.offer",
    "PurchaseAdvice": "triage.buying.advice",
    "advise_purchase": "triage.buying.advice",
    "offer_from": "triage.buying.read_offer",
    "read_offer": "triage.buying.read_offer",
    "render_purchase": "triage.views.purchase",
    "BadRules": "triage.errors",
    "BadSurvey": "triage.errors",
    "Boat": "triage.survey.model",
    "CannotWork": "triage.errors",
    "Chose": "triage.dialogue.events",
    "Finding": "triage.survey.model",
    "KnowledgeBase": "triage.knowledge.model",
    "Resources": "triage.asking.effort",
    "MissingExtra": "triage.errors",
    "Problem": "triage.errors",
    "Reading": "triage.survey.model",
    "Said": "triage.dialogue.events",
    "State": "triage.dialogue.state",
    "Survey": "triage.survey.model",
    "TriageError": "triage.errors",
    "begin": "triage.dialogue.step",
    "kept": "triage.dialogue.keeping",
    "present": "triage.dialogue.step",
    "step": "triage.dialogue.step",
    "assess_survey": "triage.concluding.assess",
    "load_knowledge": "triage.knowledge.store.load",
    "read_survey": "triage.survey.read",
    "render": "triage.views.report",
    "survey_from": "triage.survey.read",
    "survey_text": "triage.survey.write",
    "add_finding": "triage.dialogue.interview",
    "draw_case": "triage.teaching.drawn",
    "key_of": "triage.teaching.key",
    "understand": "triage.listening.understand",
}

__all__ = [
    "Assessment",
    "BadInput",
    "BadOffer",
    "BadRules",
    "BadSurvey",
    "Boat",
    "CannotWork",
    "Chose",
    "Finding",
    "KnowledgeBase",
    "MissingExtra",
    "Offer",
    "Problem",
    "PurchaseAdvice",
    "Reading",
    "Resources",
    "Said",
    "State",
    "Survey",
    "TriageError",
    "add_finding",
    "advise_purchase",
    "assess_survey",
    "begin",
    "draw_case",
    "kept",
    "key_of",
    "load_knowledge",
    "offer_from",
    "present",
    "read_offer",
    "read_survey",
    "render",
    "render_purchase",
    "step",
    "survey_from",
    "survey_text",
    "understand",
]


def __getattr__(name: str) -> object:
    if name not in _HOME:
        raise AttributeError(f"module {__name__!r} has no attribute {name!r}")
    return getattr(importlib.import_module(_HOME[name]), name)
