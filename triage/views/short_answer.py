"""The short answer: what a person beside the boat needs to read, taken from an assessment.

May she sail and be towed, each job in a few lines, what to do next, and what it all rests on. Text, page and JSON show
the same one; everything else is detail.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence

from triage.conclusions.answers import Answer
from triage.conclusions.assessment import Assessment, Job
from triage.conclusions.checks import OpenCheck
from triage.conclusions.diagnosis import PlanLine
from triage.conclusions.short import NextStep, ShortAnswer, ShortJob
from triage.knowledge.model import BUOYANCY
from triage.phrases import asked, boat, jobs, mending, next_steps, short
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
"""Something to do next, and the checks that it is: one and the same on both sides of her, or none."""


def short_answer(assessment: Assessment) -> ShortAnswer:
    """What to tell first."""
    steps = list(_steps(assessment)) or [(NextStep(next_steps.nothing_next(assessment)), ())]
    chosen = _chosen(assessment, steps)
    untold = [step for step in steps if step not in chosen]
    told = list(_told_jobs(assessment))
    return ShortAnswer(
        headline=boat.headline(assessment),
        means=short.means(assessment),
        asked=tuple(asked.direct(assessment, [step.what + step.where for step, _ in chosen])),
        afloat=short.sailing(assessment, _numbers(assessment.afloat, chosen), _awaited(assessment.afloat, untold)),
        tow=short.towing(assessment, _numbers(assessment.tow, chosen), _awaited(assessment.tow, untold)),
        jobs=tuple(told[:MOST_JOBS]),
        other_jobs=tuple(told[MOST_JOBS:]),
        money=mending.money(assessment),
        looks_only=tuple(jobs.title(job, assessment) for job in assessment.jobs if _only_looks(job)),
        steps=tuple(step for step, _ in chosen),
        later=next_steps.later(len(untold), [step.what for step, checks in untold if _holds(assessment, checks)]),
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
        idle = bool(step[1]) and not _holds(assessment, step[1])
        if len(chosen) < most and (spare or not idle):
            chosen.append(step)
            spare -= idle
    return chosen


def _only_looks(job: Job) -> bool:
    """Whether it may stay as it is: looks, and the rules advise nothing to do about it."""
    return job.verdict.roles[1] == "looks" and not short.asks_something(job)


def _told_jobs(assessment: Assessment) -> Iterator[ShortJob]:
    """The jobs that are more than looks; of one on the other side, that it is as the first."""
    as_told: dict[tuple[object, ...], int] = {}
    for number, job in enumerate(assessment.jobs, start=1):
        if not _only_looks(job):
            why, mended = jobs.summary(job, assessment), mending.mending(job)
            first = as_told.setdefault(({place.zone for place in job.places}.pop(), job.verdict, why, mended), number)
            if first != number:
                why, mended = short.as_at(first), short.MENDED_ALIKE
            title, headline = jobs.title(job, assessment), short.verdict(job.verdict)
            yield ShortJob(number, title, job.verdict, headline, why, mended)


def _steps(assessment: Assessment) -> Iterator[Step]:
    """Everything worth doing, most urgent first: what withholds a better answer, what settles a verdict, where else to
    look, and when to look again.
    """
    if first := mending.mend_first(assessment):
        yield NextStep(first), ()
    told = set()
    for checks, comes_of in _on_both_sides(_checks(assessment)):
        if isinstance(checks[0], PlanLine) and comes_of in told:
            comes_of = next_steps.AS_BEFORE
        told.add(comes_of)
        yield _step(checks, comes_of, assessment), checks
    for note in (*next_steps.asks_to_do(assessment), *next_steps.looks_again(assessment)):
        yield NextStep(note), ()


def _step(checks: Sequence[OpenCheck], comes_of: str, assessment: Assessment) -> NextStep:
    first, minutes = checks[0], sum(check.minutes for check in checks)
    return NextStep(first.name, _where(checks, assessment), minutes, plus_waiting(first.wait), first.helper, comes_of)


def _on_both_sides(checks: Iterable[tuple[OpenCheck, str]]) -> Iterator[tuple[tuple[OpenCheck, ...], str]]:
    """Each check once; one that is made on both sides and comes to the same there is one thing to do."""
    seen = set()
    joined: dict[tuple[str, ...], list[OpenCheck]] = {}
    for check, comes_of in checks:
        if (key := next_steps.step_key(check)) not in seen:
            seen.add(key)
            joined.setdefault((*key[:2], comes_of), []).append(check)
    yield from ((tuple(some), key[-1]) for key, some in joined.items())


def _numbers(answer: Answer, steps: Sequence[Step]) -> tuple[int, ...]:
    """The numbers of the steps that a better answer awaits."""
    awaited = {next_steps.step_key(one.check) for one in answer.awaits}
    return tuple(
        number
        for number, (_, checks) in enumerate(steps, start=1)
        if awaited.intersection(map(next_steps.step_key, checks))
    )


def _awaited(answer: Answer, steps: Sequence[Step]) -> int:
    """How many of the steps a better answer awaits."""
    return len(_numbers(answer, steps))


def _holds(assessment: Assessment, checks: tuple[OpenCheck, ...]) -> bool:
    """Whether a better answer awaits one of the checks."""
    awaited = {next_steps.step_key(one.check) for one in (*assessment.afloat.awaits, *assessment.tow.awaits)}
    return bool(awaited.intersection(map(next_steps.step_key, checks)))


def _where(checks: Sequence[OpenCheck], assessment: Assessment) -> str:
    """Where checks are made: by the numbers of the jobs they belong to, and empty where there is only one place."""
    first, places = checks[0], {(check.zone, check.side) for check in checks}
    at = [
        str(number)
        for number, job in enumerate(assessment.jobs, start=1)
        if any((place.zone, place.side) in places for place in job.places)
    ]
    if not first.check and first.scale != BUOYANCY:
        return ""  # it is asked of the whole boat
    if at and len({place for job in assessment.jobs for place in job.places}) == 1:
        return ""
    return next_steps.at_jobs(at) if at else next_steps.at_place(checks)


def _checks(assessment: Assessment) -> Iterator[tuple[OpenCheck, str]]:
    for answer in (assessment.afloat, assessment.tow):
        for awaited in answer.awaits:
            yield awaited.check, next_steps.turns(awaited, answer)
    weak = _weak_places(assessment)
    for job in assessment.jobs:
        if not job.verdict.settled:
            for check in job.checks:
                waits = check.loads and (check.zone, check.side) in weak
                if not waits and any(outcome.verdict.settled for outcome in check.outcomes):
                    yield check, next_steps.outcomes(check)
    for stop in assessment.plan:
        for line in stop.lines:
            if not line.after_mending and not line.attempted:
                yield line, next_steps.follows(line, assessment)


def _weak_places(assessment: Assessment) -> frozenset[tuple[str, str | None]]:
    """Places and sides that are structural for certain: nothing there is loaded before it was mended."""
    weak = (job for job in assessment.jobs if job.verdict.roles[0] == "weakened")
    return frozenset((place.zone, place.side) for job in weak for place in job.places)
