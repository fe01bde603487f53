"""From a judged survey to its causes, its stories and the plan of what to look at next."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from triage.causes.descriptions import Teller
from triage.causes.evidence import evidence, weighed
from triage.causes.plan import Planner
from triage.causes.rank import ranking
from triage.causes.referrals import referrals_of
from triage.causes.stories import stories
from triage.conclusions.diagnosis import Cause, Stop, Story
from triage.inference.evaluation import Evaluation
from triage.knowledge.model import VERDICT, KnowledgeBase
from triage.survey.model import Survey


@dataclass(frozen=True)
class Diagnosis:
    """What a survey says about causes."""

    causes: tuple[Cause, ...] = ()
    stories: tuple[Story, ...] = ()
    plan: tuple[Stop, ...] = ()


def causes(survey: Survey, judged: Sequence[Evaluation], kb: KnowledgeBase) -> Diagnosis:
    """The causes of what was found. ``judged`` are the findings of the survey, judged, in the order of the walk-round.

    Raises BadRules when the causes share so many marks that an exact answer would take too long.
    """
    weights = kb.causation.weights
    if weights is None:
        return Diagnosis()
    findings = [one.finding for one in judged]
    led = referrals_of(judged)
    known = evidence(kb, survey, led)
    posterior = weighed(kb, weights, known)
    teller = Teller(kb, weights, findings, known, ranking(kb, weights, known, posterior))
    gravest = kb.scales[VERDICT].top
    weak = {(one.finding.zone, one.finding.side) for one in judged if one.lower.level(VERDICT) == gravest}
    plan = Planner(kb, survey, teller, posterior, led, weak).plan()
    return Diagnosis(teller.causes(), stories(teller, led), plan)
