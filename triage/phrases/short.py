"""The sentences of the short answer."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Sequence

from triage.conclusions.answers import Answer, Awaited
from triage.conclusions.assessment import Assessment, Job
from triage.conclusions.checks import OpenCheck
from triage.conclusions.diagnosis import PlanLine
from triage.conclusions.short import NextStep
from triage.conclusions.values import Range
from triage.knowledge.model import AFLOAT
from triage.phrases import findings, mending
from triage.phrases.words import at_side, capital, counted, listed, uncapital

DEFERS = "A guide, not a survey: local and class rules and licensed practice come first."

NEXT = "Next"
LOOKS_ONLY = "Only looks"
ASKED = "Asked"
RESTS_ON = "Based on"
CARE = "Care"
MORE = "Reasons: --full."
NOTHING_NEXT = "Nothing to do now"
WALK = "Walk round her, and tell what you see"
BOTH_SIDES = "both sides"
LEAVE_IT = "That may stay as it is."
AS_BEFORE = "When you can, for the same reason."

MEANS = {
    "looks": "Nothing but her looks is touched.",
    "watch": "It does no harm yet: watch it, and protect it when you can.",
    "weakened": "Mend it before normal use.",
}
"""What a settled verdict asks of people, by its role."""

TO_ASK = "Nothing found weakens her; what to do about it stands below."
"""The same where all of it is looks or papers, and something is to be done: asked, mostly."""

MAY_SHE = {"fit": "Yes", "limited": "Yes, with limits", "left_behind": "Only without the part", "barred": "No"}
"""Whether she may, by the role of what holds today."""

NO_CAUSE = "Nothing that was told points at a cause."

NOT_ALONE = "not settled by this alone"

CAUSES_TOLD = 3
"""Causes named in one sentence."""

PLACES_NAMED = 3
"""Places named of those on which she depends and at which nobody has looked."""


def verdict(range_: Range) -> str:
    """The verdict on a job."""
    return capital(range_.best) if range_.settled else f"Not cleared: {range_.best} to {range_.worst}"


def means(assessment: Assessment) -> str:
    """What the verdict asks of people; nothing while it is open, where the steps to take say more."""
    if not assessment.verdict.settled:
        return ""
    if all(map(mending.nothing_to_mend, assessment.jobs)) and any(map(asks_something, assessment.jobs)):
        return TO_ASK
    return MEANS[assessment.verdict.roles[1]]


def asks_something(job: Job) -> bool:
    """Whether the rules say what to do about it, or what not to."""
    return any(note.kind in ("do", "never") for note in job.notes)


def may_she(answer: Answer) -> str:
    """May she: yes, no or not yet, and what that asks of people."""
    if findings.waits(answer):
        return findings.now(answer)
    return f"{MAY_SHE[answer.range.roles[1]]}. {findings.asks(answer)}".strip()


def permission(answer: Answer, steps: Sequence[int], untold: int) -> str:
    """May she, and what a better answer takes: which of the numbered ``steps`` below, and how many more."""
    if not steps:
        return may_she(answer)
    by_check = {step_key(one.check): one.check.minutes for one in answer.awaits}
    one = len(by_check) == 1
    named = f"step {steps[0]}" if len(steps) == 1 else f"steps {listed([str(step) for step in steps])}"
    more = f" and {counted(untold, 'more check')}" if untold else ""
    well = "it comes out well" if one else "all come out well"
    first = f"{named} below{more}, some {sum(by_check.values()):g} minutes; if {well}: {answer.then}"
    if findings.waits(answer):
        return f"Not yet. First {first}." + ("" if one else " If one comes out badly: no.")
    return f"{may_she(answer)} To do better: {first}."


def sailing(assessment: Assessment, steps: Sequence[int], untold: int) -> str:
    """May she sail; a yes says at how many parts that she depends on nobody has looked."""
    return f"{permission(assessment.afloat, steps, untold)} {unseen(assessment)}".strip()


def unseen(assessment: Assessment) -> str:
    """What a yes to sailing leaves out; empty where nothing is, or where the answer is no yes."""
    depended = [one for leg in assessment.not_looked_at for one in leg.places if one.primary]
    if assessment.afloat.now != assessment.levels[AFLOAT][0] or not depended:
        return ""
    return f"Nobody has looked at {counted(len(depended), 'part')} that she depends on."


def step_key(check: OpenCheck) -> tuple[str, str, str | None]:
    """What makes two checks one step: the same check at the same place and side."""
    return check.check or check.scale, check.zone, check.side


def turns(awaited: Awaited) -> str:
    """What the best and the worst answers to an awaited check would make of it, each told by its turning point."""
    by_outcome: dict[str, list[str]] = {}
    for turn in awaited.turns:
        by_outcome.setdefault(turn.now, []).append(turn.answer)
    (best, well), *others = by_outcome.items()
    told = [f"{_turning(well, last=True)}: {best}"]
    if others:
        *between, (worst, badly) = others
        told += [f"in between: {' or '.join(outcome for outcome, _ in between)}"] if between else []
        told.append(f"{_turning(badly, last=False)}: {worst}")
    return _sentences(told)


def _turning(answers: list[str], *, last: bool) -> str:
    """Of answers from better to worse the one from which on they are alike."""
    if len(answers) == 1:
        return answers[0]
    return f"up to “{uncapital(answers[-1])}”" if last else f"from “{uncapital(answers[0])}” on"


def outcomes(check: OpenCheck) -> str:
    """What the mildest and the gravest answer would come to."""
    by_outcome: dict[str, list[str]] = {}
    for one in check.outcomes:
        by_outcome.setdefault(one.verdict.best if one.verdict.settled else NOT_ALONE, []).append(one.answer)
    return _sentences(f"{' or '.join(answers)}: {outcome}" for outcome, answers in by_outcome.items())


def follows(line: PlanLine, assessment: Assessment) -> str:
    """Why a look elsewhere is worth it, and the gravest that it can come to."""
    suspected = (one.because for one in assessment.suspicions if one.zone == line.zone)
    because = next(suspected, "") or next((one.path[-2] for one in line.reasons), "")
    why = f": {uncapital(because.rstrip('.'))}" if because else ""
    return f"When you can. Only suspected{why}; at worst {line.at_worst.worst}."


def _sentences(parts: Iterable[str]) -> str:
    return " ".join(f"{capital(part)}." for part in parts)


def looks_only(titles: Sequence[str]) -> str:
    """The marks that are looks and no more, and that they may stay."""
    return f"{LOOKS_ONLY}: {'; '.join(titles)}. {LEAVE_IT}" if titles else ""


def causes(assessment: Assessment) -> str:
    """What may have done it, the likeliest first."""
    likely = [f"{cause.name} ({cause.likelihood})" for cause in assessment.causes if cause.worth_telling]
    return f"It may have been: {listed(likely[:CAUSES_TOLD])}." if likely else NO_CAUSE


def asks_to_do(assessment: Assessment) -> Iterator[str]:
    """What is to be done about marks that weaken nothing: a number that does not match, a mend nobody can tell of."""
    harmless = filter(mending.nothing_to_mend, assessment.jobs)
    for note in dict.fromkeys(note for job in harmless for note in job.notes if note.kind in ("do", "never")):
        yield note.say


def looks_again(assessment: Assessment) -> Iterator[str]:
    """When to look again at what is only watched, each sentence once."""
    watched = (job for job in assessment.jobs if job.verdict.roles[1] == "watch")
    for note in dict.fromkeys(note for job in watched for note in job.notes if note.kind == "recheck"):
        yield note.say


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
    """How many steps are not told, and by name those of them that a yes awaits."""
    if others <= 0:
        return ""
    held = f"a yes also needs {listed(awaited)}" if awaited else "none holds back a yes"
    return f"And {counted(others, 'more thing')} to look at; {held}."


def rests_on(assessment: Assessment) -> tuple[str, ...]:
    """What was passed, what was only looked at, and where nobody looked; a sentence each."""
    passed = [uncapital(at_side(one.place, one.side)) for one in assessment.findings if one.passed]
    looked = [uncapital(at_side(one.place, one.side)) for one in assessment.findings if one.looked_at_only]
    unlooked = [place for leg in assessment.not_looked_at for place in leg.places]
    depended = [uncapital(at_side(one.place, one.side)) for one in unlooked if one.primary]
    told = []
    if assessment.events:
        told.append(f"Told: {listed([one.name for one in assessment.events])}.")
    if passed:
        told.append(f"Tried and passed: {_few(passed)}.")
    if looked:
        told.append(f"Looked at, not tried: {_few(looked)}.")
    if unlooked:
        told.append(f"Not looked at, so not known: {counted(len(unlooked), 'place')}{_depended(depended)}.")
    return tuple(told)


def _depended(places: list[str]) -> str:
    """Those of the places on which she and her crew depend: by name if they are few."""
    if len(places) > PLACES_NAMED:
        return f", on {len(places)} of which she depends"
    return f", among them {listed(places)}" if places else ""


def _few(places: list[str]) -> str:
    more = len(places) - PLACES_NAMED
    return "; ".join(places) if more <= 1 else f"{'; '.join(places[:PLACES_NAMED])}; and {more} more"


def cautions(texts: Iterable[str]) -> tuple[str, ...]:
    """The cautions of several checks, each sentence once."""
    sentences = dict.fromkeys(sentence for text in texts for sentence in _SENTENCE_ENDS.split(text) if sentence)
    return tuple(sentences)


_SENTENCE_ENDS = re.compile(r"(?<=[.!?])\s+(?=[A-Z])")
