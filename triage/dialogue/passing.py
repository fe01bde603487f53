"""A part that was looked at without a mark: as recorded by somebody who goes round, and taken back like any step.

Only a test passes a part: it records the readings of one whole way of passing it at their best. A bare look records
that somebody looked, and no reading.
"""

from __future__ import annotations

from collections.abc import Callable, Collection, Iterable, Iterator
from dataclasses import dataclass

from triage.causes.referrals import referrals_of, suspected
from triage.dialogue.edits import AddFinding, Edit, RemoveFinding, SetReading, apply_all, with_id
from triage.dialogue.judged import judged_boat
from triage.dialogue.state import State
from triage.inference.evaluate import evaluate
from triage.knowledge.model import NOTHING_SEEN, SIDES, VERDICT, Check, KnowledgeBase
from triage.survey.model import Boat, Finding, Reading, Survey
from triage.survey.readings import reading_of

Spot = tuple[str, str]
"""A zone and its side; the side is empty for a part that is one."""

EditsThere = Callable[[Survey, Spot], Iterator[Edit]]
"""What is done to a survey at one place."""


@dataclass(frozen=True)
class Way:
    """One whole way of passing a part: what is read at its best, and by which checks.

    ``passes``: it does on this boat, whatever else nobody has told.
    """

    scales: tuple[str, ...]
    checks: tuple[Check, ...]
    passes: bool

    @property
    def minutes(self) -> float:
        """Of all its checks."""
        return sum(check.minutes for check in self.checks)


def way_to_pass(kb: KnowledgeBase, survey: Survey, zone: str) -> Way:
    """The quickest way of passing the part as the survey stands, with as little taken off as can be.

    Where a mark is, or a rule sends people, no shorter way will do. Where a fact of the boat decides whether a way
    passes and nobody has told it, the way that needs no such fact comes first.
    """
    place, facts = kb.zones[zone], survey.boat.facts
    alone = () if zone in suspected_places(kb, survey) else place.passed_alone
    ways = [_way(kb, zone, one.by, passes=True) for one in alone if one.where.items() <= facts.items()]
    ways += [_way(kb, zone, by, passes=_passes(kb, survey.boat, zone, by)) for by in place.passed_by]
    return min(ways, key=_trouble)


def suspected_places(kb: KnowledgeBase, survey: Survey) -> frozenset[str]:
    """The places that have a mark, or to which a mark or an event sends people."""
    coverage = judged_boat(kb, survey).coverage
    sent = suspected(coverage, referrals_of(coverage))
    return frozenset(one.zone for one in sent) | {finding.zone for finding in survey.marks}


def tried_fine(kb: KnowledgeBase, state: State, zone: str, sides: Collection[str]) -> State:
    """The part was tried there on these sides, in the way that `way_to_pass` names, and was at its best.

    Raises BadSurvey when that cannot be.
    """
    way = way_to_pass(kb, state.survey, zone)
    best = _at_their_best(kb, way.scales)

    def edits(survey: Survey, spot: Spot) -> Iterator[Edit]:
        side = spot[1] or None
        look = look_at(survey, zone, side)
        if look is None:
            yield AddFinding(with_id(survey, Finding("", zone, NOTHING_SEEN, side, best)))
        else:
            yield from (SetReading(look.id, scale, reading) for scale, reading in best.items())

    return _recorded(kb, state, [(zone, side) for side in sides], edits)


def looks_fine(kb: KnowledgeBase, state: State, spots: Collection[Spot]) -> State:
    """Somebody looked at these places and saw no mark; what a test had found well there before is taken out."""

    def edits(survey: Survey, spot: Spot) -> Iterator[Edit]:
        zone, side = spot[0], spot[1] or None
        look = look_at(survey, zone, side)
        if look is None:
            yield AddFinding(with_id(survey, Finding("", zone, NOTHING_SEEN, side)))
        elif look.answered:
            yield from (SetReading(look.id, scale, None) for scale in look.answered)

    return _recorded(kb, state, spots, edits)


def not_looked(kb: KnowledgeBase, state: State, spots: Collection[Spot]) -> State:
    """Nobody has looked at these places after all."""

    def edits(survey: Survey, spot: Spot) -> Iterator[Edit]:
        look = look_at(survey, spot[0], spot[1] or None)
        if look is not None:
            yield RemoveFinding(look.id)

    return _recorded(kb, state, spots, edits)


def look_at(survey: Survey, zone: str, side: str | None) -> Finding | None:
    """What was recorded of a look there, on this very side."""
    return next((one for one in survey.looks if (one.zone, one.side) == (zone, side)), None)


def _recorded(kb: KnowledgeBase, state: State, spots: Collection[Spot], edits: EditsThere) -> State:
    """The state after these edits at every place, as one step that can be taken back."""
    survey, backs = state.survey, tuple[Edit, ...]()
    for spot in spots:
        survey, back = apply_all(kb, survey, list(edits(survey, spot)))
        backs = (*back, *backs)
    return state.moved(state.asking, survey, backs) if backs else state


def _at_their_best(kb: KnowledgeBase, scales: Iterable[str]) -> dict[str, Reading]:
    return {scale: reading_of(kb.scales[scale], kb.scales[scale].levels[0].name) for scale in scales}


def _passes(kb: KnowledgeBase, boat: Boat, zone: str, scales: tuple[str, ...]) -> bool:
    side = SIDES[0] if kb.zones[zone].sided else None
    look = Finding("look", zone, NOTHING_SEEN, side, _at_their_best(kb, scales))
    (judged,) = evaluate(kb, boat, [look])
    return judged.interval(VERDICT) == (0, 0)


def _way(kb: KnowledgeBase, zone: str, scales: tuple[str, ...], *, passes: bool) -> Way:
    """The checks that read these scales there: as quick as can be, and one for several where it reads them."""
    chosen: dict[str, Check] = {}
    for scale in scales:
        there = kb.checks_for(scale, zone)
        whole = [check for check in there if check.dismantling != "off"] or there
        if whole:
            check = next((one for one in whole if one.id in chosen), whole[0])
            chosen[check.id] = check
    return Way(scales, tuple(chosen.values()), passes)


def _trouble(way: Way) -> tuple[bool, bool, float]:
    return not way.passes, any(check.dismantling == "off" for check in way.checks), way.minutes
