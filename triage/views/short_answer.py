"""The short answer: what a person beside the boat needs to read, taken from an assessment.

May she sail and be towed, each job in a few lines, what to do next, and what it all rests on. Text, page and JSON show
the same one; everything else is detail.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from triage.conclusions.assessment import Answer, Assessment, Job
from triage.conclusions.checks import OpenCheck
from triage.conclusions.diagnosis import PlanLine
from triage.conclusions.short import NextStep, ShortAnswer, ShortJob
from triage.knowledge.model import BUOYANCY
from triage.phrases import asked, boat, jobs, mending, short
from triage.phrases.words import plus_waiting

MOST_STEPS = 5
"""Things to do next that are told; of more, their number."""

STEPS_OF_ONE = 2
"""The same for a boat with a single job, whose answer is to fit a screen."""

MOST_SPARE, SPARE_OF_ONE = 2, 1
"""Of these the checks that no yes awaits."""

MOST_JOBS = 6
"""Jobs that are told with their reason; the others in a line each."""

Step = tuple[NextStep, OpenCheck | None]
"""Something to do next, and the check that it is, if it is one."""


def short_answer(assessment: Assessment) -> ShortAnswer:
    """What to tell first."""
    steps = list(_steps(assessment)) or [(NextStep(short.nothing_next(assessment)), None)]
    chosen = _chosen(assessment, steps)
    untold = [step for step in steps if step not in chosen]
    told = [
        _job(number, job, assessment) for number, job in enumerate(assessment.jobs, start=1) if not _only_looks(job)
    ]
    return ShortAnswer(
        headline=boat.headline(assessment),
        means=short.means(assessment) if assessment.jobs or assessment.suspicions else "",
        asked=tuple(asked.direct(assessment, [step.what + step.where for step, _ in chosen])),
        afloat=short.sailing(assessment, _numbers(assessment.afloat, chosen)),
        tow=short.permission(assessment.tow, _numbers(assessment.tow, chosen)),
        jobs=tuple(told[:MOST_JOBS]),
        other_jobs=tuple(told[MOST_JOBS:]),
        money=mending.money(assessment),
        looks_only=tuple(jobs.title(job, assessment) for job in assessment.jobs if _only_looks(job)),
        steps=tuple(step for step, _ in chosen),
        later=short.later(len(untold), [f"“{step.what}{step.where}”" for step, _ in _awaited(assessment, untold)]),
        rests_on=short.rests_on(assessment),
        care=short.cautions(check.care for _, check in chosen if check),
        defers=short.DEFERS,
    )


def _chosen(assessment: Assessment, steps: Sequence[Step]) -> list[Step]:
    """The steps that are told: what to do and what a yes awaits, and of the other checks only the first few."""
    single = len(assessment.jobs) == 1
    most, spare = (STEPS_OF_ONE, SPARE_OF_ONE) if single else (MOST_STEPS, MOST_SPARE)
    chosen: list[Step] = []
    for step in steps:
        idle = step[1] is not None and not _awaited(assessment, [step])
        if len(chosen) < most and (spare or not idle):
            chosen.append(step)
            spare -= idle
    return chosen


def _only_looks(job: Job) -> bool:
    """Whether it may stay as it is: looks, and the rules advise nothing to do about it."""
    return job.verdict.roles[1] == "looks" and not short.asks_something(job)


def _job(number: int, job: Job, assessment: Assessment) -> ShortJob:
    return ShortJob(
        number=number,
        title=jobs.title(job, assessment),
        verdict=job.verdict,
        headline=short.verdict(job.verdict),
        why=jobs.summary(job, assessment),
        mending=mending.mending(job),
    )


def _steps(assessment: Assessment) -> Iterator[Step]:
    """Everything worth doing, most urgent first: what withholds a better answer, what settles a verdict, where else to
    look, and when to look again.
    """
    if first := mending.mend_first(assessment):
        yield NextStep(first), None
    seen = set()
    told = set()
    for check, comes_of in _checks(assessment):
        if (key := short.step_key(check)) not in seen:
            seen.add(key)
            if isinstance(check, PlanLine) and comes_of in told:
                comes_of = short.AS_BEFORE
            told.add(comes_of)
            wait = plus_waiting(check.wait)
            yield NextStep(check.name, _where(check, assessment), check.minutes, wait, check.helper, comes_of), check
    for note in (*short.asks_to_do(assessment), *short.looks_again(assessment)):
        yield NextStep(note), None


def _numbers(answer: Answer, steps: Sequence[Step]) -> tuple[int, ...]:
    """The numbers of the steps that a better answer awaits."""
    awaited = {short.step_key(one.check) for one in answer.awaits}
    return tuple(
        number for number, (_, check) in enumerate(steps, start=1) if check and short.step_key(check) in awaited
    )


def _awaited(assessment: Assessment, steps: Sequence[Step]) -> list[Step]:
    """Those of the steps that a better answer awaits."""
    numbers = {*_numbers(assessment.afloat, steps), *_numbers(assessment.tow, steps)}
    return [step for number, step in enumerate(steps, start=1) if number in numbers]


def _where(check: OpenCheck, assessment: Assessment) -> str:
    """Where the check is made: by the number of the job it belongs to, and empty where there is only one place."""
    at = [
        str(number)
        for number, job in enumerate(assessment.jobs, start=1)
        if any((place.zone, place.side) == (check.zone, check.side) for place in job.places)
    ]
    if not check.check and check.scale != BUOYANCY:
        return ""  # it is asked of the whole boat
    if at and len({place for job in assessment.jobs for place in job.places}) == 1:
        return ""
    return short.at_jobs(at) if at else short.at_place(check)


def _checks(assessment: Assessment) -> Iterator[tuple[OpenCheck, str]]:
    for answer in (assessment.afloat, assessment.tow):
        for awaited in answer.awaits:
            yield awaited.check, short.turns(awaited)
    for job in assessment.jobs:
        if not job.verdict.settled:
            for check in job.checks:
                if any(outcome.verdict.settled for outcome in check.outcomes):
                    yield check, short.outcomes(check)
    for stop in assessment.plan:
        for line in stop.lines:
            if not line.after_mending and not line.attempted:
                yield line, short.follows(line, assessment)
