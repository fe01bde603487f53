"""From a survey to its assessment: one conductor, who only says who plays when."""

from __future__ import annotations

from dataclasses import replace

from triage.causes.diagnose import diagnose
from triage.causes.referrals import event_referrals_of, referrals_of, suspected
from triage.concluding.events import events_told
from triage.concluding.findings import assess_finding
from triage.concluding.jobs import jobs_of
from triage.concluding.looks import assess_look
from triage.concluding.suspicions import suspicion_of
from triage.concluding.whole import whole_boat
from triage.conclusions.assessment import Assessment
from triage.coverage import Coverage
from triage.inference.evaluation import Evaluation
from triage.inference.forward import forward
from triage.inference.whatif import what_ifs
from triage.knowledge.model import AFLOAT, VERDICT, KnowledgeBase
from triage.survey.model import Survey
from triage.survey.read import checked


def assess_survey(survey: Survey, kb: KnowledgeBase) -> Assessment:
    """Judge a survey. The same findings give the same assessment in whatever order they were written.

    Rules judge the marks alone: a part that was looked at without one raises nothing, and clears nothing untried.

    Raises BadSurvey when the survey says something that cannot be.
    """
    survey = checked(survey, kb).in_walk_order(kb)
    judged = forward(kb, survey.boat, survey.marks)
    coverage = Coverage(kb, survey, judged)
    others = what_ifs(kb, survey.boat, survey.marks)
    found = [assess_finding(coverage, one, whatif) for one, whatif in zip(judged, others, strict=True)]
    order = {one.finding.id: rank for rank, one in enumerate(sorted(judged, key=_gravity))}
    referrals = referrals_of(coverage)
    open_ = suspected(coverage, referrals, event_referrals_of(coverage))
    looks = [assess_look(coverage, look, {one.zone for one in open_}) for look in survey.looks]
    findings = (*sorted(found, key=lambda finding: order[finding.id]), *looks)
    suspicions = tuple(suspicion_of(kb, survey.boat, one) for one in open_)
    diagnosis = diagnose(coverage, referrals, open_)
    jobs = jobs_of(kb, findings, suspicions, diagnosis.causes, referrals)
    return replace(whole_boat(coverage, findings, suspicions, diagnosis), jobs=jobs, events=events_told(coverage))


def _gravity(judged: Evaluation) -> tuple[object, ...]:
    """Gravest first: how bad it is for certain, how bad it may be, what she must not do; then the walk-round."""
    ends = (judged.lower, judged.upper)
    return tuple(-end.level(scale) for scale in (VERDICT, AFLOAT) for end in ends)
