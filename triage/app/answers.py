"""What the answer screen shows beside the short answer: the next question that can be answered, and folded reasons."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from triage.conclusions.assessment import Assessment, Job
from triage.conclusions.checks import OpenCheck
from triage.dialogue.answers import askable
from triage.knowledge.model import KnowledgeBase
from triage.phrases import findings, headings, jobs
from triage.phrases.words import capital
from triage.survey.model import Survey

Reasons = Sequence[tuple[str, Sequence[str]]]
"""Headings, each with its sentences."""


@dataclass(frozen=True)
class NextQuestion:
    """A question about a mark whose answer is worth finding now: by which check, and how long that takes."""

    mark: str
    ask: str
    name: str
    minutes: float


def next_question(kb: KnowledgeBase, survey: Survey, assessment: Assessment) -> NextQuestion | None:
    """The first of the checks to do next that answers a question about a mark; None when there is none."""
    for check in _checks(assessment):
        for finding in survey.findings:
            here = finding.zone == check.zone and (
                finding.side == check.side or check.side not in ("port", "starboard")
            )
            if here and check.scale not in finding.readings and check.scale in askable(kb, finding):
                return NextQuestion(finding.id, check.scale, check.name, check.minutes)
    return None


def _checks(assessment: Assessment) -> Iterator[OpenCheck]:
    for answer in (assessment.afloat, assessment.tow):
        yield from (one.check for one in answer.awaits)
    for job in assessment.jobs:
        if not job.verdict.settled:
            yield from job.checks


def reasons_of(job: Job, assessment: Assessment) -> Reasons:
    """Why a job is judged as it is, from what was found, and what would change it."""
    told: list[tuple[str, Sequence[str]]] = []
    for mark in jobs.marks(job, assessment):
        found = [capital(findings.reading(one)) for one in mark.readings]
        why = list(dict.fromkeys(step.because for step in mark.why))
        worst = [one for one in dict.fromkeys(step.because for step in mark.at_worst) if one not in why]
        change = [f"{capital(findings.counterfactual(turn))}." for turn in mark.would_change]
        told += [
            (headings.YOU_FOUND, found),
            (headings.WHY, why),
            (headings.WHY_IT_MAY_BE, worst),
            (headings.WOULD_CHANGE, change),
        ]
    return [(title, lines) for title, lines in told if lines]
