"""The sheet of points for one mark, as far as a program can mark it; what needs an eye on the hand is the trainer's.

Points are given for how somebody went about it as much as for the verdict: a right guess without a check is worth
little.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from triage.concluding.assess import assess_survey
from triage.conclusions.assessment import FindingAssessment
from triage.knowledge.model import HANDS, VERDICT, KnowledgeBase
from triage.knowledge.model.teaching import SheetItem
from triage.teaching.cheapest import Tried
from triage.teaching.questions import (
    CARRIES,
    CAUSE,
    CONFIDENCE,
    ELSEWHERE,
    FROM_MARK,
    MARK,
    NEXT,
    NOT_YET,
    NOTHING,
    STOP,
    TRADE,
)
from triage.teaching.run import State, choice_id

NAMES, LOAD, CHOICE, REASON, FOLLOW_UP, MENDING = "names", "load", "choice", "reason", "follow_up", "mending"
"""The items of the sheet of which a program can see something; all others are the trainer's."""

UNLOOKED, MISSED = "unlooked", "missed"
"""The faults of calling a main part fine without a look, and of calling milder what is weakened."""

PARTS = {NAMES: 2, CHOICE: 2, REASON: 1, FOLLOW_UP: 1}
"""What a part of an item is worth, as the sheet says: the mark alone, a check that would settle something, the verdict
alone, the place alone.
"""

HEARD = frozenset({REASON, FOLLOW_UP})
"""Items of which a program gives the part, and a trainer who hears the reason the rest."""

TOP = 2
"""Of the checks that are worth most, so many count as the next one to make."""


@dataclass(frozen=True)
class Item:
    """One line of the sheet: what a program gave, of how much, and what a trainer can still give who saw it done; of a
    fault, what it took and ``because``.
    """

    id: str
    name: str
    points: int
    of: int
    trainer: int = 0
    because: str = ""


@dataclass(frozen=True)
class Marked:
    """A finished run, marked. ``right``: the verdict is the key's, or "not yet" where what was found leaves it open.

    ``theirs`` is what the program makes of what the learner had found; ``not_made`` are checks of the cheapest way,
    ``not_seen`` places that the mark sends people to.
    """

    state: State
    items: tuple[Item, ...]
    right: bool
    theirs: FindingAssessment
    not_made: tuple[Tried, ...]
    not_seen: tuple[str, ...]

    @property
    def points(self) -> int:
        """What was reached without the trainer; never below nothing."""
        return max(0, sum(item.points for item in self.items))

    @property
    def missed(self) -> bool:
        """Whether what is weakened was called milder outright."""
        return any(item.id == MISSED for item in self.items)

    @property
    def faults(self) -> Sequence[Item]:
        """What took points away."""
        return [item for item in self.items if item.because]

    @property
    def of(self) -> int:
        """What could be reached without the trainer."""
        return sum(item.of for item in self.items)

    @property
    def confidence(self) -> int:
        """How sure the learner was of the verdict, in percent."""
        return int(self.state.answer(CONFIDENCE))

    @property
    def cause_right(self) -> bool:
        """Whether what made it was named."""
        return self.state.answer(CAUSE) in (self.state.key.causes or (NOTHING,))


def mark_run(kb: KnowledgeBase, state: State) -> Marked:
    """Mark a finished run. Raises ValueError when something is still asked."""
    if state.asks is not None:
        raise ValueError("the run is not finished")
    key = state.key
    theirs = assess_survey(state.survey, kb).finding(state.case.focus)
    said = state.answer(VERDICT)
    settled = key.finding.verdict.settled
    right = not theirs.verdict.settled if said == NOT_YET else settled and said == key.finding.verdict.best
    made = {choice_id(one) for one in state.made}
    not_made = tuple(one for one in key.way or () if choice_id(one) not in made)
    looked = {state.case.finding(one.finding).zone for one in state.made} | {state.answer(ELSEWHERE)}
    not_seen = tuple(zone for zone in key.elsewhere if zone not in looked)
    items = list(_items(kb, state, theirs, right=right))
    return Marked(state, (*items, *_faults(kb, state, items)), right, theirs, not_made, not_seen)


def _items(kb: KnowledgeBase, state: State, theirs: FindingAssessment, *, right: bool) -> Iterator[Item]:
    sheet = kb.teaching.sheet
    for item in sheet.items:
        of = _of(state, item)
        given = min(of, _given(kb, state, theirs, item, right=right)) if of else 0
        left = item.points - of
        if item.id == REASON and given > PARTS[REASON]:
            left = 0
        if item.id != FOLLOW_UP or state.key.elsewhere:
            yield Item(item.id, item.name, given, max(of, given), left)


def _faults(kb: KnowledgeBase, state: State, items: Sequence[Item]) -> Iterator[Item]:
    """What takes points away. What leaves at most so many takes all above them, and is named if it takes none."""
    reached = sum(item.points for item in items)
    here = {UNLOOKED: _unlooked(kb, state), MISSED: _missed(kb, state)}
    for fault in kb.teaching.sheet.faults:
        if here.get(fault.id):
            takes = fault.points if fault.most is None else max(0, reached - fault.most)
            reached -= takes
            yield Item(fault.id, fault.name, -takes, 0, because=fault.because)


def _of(state: State, item: SheetItem) -> int:
    """What a program can give for an item: all of it, its part, or nothing."""
    if item.id == REASON and state.answer(VERDICT) == NOT_YET:
        return item.points
    if item.id in HEARD:
        return min(PARTS[item.id], item.points)
    return item.points if item.id in (NAMES, LOAD, CHOICE, MENDING) else 0


def _given(kb: KnowledgeBase, state: State, theirs: FindingAssessment, item: SheetItem, *, right: bool) -> int:
    key, mark = state.key, state.case.mark
    match item.id:
        case "names":
            place = state.answer(TRADE) == mark.zone
            if state.answer(MARK) != mark.sign:
                return int(place)
            return item.points if place else PARTS[NAMES]
        case "load":
            return item.points * (state.answer(CARRIES) == kb.zones[mark.zone].load)
        case "choice":
            return item.points if _chose_well(state) else PARTS[CHOICE] * _chose_something(state)
        case "reason":
            if state.answer(VERDICT) != NOT_YET:
                return PARTS[REASON] * right
            return item.points * right * _next_is_right(state, theirs)
        case "follow_up":
            return PARTS[FOLLOW_UP] * (state.answer(ELSEWHERE) in key.elsewhere)
        case _:
            return item.points * (state.answer(HANDS) == key.finding.hands.now)


def _chose_well(state: State) -> bool:
    """Whether the first check was one of those worth most; where looking is enough, whether none was made.

    Who made none is marked by the check that was named as the next one.
    """
    best = _worth_making(state)[:TOP]
    first = _first(state)
    return first in best if best else not first


def _chose_something(state: State) -> bool:
    """Whether the first check was one that could settle something."""
    return _first(state) in _worth_making(state)


def _worth_making(state: State) -> list[str]:
    """The checks at the mark that are worth making at first, most useful first, as choices."""
    checks = dict.fromkeys(one.check for one in state.key.checks if one.check)
    return [f"{state.case.focus}{FROM_MARK}{check}" for check in checks]


def _first(state: State) -> str:
    """The first check that was made, or else named as the next one; empty for none."""
    if state.made:
        return choice_id(state.made[0])
    return "" if state.answer(NEXT) == STOP else state.answer(NEXT)


def _unlooked(kb: KnowledgeBase, state: State) -> bool:
    """Whether a place that boat or crew depend on was called fine although no check was made that was called for."""
    fine = state.answer(VERDICT) == kb.level_name(VERDICT, 0)
    needed = bool(state.key.checks)
    return fine and needed and not state.made and kb.zones[state.case.mark.zone].criticality == "primary"


def _missed(kb: KnowledgeBase, state: State) -> bool:
    """Whether what is weakened was called milder outright."""
    said, weakened = state.answer(VERDICT), kb.level_of(VERDICT, "weakened")
    levels = [level.name for level in kb.scales[VERDICT].levels]
    return said in levels and levels.index(said) < weakened <= state.key.finding.verdict.levels[1]


def next_is_right(marked: Marked) -> bool:
    """Whether the check named as the next one is worth making: one of the best, or none where all is settled."""
    return _next_is_right(marked.state, marked.theirs)


def _next_is_right(state: State, theirs: FindingAssessment) -> bool:
    said = state.answer(NEXT)
    open_ = list(dict.fromkeys(f"{state.case.focus}{FROM_MARK}{one.check}" for one in theirs.checks if one.check))
    return said in open_[:TOP] if open_ else said == STOP
