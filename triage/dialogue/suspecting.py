"""What marks or events make suspect elsewhere, as the next thing to ask: the first of it that somebody can look for."""

from __future__ import annotations

from dataclasses import dataclass

from triage.causes.referrals import event_referrals_of, referrals_of, suspected
from triage.concluding.events import events_told
from triage.dialogue.edits import AddFinding, apply, with_id
from triage.dialogue.judged import judged_boat
from triage.dialogue.moves import Move
from triage.dialogue.passing import look_at
from triage.dialogue.state import Asking
from triage.knowledge.model import NOTHING_SEEN, KnowledgeBase
from triage.survey.model import Finding, Survey


@dataclass(frozen=True)
class Sought:
    """A mark that is suspected at a place, on one of its sides, and the scale that tells of it."""

    zone: str
    side: str | None
    sign: str
    scale: str


def next_sought(kb: KnowledgeBase, survey: Survey) -> Sought | None:
    """The first on the way round her that has not been looked for, nor tried in vain, and that a check may load."""
    coverage = judged_boat(kb, survey).coverage
    open_ = suspected(coverage, referrals_of(coverage), event_referrals_of(coverage))
    found = (one for one in open_ if one.check and not (one.attempted or one.after_mending))
    return next((Sought(one.zone, one.sides[0] or None, one.sign, one.scale) for one in found), None)


def seek(kb: KnowledgeBase, survey: Survey, sought: Sought) -> Move:
    """Somebody goes there and looks, and is asked what tells of it."""
    look = look_at(survey, sought.zone, sought.side)
    if look is not None:
        return Move(Asking("answer", look.id, sought.scale))
    look = with_id(survey, Finding("", sought.zone, NOTHING_SEEN, sought.side))
    after, back = apply(kb, survey, AddFinding(look))
    return Move(Asking("answer", look.id, sought.scale), (), after, (back,))


def demanded(kb: KnowledgeBase, survey: Survey, events: frozenset[str]) -> tuple[str, ...]:
    """The places that these events demand to be looked at before she sails."""
    told = events_told(judged_boat(kb, survey).coverage)
    return tuple(dict.fromkeys(place for one in told if one.event in events for place in one.first))
