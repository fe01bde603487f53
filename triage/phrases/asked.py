"""The direct answer to what somebody asked, in a sentence."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from triage.conclusions.answers import Answer
from triage.conclusions.assessment import Assessment, Job
from triage.conclusions.short import Direct
from triage.phrases import short
from triage.phrases.words import between, capital, counted, listed, span

QUESTIONS = {
    "afloat": "May she sail?",
    "tow": "May she be towed?",
    "verdict": "How bad is it?",
    "cost": "What does it cost?",
    "mend": "Who can mend it?",
    "hands": "Who can mend it?",
    "cause": "What did it?",
    "look": "What to look at?",
    "decision": "Is she worth buying?",
}
"""What is asked, by the id of the question."""

NO_FIGURE = "There is no figure for it."
NOTHING_TO_PAY = "Nothing has to be mended, so nothing has to be paid."
WITHOUT_A_PRICE = (
    "That hangs on the price too, which \u201cBuy her?\u201d or triage buy weighs; here stands only how bad it is."
)


def direct(assessment: Assessment, steps: Sequence[str]) -> Iterator[Direct]:
    """Each question that the survey asks, with its answer; ``steps`` are what to do next."""
    if assessment.findings:
        told = {QUESTIONS[one]: _answer(one, assessment, steps) for one in assessment.asked}
        yield from (Direct(question, answer) for question, answer in told.items())


def _answer(question: str, assessment: Assessment, steps: Sequence[str]) -> str:
    match question:
        case "afloat":
            return short.yes_or_no(assessment.afloat)
        case "tow":
            return short.yes_or_no(assessment.tow)
        case "cost":
            return _cost([job for job in assessment.jobs if job.verdict.levels[1]])
        case "mend" | "hands":
            return _who(assessment)
        case "cause":
            return short.causes(assessment)
        case "look":
            return f"First: {steps[0]}."
        case "decision":
            return WITHOUT_A_PRICE
    return f"{capital(between(assessment.verdict))}."


def _who(assessment: Assessment) -> str:
    """Who mends what: the hands, each with the numbers of its jobs."""
    by_hands: dict[str, list[str]] = {}
    for number, job in enumerate(assessment.jobs, start=1):
        by_hands.setdefault(_hands(job.hands), []).append(str(number))
    if len(by_hands) < 2:
        return f"{capital(next(iter(by_hands), 'nothing to do'))}."
    return f"{capital('; '.join(f'{hands} for {listed(numbers)}' for hands, numbers in by_hands.items()))}."


def _hands(answer: Answer) -> str:
    range_ = answer.range
    return range_.best if range_.settled else f"{range_.best}, or {range_.worst} if it proves worse"


def _cost(jobs: Sequence[Job]) -> str:
    """What all jobs come to at a repairer, from the least to the worst."""
    if not jobs:
        return NOTHING_TO_PAY
    least = most = 0.0
    for job in jobs:
        bills = [one.repairer for one in (job.mending, job.mending_at_worst) if one and one.repairer]
        if not bills:
            return NO_FIGURE
        least += bills[0][0] if job.mending else 0
        most += bills[-1][1]
    what = f" for all {counted(len(jobs), 'job')}" if len(jobs) > 1 else ""
    return f"{span((least, most))} at a repairer{what}."
