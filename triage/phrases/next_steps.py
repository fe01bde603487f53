"""The sentences on what to do next: which answers to a check are good, what is only suspected, when to look again."""

from __future__ import annotations

from collections.abc import Callable, Container, Iterable, Iterator, Sequence

from triage.conclusions.answers import NOT_YET, Answer, Awaited, Turn
from triage.conclusions.assessment import Assessment, Job
from triage.conclusions.checks import OpenCheck
from triage.conclusions.diagnosis import PlanLine
from triage.conclusions.short import NextStep
from triage.phrases import answers, mending
from triage.phrases.words import at_side, capital, counted, listed, uncapital

NOTHING_NEXT = "Nothing to do now"
WALK = "Walk round her, and tell what you see"
AS_BEFORE = "When you can, for the same reason."
BOTH_SIDES = "both sides"
STILL_OPEN = "not settled"


def step_key(check: OpenCheck) -> tuple[str, str, str | None]:
    """What makes two checks one step: the same check at the same place and side."""
    return check.check or check.scale, check.zone, check.side


def turns(awaited: Awaited, answer: Answer) -> str:
    """Which answers to an awaited check are good and which bad, by their turning points; what they come to is told
    with the ``answer`` that awaits them, and so is that an answer in between settles nothing.
    """
    by_outcome: dict[str, list[Turn]] = {}
    for turn in awaited.turns:
        by_outcome.setdefault(turn.now, []).append(turn)
    good = by_outcome.pop(answer.then, [])
    bad = by_outcome.pop(answer.range.worst, []) if answers.waits(answer) else []
    told = [f"Good: {_turning(good, -1, 'better')}"] if good else []
    if good and bad:
        told += [f"in between: {outcome}" for outcome in by_outcome if outcome != NOT_YET]
    else:
        told += [f"{_turning(some, 0, 'worse')}: {_outcome(one)}" for one, some in by_outcome.items()]
    told += [f"Bad: {_turning(bad, 0, 'worse')}"] if bad else []
    return _sentences(told)


def _outcome(now: str) -> str:
    return STILL_OPEN if now == NOT_YET else now


def _turning(some: Sequence[Turn], which: int, beyond: str) -> str:
    """Answers that come to the same: of those from better to worse the one at which it turns, of others all."""
    if any(turn.level is None for turn in some):
        return " or ".join(uncapital(turn.answer) for turn in some)
    return uncapital(some[which].answer) + (f", or {beyond}" if len(some) > 1 else "")


def outcomes(check: OpenCheck) -> str:
    """What the mildest and the gravest answer would come to."""
    by_outcome: dict[str, list[str]] = {}
    for one in check.outcomes:
        by_outcome.setdefault(one.verdict.best if one.verdict.settled else STILL_OPEN, []).append(one.answer)
    return _sentences(f"{' or '.join(answers)}: {outcome}" for outcome, answers in by_outcome.items())


def follows(line: PlanLine, assessment: Assessment) -> str:
    """Why a look elsewhere is worth it, and the gravest that it can come to where she stays open until it is made."""
    suspected = (one.because for one in assessment.suspicions if one.zone == line.zone)
    because = next(suspected, "") or next((one.path[-2] for one in line.reasons), "")
    why = f", because {uncapital(because.rstrip('.'))}" if because else ""
    if line.suspects:
        return f"When you can. Suspected{why}; at worst {line.at_worst.worst}."
    return f"When you can. It may be marked too{why}."


def _sentences(parts: Iterable[str]) -> str:
    return " ".join(f"{capital(part)}." for part in parts)


def asks_to_do(assessment: Assessment) -> Iterator[str]:
    """What is to be done about marks that weaken nothing: a number that does not match, a mend nobody can tell of."""
    return _noted(assessment, mending.nothing_to_mend, ("do", "never"))


def looks_again(assessment: Assessment) -> Iterator[str]:
    """When to look again at what is only watched, each sentence once."""
    return _noted(assessment, lambda job: job.verdict.roles[1] == "watch", ("recheck",))


def _noted(assessment: Assessment, of: Callable[[Job], bool], kinds: Container[str]) -> Iterator[str]:
    """The sentences of these kinds on such jobs; where there are several jobs, with the numbers of theirs."""
    at: dict[str, list[str]] = {}
    for number, job in enumerate(assessment.jobs, start=1):
        for note in job.notes if of(job) else ():
            if note.kind in kinds and str(number) not in at.setdefault(note.say, []):
                at[note.say].append(str(number))
    for say, numbers in at.items():
        yield say if len(assessment.jobs) == 1 else f"At {listed(numbers)}: {uncapital(say)}"


def nothing_next(assessment: Assessment) -> str:
    """What to do where nothing in particular is to be done."""
    return NOTHING_NEXT if assessment.findings else WALK


def at_jobs(numbers: Sequence[str]) -> str:
    """Where a step is made, after its name: at jobs told above."""
    return f" at {listed(numbers)}"


def at_place(checks: Sequence[OpenCheck]) -> str:
    """Where a step is made, after its name: at a place of which no job is, on one side or on both."""
    side = checks[0].side if len(checks) == 1 else BOTH_SIDES
    return f": {uncapital(at_side(checks[0].place, side))}"


def step(one: NextStep) -> str:
    """One thing to do next."""
    about = (f"{one.minutes:g} min{one.wait}" if one.minutes else "", "with a helper" if one.helper else "")
    told = ", ".join(part for part in (one.what.rstrip(".") + one.where, *about) if part)
    return f"{told.replace('?,', '?')}. {one.comes_of}".strip()


def later(others: int, awaited: Sequence[str]) -> str:
    """How many steps are not told, and the names of those of them that a better answer awaits."""
    told = []
    if awaited:
        names = [f"“{name}”" for name in dict.fromkeys(awaited)]
        told.append(f"{capital(counted(len(awaited), 'more check'))}: {listed(names)}.")
    if left := others - len(awaited):
        told.append(f"And {counted(left, 'more thing')} to look at when you can.")
    return " ".join(told)
