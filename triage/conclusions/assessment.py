"""What the program concludes from a survey, with its reasons: one frozen value of which every report is a view.

Everything is told by id and number, with the words that the rules have for it; the program's own sentences are made
from it in `triage.phrases`. `FORMAT` changes when a reader of the JSON would have to.
"""

from __future__ import annotations

import datetime
from dataclasses import dataclass
from typing import Literal

from triage.conclusions.answers import Answer
from triage.conclusions.checks import OpenCheck
from triage.conclusions.diagnosis import CauseHypothesis, Stop, Story
from triage.conclusions.reasons import Conflict, Counterfactual, HeldUp, PresumptionUsed, Step
from triage.conclusions.repairs import RepairAdvice
from triage.conclusions.values import EstimatedScale, Range, ReportedReading
from triage.conclusions.working import Working

FORMAT = 3


@dataclass(frozen=True)
class Note:
    """A sentence of the rules for the person with the boat; ``kind`` is caution, do, never or recheck, due after so
    many ``weeks`` where it can be told.
    """

    kind: str
    say: str
    weeks: float | None = None


@dataclass(frozen=True)
class FindingAssessment:
    """One finding: what was reported, what it means, and every reason.

    ``passed``: looked at without a mark, and tried in a way that passes the part; then its readings are the reasons,
    and what would change it is not told. ``mending`` is for what is known; ``mending_at_worst`` for the worst it may
    be, where that is another repair. ``harmless`` is why such a mark is only looks when nothing raises it.
    """

    id: str
    zone: str
    place: str
    trade: str
    side: str | None
    sign: str
    mark: str
    harmless: str
    note: str
    photos: tuple[str, ...]
    seen_on: datetime.date | None
    readings: tuple[ReportedReading, ...]
    looked_at_only: bool
    passed: bool
    verdict: Range
    afloat: Answer
    tow: Answer
    hands: Answer
    why: tuple[Step, ...]
    at_worst: tuple[Step, ...]
    held_up: HeldUp
    checked: tuple[ReportedReading, ...]
    presumed: tuple[PresumptionUsed, ...]
    pulls_apart: tuple[Conflict, ...]
    would_change: tuple[Counterfactual, ...]
    checks: tuple[OpenCheck, ...]
    notes: tuple[Note, ...]
    mending: RepairAdvice | None = None
    mending_at_worst: RepairAdvice | None = None
    estimated: tuple[EstimatedScale, ...] = ()
    workings: tuple[Working, ...] = ()


@dataclass(frozen=True)
class Suspicion:
    """A mark that findings or events make a rule suspect where nobody has looked for it yet, on one side or on both.

    ``come_from`` are ids of findings, ``events`` of events. ``verdict`` is that of such a mark with nothing answered;
    ``afloat`` and ``tow`` are from its best, that there is none, to its worst. ``check`` is how to look for it, ``how``
    how the whole part is passed.
    """

    zone: str
    place: str
    side: str | None
    sign: str
    mark: str
    picture: str
    because: str
    rule: str
    come_from: tuple[str, ...]
    events: tuple[str, ...]
    verdict: Range
    afloat: Answer
    tow: Answer
    check: OpenCheck | None
    how: str


@dataclass(frozen=True)
class JobPlace:
    """A place at which a job is done."""

    zone: str
    place: str
    side: str | None


@dataclass(frozen=True)
class Job:
    """The marks that are one damage: one reason, one repair, one price, one pair of hands.

    ``findings`` are ids, gravest first; ``name`` is what the gravest is called. ``verdict`` and the answers are those
    of the worst mark at each end; ``why`` is the rule that decides the verdict (None: nothing raises it above looks).
    ``mending`` is the repair that takes in all the others. The outcomes of ``checks`` are those of the whole job.
    ``suspects`` are the places of the assessment's suspicions that come from these marks.
    """

    id: str
    findings: tuple[str, ...]
    places: tuple[JobPlace, ...]
    side: str | None
    name: str
    why: Step | None
    verdict: Range
    afloat: Answer
    tow: Answer
    hands: Answer
    mending: RepairAdvice | None
    mending_at_worst: RepairAdvice | None
    checks: tuple[OpenCheck, ...]
    notes: tuple[Note, ...]
    suspects: tuple[JobPlace, ...]


@dataclass(frozen=True)
class EventTold:
    """Something that happened to her or was done to her, as it was heard: ``force``, ``when`` (or ``on`` which day)
    and ``side`` as far as they were told. ``first`` are the places that she waits for until somebody has looked,
    ``sends`` those that are worth a look. ``note``: what to think of.
    """

    event: str
    name: str
    kind: Literal["happened", "done"]
    force: str
    when: str
    on: datetime.date | None
    side: str | None
    said: str
    first: tuple[str, ...]
    sends: tuple[str, ...]
    note: str


@dataclass(frozen=True)
class Unlooked:
    """A place, or one side of it (``side``; None: all of it), at which nobody looked."""

    zone: str
    place: str
    side: str | None
    primary: bool


@dataclass(frozen=True)
class NotLookedAt:
    """Places of one stretch of the walk-round about which the survey says nothing."""

    leg: str
    stand: str
    places: tuple[Unlooked, ...]


@dataclass(frozen=True)
class Assessment:
    """One boat on one visit. ``rules`` is the digest of the knowledge, ``length`` in metres.

    ``jobs`` hold every mark once, gravest first; a part that was passed or only looked at belongs to none.
    ``asked`` are the questions, by id, that the survey asks. ``gravest`` and ``keeps_ashore`` are ids of findings;
    ``levels`` names the levels of each outcome, mildest first.
    """

    format: int
    program: str
    rules: str
    levels: dict[str, tuple[str, ...]]
    boat: str
    length: float | None
    facts: dict[str, str]
    unknown_facts: tuple[str, ...]
    seen_on: datetime.date | None
    by: str
    note: str
    verdict: Range
    afloat: Answer
    tow: Answer
    gravest: str | None
    keeps_ashore: tuple[str, ...]
    findings: tuple[FindingAssessment, ...]
    suspicions: tuple[Suspicion, ...]
    not_looked_at: tuple[NotLookedAt, ...]
    notes: tuple[Note, ...]
    causes: tuple[CauseHypothesis, ...] = ()
    stories: tuple[Story, ...] = ()
    plan: tuple[Stop, ...] = ()
    jobs: tuple[Job, ...] = ()
    events: tuple[EventTold, ...] = ()
    asked: tuple[str, ...] = ()

    @property
    def settled_and_fit(self) -> bool:
        """Every finding settled, nothing suspected, and nothing that limits sailing or towing."""
        answers = (self.afloat.range, self.tow.range)
        settled = self.verdict.settled and all(one.verdict.settled for one in self.findings)
        return settled and all(one.settled and one.roles[0] == "fit" for one in answers)

    def finding(self, id_: str) -> FindingAssessment:
        """The finding with this id. Raises StopIteration when there is none."""
        return next(finding for finding in self.findings if finding.id == id_)
