"""The same mark on the other side: what is answered about one may be said of both at once."""

from __future__ import annotations

from dataclasses import replace

from triage.dialogue.edits import SetReading, apply_all, find
from triage.dialogue.following import named, next_about
from triage.dialogue.messages import Line
from triage.dialogue.moves import Move
from triage.dialogue.state import Asking, State
from triage.knowledge.model import SIDES, KnowledgeBase
from triage.phrases import conversation as phrases
from triage.survey.model import Finding, Survey


def twin_of(survey: Survey, asking: Asking) -> Finding | None:
    """The same mark on the other side, where what is asked was not answered for it yet."""
    if asking.what != "answer":
        return None
    one = find(survey, asking.mark)
    twins = (
        other
        for other in survey.marks
        if (other.zone, other.sign) == (one.zone, one.sign) and {one.side, other.side} == {*SIDES}
    )
    return next((twin for twin in twins if asking.ask not in twin.readings), None)


def on_both(kb: KnowledgeBase, state: State, move: Move) -> Move:
    """The same answer for the twin as well, as one step that is taken back whole."""
    asking, after = state.asking, move.survey
    twin = twin_of(state.survey, asking)
    reading = find(after, asking.mark).readings.get(asking.ask) if after and twin else None
    if after is None or twin is None or reading is None:
        return move
    survey, backs = apply_all(kb, after, [SetReading(twin.id, asking.ask, reading)])
    says = (*move.says, Line(phrases.also_of(named(kb, twin))))
    return replace(
        move,
        asking=next_about(kb, survey, asking.mark, state.means),
        says=says,
        survey=survey,
        backs=(*backs, *move.backs),
    )
