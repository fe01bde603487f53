"""The walk round a boat: her places leg by leg, how far each is looked at, and what comes first in so many minutes.

The legs stand in the order in which people reach them and may be taken in any. Within a leg come first the places that
the plan for a viewing names for the minutes at hand, the most decisive first; then the others, as the walk has them.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Literal

from triage.buying.offer import NOTHING_NAMED
from triage.buying.trying import ViewingLine
from triage.buying.viewing import plan_viewing
from triage.concluding.assess import assess_survey
from triage.coverage import Coverage, PlaceStatus
from triage.dialogue.judged import judged_boat
from triage.knowledge.model import KnowledgeBase, Leg, Zone
from triage.survey.model import Finding, Survey

MINUTES = (30, 45, 60)
"""From which somebody chooses, beside all the time it takes."""

AS_LONG_AS_IT_TAKES = 1440
"""Minutes: a day."""

Progress = Literal["none", "part", "done"]


@dataclass(frozen=True)
class SideSeen:
    """One side of a place (empty for a part that is one), how it stands, and the marks that were found there."""

    side: str
    status: PlaceStatus
    marks: tuple[Finding, ...]


@dataclass(frozen=True)
class Stop:
    """A place on the way: how it stands, and its rank within the minutes at hand.

    ``rank`` 0: not named by the plan, because the minutes do not suffice or because less hangs on it.
    """

    zone: Zone
    sides: tuple[SideSeen, ...]
    rank: int = 0
    because: str = ""

    @property
    def looked(self) -> bool:
        """Whether somebody has looked there, on every side."""
        return all(one.status != "not looked at" for one in self.sides)

    @property
    def begun(self) -> bool:
        """Whether somebody has looked there on a side at least."""
        return any(one.status != "not looked at" for one in self.sides)


@dataclass(frozen=True)
class Stretch:
    """A leg of the walk with the places that she can have, in the order in which they are worth looking at."""

    leg: Leg
    stops: tuple[Stop, ...]

    @property
    def looked(self) -> int:
        """How many of its places somebody has looked at."""
        return sum(stop.looked for stop in self.stops)

    @property
    def progress(self) -> Progress:
        """All of it, some of it, or nothing yet."""
        if self.looked == len(self.stops):
            return "done"
        return "part" if any(stop.begun for stop in self.stops) else "none"


@dataclass(frozen=True)
class Round:
    """The whole walk; ``used`` are the minutes of what the plan names and was passed, of ``minutes`` (0: not told)."""

    stretches: tuple[Stretch, ...]
    minutes: int
    used: float

    @property
    def looked(self) -> int:
        """How many places somebody has looked at."""
        return sum(one.looked for one in self.stretches)

    @property
    def places(self) -> int:
        """How many places she can have."""
        return sum(len(one.stops) for one in self.stretches)

    def stretch(self, leg: str) -> Stretch | None:
        """The leg of this id."""
        return next((one for one in self.stretches if one.leg.id == leg), None)

    def after(self, leg: str) -> Stretch | None:
        """Where to go on after this leg: the next that is not done, round to the beginning; None when all are."""
        number = next((i for i, one in enumerate(self.stretches) if one.leg.id == leg), -1)
        in_turn = [*self.stretches[number + 1 :], *self.stretches[: max(number, 0)]]
        planned = [one for one in in_turn if any(stop.rank and not stop.looked for stop in one.stops)]
        return next(iter([*planned, *(one for one in in_turn if one.progress != "done")]), None)


def round_of(kb: KnowledgeBase, survey: Survey, minutes: int, this_year: int) -> Round:
    """The walk as it stands. ``minutes`` at hand, or nothing where nobody has said how many."""
    coverage = judged_boat(kb, survey).coverage
    lines = planned(kb, survey, minutes, this_year)
    stretches = [_stretch(kb, leg, coverage, lines) for leg in kb.walk]
    with_places = tuple(one for one in stretches if one.stops)
    done = [stop.zone.id for one in with_places for stop in one.stops if stop.looked]
    return Round(with_places, minutes, sum(lines[zone].minutes for zone in done if zone in lines))


def planned(kb: KnowledgeBase, survey: Survey, minutes: int, this_year: int) -> Mapping[str, ViewingLine]:
    """By place what the plan for a viewing names; nothing where nobody is short of time, or no rule is of buying.

    It does not change while somebody goes round and finds nothing: looks leave it as it is, and marks do not.
    """
    if minutes not in MINUTES or not kb.purchase.judging:
        return {}
    assessment = assess_survey(replace(survey, findings=survey.marks), kb)
    plan = plan_viewing(assessment, NOTHING_NAMED, kb, minutes, this_year)
    return {line.zone: line for stop in plan.stops for line in stop.lines}


def _stretch(kb: KnowledgeBase, leg: Leg, coverage: Coverage, lines: Mapping[str, ViewingLine]) -> Stretch:
    survey = coverage.survey
    there = [kb.zones[zone] for zone in leg.zones if survey.boat.has(kb.zones[zone])]
    stops = []
    for zone in there:
        sides = tuple(_seen(coverage, zone.id, side) for side in coverage.sides(zone.id))
        line = lines.get(zone.id)
        stops.append(Stop(zone, sides, line.rank if line else 0, line.because if line else ""))
    return Stretch(leg, tuple(sorted(stops, key=lambda stop: stop.rank or len(kb.zones) + 1)))


def _seen(coverage: Coverage, zone: str, side: str) -> SideSeen:
    marks: Sequence[Finding] = [
        one for one in coverage.survey.marks if one.zone == zone and (not side or one.side in (None, side))
    ]
    return SideSeen(side, standing(coverage, zone, side), tuple(marks))


def standing(coverage: Coverage, zone: str, side: str) -> PlaceStatus:
    """How the place stands on this side for itself, where a shorter way may have passed it."""
    status = coverage.place(zone, side)
    if status == "nothing found" and any(coverage.passes_alone(look) for look in _looks(coverage, zone, side)):
        return "passed"
    return status


def _looks(coverage: Coverage, zone: str, side: str) -> Sequence[Finding]:
    return [one for one in coverage.survey.looks if one.zone == zone and one.side in (None, side or None)]
