"""What is said of one job: the marks that are one damage, under one heading."""

from __future__ import annotations

from triage.conclusions.assessment import Assessment, FindingAssessment, Job
from triage.conclusions.checks import OpenCheck
from triage.conclusions.repairs import RepairAdvice
from triage.phrases import answers, findings
from triage.phrases.words import at_side, capital, counted, listed

ONE_DAMAGE = "These marks are one damage, mended in one go:"


def marks(job: Job, assessment: Assessment) -> tuple[FindingAssessment, ...]:
    """The findings that it is made of, gravest first."""
    return tuple(map(assessment.finding, job.findings))


def title(job: Job, assessment: Assessment) -> str:
    """The job by its gravest mark, and how many more belong to it."""
    first, *others = marks(job, assessment)
    with_it = f", and {counted(len(others), 'mark')} with it" if others else ""
    return f"{findings.title(first)}{findings.seen_before(first, assessment)}{with_it}"


def headline(job: Job, assessment: Assessment) -> str:
    """The verdict in a few words. While open, never milder than "not cleared"."""
    if len(job.findings) == 1:
        return findings.headline(assessment.finding(job.findings[0]))
    return capital(job.verdict.best) if job.verdict.settled else findings.not_cleared(job.verdict, job.checks)


def summary(job: Job, assessment: Assessment) -> str:
    """The main reason in one sentence."""
    if len(job.findings) == 1 or job.why is None:
        return findings.summary(assessment.finding(job.findings[0]))
    return job.why.because if job.verdict.settled else f"At worst: {job.why.because}"


def one_damage(job: Job, assessment: Assessment) -> str:
    """Which marks it is made of; nothing for a single one."""
    if len(job.findings) == 1:
        return ""
    titles = [f"{findings.title(one)}{findings.seen_before(one, assessment)}" for one in marks(job, assessment)]
    return f"{ONE_DAMAGE} {listed(titles)}."


def by(repair: RepairAdvice, job: Job) -> str:
    """Who does the repair: where one is told for the whole range, all whom the range names."""
    return answers.hands(job.hands) if job.mending_at_worst is None else repair.who


def where(check: OpenCheck, job: Job) -> str:
    """Where the check is made, if the job is in more places than one."""
    return f" at {at_side(check.place, check.side)}" if check.check and len(job.places) > 1 else ""
