"""The sentences of the short answer."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Sequence

from triage.conclusions.answers import NOT_YET, Answer
from triage.conclusions.assessment import Assessment, Job
from triage.conclusions.values import Range
from triage.knowledge.model import AFLOAT
from triage.phrases import answers, boat, mending, next_steps
from triage.phrases.words import at_side, capital, counted, listed, plus_waiting, uncapital

DEFERS = "A guide, not a survey: local and class rules and licensed practice come first."

NEXT = "Next"
LOOKS_ONLY = "Only looks: it may stay as it is."
ALL_ONLY_LOOKS = "Only looks: they may stay as they are."
ASKED = "Asked"
RESTS_ON = "Based on"
CARE = "Care"
MORE = "Reasons: --full."
MENDED_ALIKE = "Mending it takes and costs as much again."

MEANS = {
    "looks": "What was found touches nothing but her looks.",
    "watch": "Watch it, and protect it when you can: it may get worse.",
    "weakened": "Mend it before normal use.",
}
"""What a settled verdict asks of people, by its role."""

TO_ASK = "Nothing found weakens her; what to do about it stands below."
"""The same where all of it is looks or papers, and something is to be done: asked, mostly."""

BEFORE_THE_ROAD = "Mend it before she is towed."

MAY_SHE = {"fit": "Yes", "limited": "Yes, {level}", "left_behind": "Only without the part", "barred": "No"}
"""Whether she may, by the role of what holds today, and its name."""

NO_CAUSE = "Nothing that was told points at a cause."

CAUSES_TOLD = 3
"""Causes named in one sentence."""

PLACES_NAMED = 3
"""Places named of those on which she depends and at which nobody has looked."""


def verdict(range_: Range) -> str:
    """The verdict on a job."""
    return capital(range_.best) if range_.settled else f"Not cleared: {range_.best} to {range_.worst}"


def means(assessment: Assessment) -> str:
    """What the verdict on the boat asks of people; nothing while it is open, where the steps to take say more, and
    where nothing was found or suspected.
    """
    range_ = assessment.verdict
    if not range_.settled or not (assessment.jobs or assessment.suspicions):
        return ""
    if all(map(mending.nothing_to_mend, assessment.jobs)) and any(map(asks_something, assessment.jobs)):
        return TO_ASK
    return BEFORE_THE_ROAD if boat.only_the_road(assessment) else MEANS[range_.roles[1]]


def asks_something(job: Job) -> bool:
    """Whether the rules say what to do about it, or what not to."""
    return any(note.kind in ("do", "never") for note in job.notes)


def may_she(answer: Answer) -> str:
    """May she: yes, no or not yet, and what that asks of people."""
    if answers.waits(answer):
        return answers.now(answer)
    return f"{yes_or_no(answer)} {answers.asks(answer)}".strip()


def yes_or_no(answer: Answer) -> str:
    """May she, in a few words."""
    if answers.waits(answer):
        return answers.now(answer)
    return f"{MAY_SHE[answer.range.roles[1]].format(level=answer.range.worst)}."


def permission(answer: Answer, steps: Sequence[int], untold: int) -> str:
    """May she, and what a better answer takes: which of the numbered ``steps`` below, and how many more."""
    if not steps:
        return may_she(answer)
    minutes = {next_steps.step_key(one.check): one.check.minutes for one in answer.awaits}
    waits = plus_waiting(*(one.check.wait for one in answer.awaits))
    named = f"step {steps[0]}" if len(steps) == 1 else f"steps {listed([str(step) for step in steps])}"
    more = f" and {counted(untold, 'more check')}" if untold else ""
    checks = f"{named} below{more}, some {sum(minutes.values()):g} minutes{f' of work{waits}' if waits else ''}"
    all_good, one_bad = ("Good", "Bad") if len(minutes) == 1 else ("All good", "One bad")
    if answers.waits(answer):
        outcomes = {turn.now for one in answer.awaits for turn in one.turns}
        bad = f" {one_bad}: no." if answer.range.worst in outcomes else ""
        between = f" Between: {next_steps.STILL_OPEN}." if bad and NOT_YET in outcomes else ""
        return f"Not yet. First {checks}. {all_good}: {answer.then}.{bad}{between}"
    return f"{may_she(answer)} A better answer takes {checks}. {all_good}: {answer.then}."


def sailing(assessment: Assessment, steps: Sequence[int], untold: int) -> str:
    """May she sail; a yes says at how many places that she depends on nobody has looked."""
    return f"{permission(assessment.afloat, steps, untold)} {unseen(assessment)}".strip()


def towing(assessment: Assessment, steps: Sequence[int], untold: int) -> str:
    """May she be towed; what a yes means is not said again where it is that to sailing as well."""
    tow, afloat = assessment.tow, assessment.afloat
    if not steps and not answers.waits(afloat) and answers.asks(tow) == answers.asks(afloat):
        return yes_or_no(tow)
    return permission(tow, steps, untold)


def unseen(assessment: Assessment) -> str:
    """What a yes to sailing leaves out; empty where nothing is, or where the answer is no yes."""
    depended = [one for leg in assessment.not_looked_at for one in leg.places if one.primary]
    if assessment.afloat.now != assessment.levels[AFLOAT][0] or not depended:
        return ""
    return f"Nobody has looked at {counted(len(depended), 'place')} that she depends on."


def looks_only(titles: Sequence[str]) -> str:
    """The marks that are looks and no more, and that they may stay."""
    return f"{'; '.join(titles)}. {LOOKS_ONLY if len(titles) == 1 else ALL_ONLY_LOOKS}" if titles else ""


def causes(assessment: Assessment) -> str:
    """What may have done it, the likeliest first."""
    likely = [f"{cause.name} ({cause.likelihood})" for cause in assessment.causes if cause.worth_telling]
    return f"It may have been: {listed(likely[:CAUSES_TOLD])}." if likely else NO_CAUSE


def as_at(number: int) -> str:
    """A damage that is as one told before."""
    return f"The same as {number}."


def rests_on(assessment: Assessment) -> tuple[str, ...]:
    """What was passed, what was only looked at, and where nobody looked, a sentence each; on how many of these she
    depends stands here unless it stands beside a yes (`unseen`).
    """
    looked = [uncapital(at_side(one.place, one.side)) for one in assessment.findings if one.looked_at_only]
    unlooked = [place for leg in assessment.not_looked_at for place in leg.places]
    depended = [uncapital(at_side(one.place, one.side)) for one in unlooked if one.primary]
    told = [*told_and_passed(assessment)]
    if looked:
        told.append(f"Looked at, not tried: {_few(looked)}.")
    if unlooked:
        depends = "" if unseen(assessment) else _depended(depended)
        told.append(f"Not looked at, so not known: {counted(len(unlooked), 'place')}{depends}.")
    return tuple(told)


def told_and_passed(assessment: Assessment) -> Iterator[str]:
    """What happened to her, and what was passed."""
    if assessment.events:
        yield f"Told: {listed([one.name for one in assessment.events])}."
    if passed := [uncapital(at_side(one.place, one.side)) for one in assessment.findings if one.passed]:
        yield f"Tried and passed: {_few(passed)}."


def _depended(places: list[str]) -> str:
    """Those of the places on which she and her crew depend: by name if they are few."""
    if len(places) > PLACES_NAMED:
        return f"; she depends on {len(places)} of them"
    return f", among them {listed(places)}" if places else ""


def _few(places: list[str]) -> str:
    more = len(places) - PLACES_NAMED
    return "; ".join(places) if more <= 1 else f"{'; '.join(places[:PLACES_NAMED])}; and {more} more"


def cautions(texts: Iterable[str]) -> tuple[str, ...]:
    """The cautions of several checks, each sentence once."""
    sentences = dict.fromkeys(sentence for text in texts for sentence in _SENTENCE_ENDS.split(text) if sentence)
    return tuple(sentences)


_SENTENCE_ENDS = re.compile(r"(?<=[.!?])\s+(?=[A-Z])")
