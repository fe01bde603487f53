"""What is due on a boat: re-checks that the rules ask for, checks still open, mends to look at, lengths to measure."""

from __future__ import annotations

import datetime
from collections.abc import Iterable, Iterator, Sequence

from triage.conclusions.assessment import Assessment, Job
from triage.knowledge.model import KnowledgeBase
from triage.log.again import Kind, Thread
from triage.log.calendar import Due
from triage.log.comparing import compared
from triage.phrases import again as words
from triage.phrases import jobs
from triage.phrases.words import at_side, mark_at, uncapital

AFTER_A_MEND = datetime.timedelta(weeks=1)
"""Until the next sail. Basis: estimate."""


def dues(
    kb: KnowledgeBase, assessment: Assessment, threads: Sequence[Thread], visit: str, day: datetime.date
) -> tuple[Due, ...]:
    """Everything due, the first day first. ``visit`` is the one that was assessed, and ``day`` its day."""
    left = [one for one in threads if not one.closed]
    settled = {one.kind for one in threads if one.closed or one.mended}
    found = [*_of_jobs(assessment, settled, day), *_mends(kb, left), *_lengths(kb, left)]
    found += _not_looked_at(kb, [one for one in left if not one.mended and one.seen[-1].visit != visit], day)
    return tuple(sorted(found, key=lambda due: (due.day, due.what)))


def _of_jobs(assessment: Assessment, settled: Iterable[Kind], day: datetime.date) -> Iterator[Due]:
    for job in assessment.jobs:
        first = assessment.finding(job.findings[0])
        if (first.zone, first.side, first.sign) not in settled:
            yield from _rechecks(assessment, job, first.seen_on or day)
            yield from _open(job, day)


def _rechecks(assessment: Assessment, job: Job, day: datetime.date) -> Iterator[Due]:
    """When to look again at what is watched; what is known to be weakened is mended first."""
    weakened = job.verdict.roles[0] == "weakened"
    notes = [note for note in job.notes if note.kind == "recheck" and note.weeks and not weakened]
    for weeks in sorted({note.weeks for note in notes if note.weeks}):
        said = " ".join(note.say for note in notes if note.weeks == weeks)
        what = words.look_at(uncapital(jobs.title(job, assessment)))
        yield Due(day + datetime.timedelta(weeks=weeks), what, said, f"{job.id}/{weeks:g}")


def _open(job: Job, day: datetime.date) -> Iterator[Due]:
    if not job.verdict.settled and job.checks:
        check = job.checks[0]
        here = uncapital(at_side(check.place, check.side))
        what, more = (words.find_out(check.name, here), check.question) if check.check else (check.question, "")
        yield Due(day, what, words.still_open(more), f"{job.id}/open")


def _mends(kb: KnowledgeBase, threads: Iterable[Thread]) -> Iterator[Due]:
    for thread in threads:
        if mended := thread.mended:
            what = words.look_at_mend(uncapital(title(kb, thread)))
            key = f"{'/'.join(map(str, thread.kind))}/mend/{mended.on}"
            yield Due(mended.on + AFTER_A_MEND, what, words.mended_so(mended), key)


def _lengths(kb: KnowledgeBase, threads: Iterable[Thread]) -> Iterator[Due]:
    for thread in threads:
        if not thread.mended and (found := compared(kb, thread)):
            what = words.measure_again(uncapital(title(kb, thread)))
            yield Due(found.again, what, words.measure(found), f"{'/'.join(map(str, thread.kind))}/measure")


def _not_looked_at(kb: KnowledgeBase, threads: Iterable[Thread], day: datetime.date) -> Iterator[Due]:
    for thread in threads:
        what = words.look_at(uncapital(title(kb, thread)))
        key = f"{'/'.join(map(str, thread.kind))}/before"
        yield Due(day, what, words.not_looked_at(thread.seen[-1].day), key)


def title(kb: KnowledgeBase, thread: Thread) -> str:
    """A mark in words: where it is, and what."""
    zone, side, sign = thread.kind
    return mark_at(kb.zones[zone].name, side, kb.signs[sign].name)
