"""The short answer: what a person beside the boat needs to read, taken from an assessment.

May she sail and be towed, each job in a few lines, what to do next, and what it all rests on. Text, page and JSON show
the same one; everything else is detail.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from triage.conclusions.answers import Answer
from triage.conclusions.assessment import Assessment, Job
from triage.conclusions.checks import OpenCheck
from triage.conclusions.diagnosis import PlanLine
from triage.conclusions.short import NextStep, ShortAnswer, ShortJob
from triage.knowledge.model import BUOYANCY, OTHER_SIDE
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

Step = tuple[NextStep, tuple[OpenCheck, ...]]
"""Something to do next, and the check that it is, if it is one: once for each side on which it is made."""


def short_answer(assessment: Assessment) -> ShortAnswer:
    """What to tell first."""
    steps = list(_steps(assessment)) or [(NextStep(short.nothing_next(assessment)), ())]
    chosen = _chosen(assessment, steps)
    untold = [step for step in steps if step not in chosen]
    told = [
        _job(number, job, assessment) for number, job in enumerate(assessment.jobs, start=1) if not _only_looks(job)
    ]
    return ShortAnswer(
        headline=boat.headline(assessment),
        means=short.means(assessment) if assessment.jobs or assessment.suspicions else "",
        asked=tuple(asked.direct(assessment, [step.what + step.where for step, _ in chosen])),
        afloat=short.sailing(assessment, *_told_and_untold(assessment.afloat, chosen, untold)),
        tow=short.permission(assessment.tow, *_told_and_untold(assessment.tow, chosen, untold)),
        jobs=tuple(told[:MOST_JOBS]),
        other_jobs=tuple(told[MOST_JOBS:]),
        money=mending.money(assessment),
        looks_only=tuple(jobs.title(job, assessment) for job in assessment.jobs if _only_looks(job)),
        steps=tuple(step for step, _ in chosen),
        later=short.later(len(untold), [f"“{step.what}{step.where}”" for step, _ in _awaited(assessment, untold)]),
        rests_on=short.rests_on(assessment),
        care=short.cautions(check.care for _, checks in chosen for check in checks),
        defers=short.DEFERS,
    )


def _chosen(assessment: Assessment, steps: Sequence[Step]) -> list[Step]:
    """The steps that are told: what to do and what a yes awaits, and of the other checks only the first few."""
    single = len(assessment.jobs) == 1
    most, spare = (STEPS_OF_ONE, SPARE_OF_ONE) if single else (MOST_STEPS, MOST_SPARE)
    chosen: list[Step] = []
    for step in steps:
        idle = bool(step[1]) and not _awaited(assessment, [step])
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
        yield NextStep(first), ()
    told = set()
    for comes_of, checks in _on_each_side(assessment):
        first_of = checks[0]
        because = short.AS_BEFORE if isinstance(first_of, PlanLine) and comes_of in told else comes_of
        told.add(comes_of)
        minutes, wait = sum(one.minutes for one in checks), plus_waiting(first_of.wait)
        yield NextStep(first_of.name, _where(checks, assessment), minutes, wait, first_of.helper, because), checks
    for note in (*short.asks_to_do(assessment), *short.looks_again(assessment)):
        yield NextStep(note), ()


def _on_each_side(assessment: Assessment) -> Iterator[tuple[str, tuple[OpenCheck, ...]]]:
    """What comes of a check, and the check; on both sides of a part where it is made on both and comes to the same."""
    seen = set()
    found: dict[tuple[str, str, str, bool], list[OpenCheck]] = {}
    for check, comes_of in _checks(assessment):
        if (key := short.step_key(check)) not in seen:
            seen.add(key)
            made, zone, _ = key
            found.setdefault((made, zone, comes_of, check.side in OTHER_SIDE), []).append(check)
    for (_, _, comes_of, _), checks in found.items():
        yield comes_of, tuple(checks)


def _numbers(answer: Answer, steps: Sequence[Step]) -> tuple[int, ...]:
    """The numbers of the steps that a better answer awaits."""
    awaited = {short.step_key(one.check) for one in answer.awaits}
    return tuple(
        number for number, (_, checks) in enumerate(steps, start=1) if awaited.intersection(map(short.step_key, checks))
    )


def _told_and_untold(answer: Answer, told: Sequence[Step], untold: Sequence[Step]) -> tuple[tuple[int, ...], int]:
    """The numbers of the steps that a better answer awaits, and of how many it awaits that have none."""
    return _numbers(answer, told), len(_numbers(answer, untold))


def _awaited(assessment: Assessment, steps: Sequence[Step]) -> list[Step]:
    """Those of the steps that a better answer awaits."""
    numbers = {*_numbers(assessment.afloat, steps), *_numbers(assessment.tow, steps)}
    return [step for number, step in enumerate(steps, start=1) if number in numbers]


def _where(checks: Sequence[OpenCheck], assessment: Assessment) -> str:
    """Where a check is made: by the numbers of the jobs it belongs to, and empty where there is only one place."""
    jobs_of = [_jobs_at(one, assessment) for one in checks]
    if not checks[0].check and checks[0].scale != BUOYANCY:
        return ""  # it is asked of the whole boat
    if all(jobs_of):
        if len({place for job in assessment.jobs for place in job.places}) == 1:
            return ""
        return short.at_jobs([str(number) for number in sorted({one for numbers in jobs_of for one in numbers})])
    return short.at_place(checks)


def _jobs_at(check: OpenCheck, assessment: Assessment) -> list[int]:
    return [
        number
        for number, job in enumerate(assessment.jobs, start=1)
        if any((place.zone, place.side) == (check.zone, check.side) for place in job.places)
    ]


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
