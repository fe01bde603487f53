"""The sentences on mending: who does it, how long it takes, what it costs, and before what it is done."""

from __future__ import annotations

from collections.abc import Iterator

from triage.conclusions.assessment import Assessment, Job
from triage.conclusions.repairs import RepairAdvice
from triage.phrases import answers, jobs
from triage.phrases.words import hours_of, listed, span

NOTHING_TO_MEND = "Nothing to mend."


def nothing_to_mend(job: Job) -> bool:
    """Whether it is looks, or a paper to ask about, for certain."""
    repairs = [one for one in (job.mending, job.mending_at_worst) if one]
    return job.verdict.roles[1] == "looks" or (bool(repairs) and not any(one.is_work for one in repairs))


def mending(job: Job) -> str:
    """Who mends it, how long it takes and what it costs: for what is known, and for the worst that it may be."""
    if nothing_to_mend(job):
        return NOTHING_TO_MEND
    known, worst = job.mending, job.mending_at_worst
    parts = []
    if known:
        who = answers.hands(job.hands) if worst is None else known.who
        parts.append(f"Mended by: {', '.join((who, *_work(known), *_bill(known)))}.")
    elif worst:
        parts.append("Perhaps nothing to mend.")
    if worst:
        parts.append(f"If it proves worse: {', '.join((worst.who, *_work(worst), *_bill(worst)))}.")
    return " ".join(parts) or f"A job for: {answers.hands(job.hands)}."


def _work(repair: RepairAdvice) -> Iterator[str]:
    """How long it takes, where there is a figure."""
    if repair.hours:
        yield hours_of(repair.hours)


def _bill(repair: RepairAdvice) -> Iterator[str]:
    """What it costs whom, where there are figures."""
    bill = []
    if repair.materials and repair.who_role != "professional":
        bill.append(f"{span(repair.materials)} in materials")
    if repair.repairer:
        bill.append(f"{span(repair.repairer)}{' at a repairer' if bill else ''}")
    if bill:
        yield " or ".join(bill) + (f" per {repair.per}" if repair.per else "")


def money(assessment: Assessment) -> str:
    """What the figures are in, once for all jobs of which any are told; empty without figures."""
    for job in (job for job in assessment.jobs if job.verdict.levels[1]):
        for repair in (job.mending, job.mending_at_worst):
            if repair and (repair.materials or repair.repairer):
                return f"Prices of {repair.year}, in {repair.unit}: get a quote."
    return ""


def mend_first(assessment: Assessment) -> str:
    """Which jobs are mended before she is used, by their numbers; empty if none."""
    weak = {
        number: job
        for number, job in enumerate(assessment.jobs, start=1)
        if job.verdict.settled and job.verdict.roles[1] == "weakened"
    }
    if not weak:
        return ""
    if len(assessment.jobs) > 1:
        mend = f"Have {listed([str(number) for number in weak])} mended"
    else:
        trade = all(job.hands.range.roles[0] == "professional" for job in weak.values())
        mend = "Have a repairer mend this" if trade else "Mend this"
    return f"{mend} before {_before_what(assessment)}"


def _before_what(assessment: Assessment) -> str:
    """What has to wait for the mending."""
    barred = [
        use
        for use, answer in (("sails", assessment.afloat), ("is towed", assessment.tow))
        if answer.range.roles[1] == "barred" and not answers.waits(answer)
    ]
    return f"she {' or '.join(barred)}" if barred else "the part is used"


def costs(assessment: Assessment) -> Iterator[str]:
    """What mending each job takes, and what the figures are in."""
    for job in assessment.jobs:
        if job.verdict.levels[1]:
            yield f"{jobs.title(job, assessment)}. {mending(job)}"
    if told := money(assessment):
        yield told


def mends(assessment: Assessment) -> Iterator[str]:
    """The kind of work that each job is, for what is known of it, or for the worst that it may be."""
    for job in assessment.jobs:
        if repair := job.mending or job.mending_at_worst:
            at_worst = "" if job.mending else "At worst: "
            yield f"{jobs.title(job, assessment)}. {at_worst}{' '.join(repair.outline)} By: {jobs.by(repair, job)}."
