"""The report in the middle of a description: nothing told is lost, and nothing is kept that nobody has seen."""

from __future__ import annotations

from dataclasses import replace

from triage.dialogue.answering import Answering
from triage.dialogue.describing import Describing
from triage.dialogue.following import named
from triage.dialogue.messages import Line, Refused
from triage.dialogue.moves import Outcome
from triage.dialogue.state import DESCRIBING, State
from triage.dialogue.telling import Telling
from triage.knowledge.model import KnowledgeBase
from triage.phrases import describing

UNSEEN = tuple(what for what in (*DESCRIBING, "story", "which") if what != "side")
"""What is being asked while nobody has said yet that place and mark are right."""


def finished(kb: KnowledgeBase, state: State) -> Outcome:
    """The report of everything so far. A mark of which only the side is asked is kept without one, and said so; one
    that nobody has said to be right yet is asked about before.
    """
    asking = state.asking
    if asking.what in UNSEEN:
        talk = Telling(kb, state) if asking.what in ("story", "which") else Describing(kb, state)
        return (Refused(describing.not_kept_yet(asking.text), "", tuple(one.text for one in talk.options())),)
    if asking.what not in ("side", "whose"):
        return Answering(kb, state).report()
    move = Telling(kb, state).without_sides() if asking.what == "whose" else Describing(kb, state).on("unknown")
    assert move.survey is not None
    known = {one.id for one in state.survey.findings}
    new = [one for one in move.survey.marks if one.id not in known and kb.zones[one.zone].sided and one.side is None]
    said = tuple(Line(describing.kept_without_side(named(kb, one))) for one in new)
    report = Answering(kb, replace(state, survey=move.survey, asking=move.asking)).report()
    return replace(move, says=(*said, *report))
