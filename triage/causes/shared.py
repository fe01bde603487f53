"""One cause on several boats: a habit, a slip or a trolley rather than bad luck."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from triage.conclusions.assessment import Assessment
from triage.conclusions.diagnosis import PlanLine
from triage.knowledge.model import KnowledgeBase


@dataclass(frozen=True)
class OnBoat:
    """How likely the cause is on one boat, and what it demands there, most worthwhile first."""

    boat: str
    likelihood: str
    look: tuple[PlanLine, ...]


@dataclass(frozen=True)
class Shared:
    """A cause that several boats have in common. ``tell`` and ``cure`` are empty for what is over once it happened."""

    cause: str
    name: str
    happens: str
    tell: str
    cure: str
    boats: tuple[OnBoat, ...]


def shared_causes(assessments: Sequence[Assessment], kb: KnowledgeBase) -> tuple[Shared, ...]:
    """Causes that are likely on one boat at least and possible on another; those on the most boats first.

    What is likely and what is possible begins where stories and follow-ups begin.
    """
    weights = kb.causation.weights
    if weights is None:
        return ()
    found = []
    for cause in kb.causation.causes.values():
        boats = [_on(cause.id, assessment) for assessment in assessments]
        on = [boat for boat in boats if boat and weights.at_least(boat.likelihood, weights.follow_from)]
        if len(on) > 1 and any(weights.at_least(boat.likelihood, weights.story_from) for boat in on):
            at_work = cause.still_at_work
            tell, cure = (at_work.tell, at_work.cure) if at_work else ("", "")
            found.append(Shared(cause.id, cause.name, cause.happens, tell, cure, tuple(on)))
    return tuple(sorted(found, key=lambda shared: -len(shared.boats)))


def _on(cause: str, assessment: Assessment) -> OnBoat | None:
    for told in assessment.causes:
        if told.id == cause:
            lines = [line for stop in assessment.plan for line in stop.lines if cause in line.causes]
            return OnBoat(assessment.boat, told.likelihood, tuple(sorted(lines, key=lambda line: line.rank)))
    return None
