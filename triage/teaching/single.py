"""A mark by itself on a common boat: what cards and lessons tell of it is what the program would tell."""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType

from triage.concluding.assess import assess_survey
from triage.conclusions.assessment import FindingAssessment
from triage.conclusions.values import Range
from triage.knowledge.model import SIDES, KnowledgeBase
from triage.survey.model import Boat, Finding, Reading, Survey

_NOTHING: Mapping[str, int] = MappingProxyType({})


def common_boat(kb: KnowledgeBase) -> Boat:
    """The boat of the everyday marks."""
    return Boat("a common boat", kb.everyday.boat)


def single_finding(kb: KnowledgeBase, zone: str, sign: str, readings: Mapping[str, int] = _NOTHING) -> Finding:
    """The mark with these levels answered; on a part with two sides it is to port."""
    side = SIDES[0] if kb.zones[zone].sided else None
    return Finding("1", zone, sign, side, {scale: Reading.at(level) for scale, level in readings.items()})


def assess_single(kb: KnowledgeBase, zone: str, sign: str, readings: Mapping[str, int] = _NOTHING) -> FindingAssessment:
    """What the mark comes to by itself. Raises BadSurvey when it cannot be."""
    survey = Survey(common_boat(kb), (single_finding(kb, zone, sign, readings),))
    return assess_survey(survey, kb).findings[0]


def verdict_of(kb: KnowledgeBase, zone: str, sign: str, readings: Mapping[str, int] = _NOTHING) -> Range:
    """From the best to the worst that it may be."""
    return assess_single(kb, zone, sign, readings).verdict
