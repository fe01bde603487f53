"""What is known, as frozen data: the knowledge base and the parts it is made of."""

from triage.knowledge.model.base import KnowledgeBase
from triage.knowledge.model.ontology import (
    AFLOAT,
    BUOYANCY,
    HANDS,
    NOTHING_SEEN,
    OTHER_SIDE,
    OUTCOMES,
    SIDES,
    TOW,
    VERDICT,
    Cap,
    Check,
    Fact,
    Group,
    Leg,
    Sign,
    Source,
    Zone,
)
from triage.knowledge.model.rule import Advice, Case, Presumption, Rule, Suspect
from triage.knowledge.model.scale import Basis, Level, Measure, Scale

__all__ = [
    "AFLOAT",
    "BUOYANCY",
    "HANDS",
    "NOTHING_SEEN",
    "OTHER_SIDE",
    "OUTCOMES",
    "SIDES",
    "TOW",
    "VERDICT",
    "Advice",
    "Basis",
    "Cap",
    "Case",
    "Check",
    "Fact",
    "Group",
    "KnowledgeBase",
    "Leg",
    "Level",
    "Measure",
    "Presumption",
    "Rule",
    "Scale",
    "Sign",
    "Source",
    "Suspect",
    "Zone",
]
