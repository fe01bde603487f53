"""The sheet of twenty points for one mark, as far as a program can mark it; what needs an eye on the hand is left out.

Points are given for how somebody went about it as much as for the verdict: a right guess without a check is worth
little.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from triage.concluding.assess import assess_survey
from triage.conclusions.assessment import FindingAssessment
from triage.knowledge.model import AFLOAT, HANDS, TOW, VERDICT, KnowledgeBase
from triage.teaching.cheapest import Tried
from triage.teaching.questions import CARRIES, CAUSE, CONFIDENCE, ELSEWHERE, MARK, NEXT, NOT_YET, NOTHING, STOP, TRADE
from triage.teaching.run import State, choice_id

NAMES, LOAD, CHOICE, HAND, LEVEL = "names", "load", "choice", "hand", "level"
JUDGED, BECAUSE, PLACE, WHY, MENDING, UNLOOKED = "judged", "because", "place", "why", "mending", "unlooked"
POINTS = {NAMES: 3, LOAD: 2, CHOICE: 4, HAND: 3, LEVEL: 2, JUDGED: 2, BECAUSE: 1, PLACE: 1, WHY: 1, MENDING: 1}
"""What each item of the sheet is worth: twenty in all."""

BY_TRAINER = frozenset({HAND, LEVEL, BECAUSE, WHY})
"""What needs an eye on the hand, or an ear for the reason."""

PENALTY = -5
"""For calling a mark fine, at a place that boat or crew depend on, without a look."""

TOP = 2
"""Of the checks that are worth most, so many count as the next one to make."""


@dataclass(frozen=True)
class Item:
    """One line of the sheet. ``points`` is None where a trainer has to give them: they stand beside the boat."""

    id: str
    points: int | None
    of: int


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
        return max(0, sum(item.points or 0 for item in self.items))

    @property
    def of(self) -> int:
        """What could be reached without the trainer."""
        return sum(item.of for item in self.items if item.points is not None)

    @property
    def confidence(self) -> int:
        """How sure the learner was of the verdict, in percent."""
        return int(self.state.answer(CONFIDENCE))

    @property
    def cause_right(self) -> bool:
        """Whether what made it was named."""
        return self.state.answer(CAUSE) in (self.state.key.causes or (NOTHING,))

    def said_right(self, asked: str) -> bool:
        """Whether afloat or tow was answered as the program answers it, once all is known."""
        finding = self.state.key.finding
        return self.state.answer(asked) == {AFLOAT: finding.afloat, TOW: finding.tow}[asked].now


def mark_run(kb: KnowledgeBase, state: State) -> Marked:
    """Mark a finished run. Raises ValueError when something is still asked."""
    if state.asks is not None:
        raise ValueError("the run is not finished")
    key = state.key
    theirs = assess_survey(state.survey, kb).finding(state.case.focus)
    said = state.answer(VERDICT)
    right = not theirs.verdict.settled if said == NOT_YET else said == key.finding.verdict.best
    made = {choice_id(one) for one in state.made}
    not_made = tuple(one for one in key.way or () if choice_id(one) not in made)
    looked = {state.case.finding(one.finding).zone for one in state.made} | {state.answer(ELSEWHERE)}
    not_seen = tuple(zone for zone in key.elsewhere if zone not in looked)
    return Marked(state, tuple(_items(kb, state, right=right)), right, theirs, not_made, not_seen)


def _items(kb: KnowledgeBase, state: State, *, right: bool) -> Iterator[Item]:
    key, mark = state.key, state.case.mark
    named = (state.answer(MARK) == mark.sign) + (state.answer(TRADE) == mark.zone)
    reached = {
        NAMES: (0, 1, POINTS[NAMES])[named],
        LOAD: POINTS[LOAD] * (state.answer(CARRIES) == kb.zones[mark.zone].load),
        CHOICE: POINTS[CHOICE] * _chose_well(state),
        JUDGED: POINTS[JUDGED] * right,
        PLACE: POINTS[PLACE] * (state.answer(ELSEWHERE) in key.elsewhere),
        MENDING: POINTS[MENDING] * (state.answer(HANDS) == key.finding.hands.now),
    }
    for item, of in POINTS.items():
        if key.elsewhere or item not in (PLACE, WHY):
            yield Item(item, None if item in BY_TRAINER else reached[item], of)
    if _unlooked(kb, state):
        yield Item(UNLOOKED, PENALTY, 0)


def _chose_well(state: State) -> bool:
    """Whether the first check was one of those worth most; where looking is enough, whether none was made.

    Who made none is marked by the check that was named as the next one.
    """
    best = [one.check for one in state.key.checks if one.check][:TOP]
    here = [one.check.id for one in state.made if one.finding == state.case.focus]
    if not best:
        return not state.made
    if not state.made:
        return state.answer(NEXT).startswith(state.case.focus) and state.answer(NEXT).split()[-1] in best
    return bool(here) and here[0] in best


def _unlooked(kb: KnowledgeBase, state: State) -> bool:
    """Whether a place that boat or crew depend on was called fine although no check was made that was called for."""
    fine = state.answer(VERDICT) == kb.level_name(VERDICT, 0)
    needed = bool(state.key.checks)
    return fine and needed and not state.made and kb.zones[state.case.mark.zone].criticality == "primary"


def next_is_right(marked: Marked) -> bool:
    """Whether the check named as the next one is worth making: one of the best, or none where all is settled."""
    said, open_ = marked.state.answer(NEXT), [one.check for one in marked.theirs.checks if one.check]
    if said == STOP:
        return not open_
    return said.startswith(f"{marked.state.case.focus} ") and said.split()[-1] in open_[:TOP]
