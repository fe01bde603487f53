"""What is sent to somebody else: a message, a brief for a repairer, a note to a seller."""

from __future__ import annotations

from collections.abc import Iterator

from triage.conclusions.answers import Answer
from triage.conclusions.assessment import Assessment, FindingAssessment, Job
from triage.phrases import answers, boat, findings, jobs, short
from triage.phrases.words import at_side, between, capital, counted, listed, plus_waiting, uncapital

MESSAGE_LENGTH = 700
"""Letters that a message may have."""

TRIED_AT_A_SELLERS = 8
"""Checks that a seller is asked to allow, at most."""

AS_SEEN = "Found by looking and trying from outside; nothing was opened unless it says so."
NO_PRICE = "Please look for yourself before you plan or price anything."
NOTHING_FOUND = "No mark was found."
KNOWN = "This is what I know of your boat so far, from what was told or shown in pictures:"
ASKS_BACK = "Do you know of any of this? If some of it was mended, when was that, and by whom?"
"""How a note to a seller ends."""


def message(assessment: Assessment) -> str:
    """The answer as a message of at most `MESSAGE_LENGTH` letters.

    It always says whether she may sail and be towed and what nobody looked at; marks are left out before these, the
    mildest first, and their number is said.
    """
    opening = f"{_boat(assessment)}. {boat.headline(assessment)}."
    sailing, towing = _may(assessment.afloat), _may(assessment.tow)
    closing = [
        f"Sailing: {sailing}.",
        f"Towing: {'the same' if assessment.tow.awaits and towing == sailing else towing}.",
        _unlooked(assessment),
        short.DEFERS,
    ]
    titles = [f"{jobs.title(job, assessment)} ({short.verdict(job.verdict).lower()})." for job in assessment.jobs]
    if len(titles) == 1:
        titles = [f"{jobs.title(assessment.jobs[0], assessment)}."]
    for told in range(len(titles), -1, -1):
        left = len(titles) - told
        more = [f"{counted(left, 'more mark')}."] if left else []
        text = " ".join((opening, *titles[:told], *more, *closing))
        if len(text) <= MESSAGE_LENGTH:
            return text
    return " ".join((f"{opening[: MESSAGE_LENGTH - sum(len(one) + 1 for one in closing) - 2]}…", *closing))


def _boat(assessment: Assessment) -> str:
    seen = f", seen on {assessment.seen_on}" if assessment.seen_on else ""
    return f"{assessment.boat}{seen}"


def _may(answer: Answer) -> str:
    """May she, in a few words, and what has to be done first."""
    told = uncapital(short.yes_or_no(answer)).rstrip(".")
    if not answers.waits(answer) or not answer.awaits:
        return told
    names = list(dict.fromkeys(f"“{one.check.name}”" for one in answer.awaits))
    more = [f"{len(names) - 2} more"] if len(names) > 2 else []
    return f"{told}, first {listed([*names[:2], *more])}"


def _unlooked(assessment: Assessment) -> str:
    left = sum(len(leg.places) for leg in assessment.not_looked_at)
    return f"Not looked at: {counted(left, 'place')}." if left else "Every place was looked at."


def brief(assessment: Assessment) -> Iterator[str]:
    """For a repairer, line by line: where, what, what tests found, what was not tested, and no advice on his trade."""
    yield f"{_boat(assessment)}{f' by {assessment.by}' if assessment.by else ''}"
    yield from _facts(assessment)
    for told in assessment.events:
        yield boat.event(told)
    for number, job in enumerate(assessment.jobs, start=1):
        yield ""
        yield from _of_job(number, job, assessment)
    if not assessment.jobs:
        yield NOTHING_FOUND
    yield ""
    if assessment.note:
        yield f"Note: {assessment.note}"
    yield from short.rests_on(assessment)
    yield f"{AS_SEEN} {NO_PRICE}"


def _facts(assessment: Assessment) -> Iterator[str]:
    length = f"{assessment.length:.3g} m long" if assessment.length else ""
    known = [f"{fact.replace('_', ' ')}: {value}" for fact, value in assessment.facts.items()]
    if parts := [part for part in (length, *known) if part]:
        yield f"{capital('; '.join(parts))}."


def _of_job(number: int, job: Job, assessment: Assessment) -> Iterator[str]:
    marks = jobs.marks(job, assessment)
    for mark in marks:
        where = f"{at_side(mark.place, mark.side)}{f' ({mark.trade})' if mark.trade else ''}"
        seen = findings.seen_before(mark, assessment)
        yield f"{f'{number}. ' if mark is marks[0] else '   '}{where}: {mark.mark}{seen}"
        yield from _of_mark(mark)
    if untested := _untested(job):
        yield f"   Not tested: {'; '.join(untested)}."
    yield f"   Judged: {between(job.verdict)}{'' if job.verdict.settled else ', not cleared'}."


def _of_mark(mark: FindingAssessment) -> Iterator[str]:
    found = [f"{one.name} {one.measured}" if one.measured else findings.reading(one) for one in mark.readings]
    if found:
        yield f"   Found: {'; '.join(found)}."
    if mark.note:
        yield f"   Note: {mark.note}"
    if mark.photos:
        yield f"   Photos: {', '.join(mark.photos)}"


def _untested(job: Job) -> list[str]:
    return list(dict.fromkeys(check.name for check in job.checks if check.check))


def note(assessment: Assessment) -> Iterator[str]:
    """For a seller: what was seen, and what to be allowed to try; no verdict, no price, nobody accused."""
    shown = _stood_there(assessment)
    yield f"Thank you for showing me {_boat(assessment)}. This is what I saw:" if shown else KNOWN
    told = [job for job in assessment.jobs if job.verdict.roles[1] != "looks"]
    for number, job in enumerate(told, start=1):
        marks = jobs.marks(job, assessment)
        yield f"{number}. {listed([f'{findings.title(one)}{findings.seen_before(one, assessment)}' for one in marks])}"
    if not told:
        yield "Only her looks."
    wanted = list(dict.fromkeys(_wanted(assessment)))
    if wanted:
        yield ""
        yield "With your leave I should like to try this too; nothing has to be taken off for it:"
        yield from (f"- {one}" for one in wanted[:TRIED_AT_A_SELLERS])
    yield ""
    yield f"{ASKS_BACK} Thank you." if shown else ASKS_BACK


def _stood_there(assessment: Assessment) -> bool:
    """Whether the seller showed or answered something: a part was looked at, or something was tried or told of one."""
    return any(one.passed or one.looked_at_only or one.readings for one in assessment.findings)


def _wanted(assessment: Assessment) -> Iterator[str]:
    """The checks that the seller is asked to allow: those of open marks that take nothing off."""
    for job in assessment.jobs:
        for check in job.checks:
            if check.check and check.dismantling == "none":
                minutes = f"{check.minutes:g} minutes{plus_waiting(check.wait)}"
                yield f"{check.name}: {uncapital(at_side(check.place, check.side))}, some {minutes}"
