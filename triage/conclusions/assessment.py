"""What the program concludes from a survey, with its reasons: one frozen value of which every report is a view.

Levels are told by name, scales and rules by id; sentences are ready to be shown. `FORMAT` changes when a reader of the
JSON would have to.
"""

from __future__ import annotations

import datetime
from dataclasses import dataclass

from triage.conclusions.diagnosis import Cause, Stop, Story

FORMAT = 1


@dataclass(frozen=True)
class Range:
    """The mildest and the gravest answer still possible; settled when they are the same."""

    best: str
    worst: str
    settled: bool


@dataclass(frozen=True)
class Answer:
    """May she go afloat, may she be towed, who can mend it: the range, and the reason for the graver end.

    ``checks`` are the checks without which the graver end cannot be ruled out.
    """

    range: Range
    because: str
    means: str = ""
    checks: tuple[str, ...] = ()


@dataclass(frozen=True)
class Told:
    """One reading as it was understood: its scale and level, the phrase for it, and the measurement if it was one."""

    scale: str
    name: str
    level: str | None
    phrase: str
    measured: str


@dataclass(frozen=True)
class Step:
    """One rule in a chain of reasons: what it rests on, what it concludes, and why."""

    rule: str
    rests_on: tuple[str, ...]
    concludes: tuple[str, ...]
    because: str
    basis: str
    elsewhere: tuple[str, ...] = ()


@dataclass(frozen=True)
class Presumption:
    """What was taken for granted, because of which answers, and why that is usual."""

    rule: str
    presumes: tuple[str, ...]
    rests_on: tuple[str, ...]
    because: str
    basis: str


@dataclass(frozen=True)
class Conflict:
    """Answers that pull apart, so that nothing was presumed from them."""

    rule: str
    says: str


@dataclass(frozen=True)
class Turn:
    """A single reading that would change the verdict: the reading and what it would then be."""

    scale: str
    reading: str
    verdict: Range


@dataclass(frozen=True)
class Suggestion:
    """A check worth making: what it is, what it costs, and what hangs on it both ways."""

    check: str
    name: str
    scale: str
    question: str
    minutes: float
    dismantling: str
    helper: bool
    tools: tuple[str, ...]
    steps: tuple[str, ...]
    care: str
    if_good: str
    if_bad: str


@dataclass(frozen=True)
class Note:
    """A sentence for the person with the boat; ``kind`` is caution, do, never or recheck."""

    kind: str
    say: str


@dataclass(frozen=True)
class Repair:
    """How a finding is mended: the kind of work and no recipe.

    ``hours`` of work, ``materials`` for an owner and what a ``repairer`` asks in all run from the least to the most,
    each for one of ``per``; money is in ``unit`` of ``year``. None means that there is no figure.
    """

    id: str
    name: str
    who: str
    outline: tuple[str, ...]
    workshop: tuple[str, ...]
    hours: tuple[float, float] | None
    materials: tuple[float, float] | None
    repairer: tuple[float, float] | None
    per: str
    wait: str
    year: int | None
    unit: str
    note: str
    meanwhile: str
    holding: str
    hazards: tuple[str, ...]
    stop_when: tuple[str, ...]
    basis: str


@dataclass(frozen=True)
class FindingAssessment:
    """One finding: what was reported, what it means, and every reason. ``passed``: looked at, and nothing found; then
    its readings are the reasons, and what would change it is not told.

    ``mending`` is for what is known; ``mending_at_worst`` for the worst it may be, where that is another repair.
    """

    id: str
    zone: str
    place: str
    trade: str
    side: str | None
    sign: str
    mark: str
    note: str
    photos: tuple[str, ...]
    seen_on: datetime.date | None
    readings: tuple[Told, ...]
    passed: bool
    verdict: Range
    headline: str
    summary: str
    afloat: Answer
    tow: Answer
    hands: Answer
    why: tuple[Step, ...]
    at_worst: tuple[Step, ...]
    why_not_milder: tuple[str, ...]
    checked: tuple[str, ...]
    presumed: tuple[Presumption, ...]
    pulls_apart: tuple[Conflict, ...]
    would_change: tuple[Turn, ...]
    checks: tuple[Suggestion, ...]
    notes: tuple[Note, ...]
    mending: Repair | None = None
    mending_at_worst: Repair | None = None


@dataclass(frozen=True)
class Suspicion:
    """A place that a finding sends people to and that nobody has looked at yet."""

    zone: str
    place: str
    side: str | None
    sign: str
    mark: str
    picture: str
    because: str
    rule: str
    come_from: tuple[str, ...]
    worst: str
    check: str
    how: str


@dataclass(frozen=True)
class NotLookedAt:
    """Places of one stretch of the walk-round about which the survey says nothing."""

    leg: str
    stand: str
    places: tuple[str, ...]
    primary: tuple[str, ...]


@dataclass(frozen=True)
class Assessment:
    """One boat on one visit."""

    format: int
    program: str
    boat: str
    length: float | None
    facts: dict[str, str]
    unknown_facts: tuple[str, ...]
    seen_on: datetime.date | None
    by: str
    note: str
    verdict: Range
    headline: str
    afloat: Answer
    tow: Answer
    gravest: str | None
    keeps_ashore: tuple[str, ...]
    findings: tuple[FindingAssessment, ...]
    suspicions: tuple[Suspicion, ...]
    not_looked_at: tuple[NotLookedAt, ...]
    notes: tuple[Note, ...]
    causes: tuple[Cause, ...] = ()
    stories: tuple[Story, ...] = ()
    plan: tuple[Stop, ...] = ()

    @property
    def settled_and_fit(self) -> bool:
        """Every finding settled, nothing suspected, and nothing that limits sailing or towing."""
        afloat, tow = self.afloat.range, self.tow.range
        return self.verdict.settled and afloat.settled and tow.settled and (afloat.best, tow.best) == ("sail", "tow")
