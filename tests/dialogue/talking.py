"""A conversation by what is said in it: a step is pure, so what begins alike is gone through once."""

from __future__ import annotations

from triage.dialogue.events import Event
from triage.dialogue.messages import Message
from triage.dialogue.state import State
from triage.dialogue.step import begin, step
from triage.knowledge.model import KnowledgeBase
from triage.knowledge.per_knowledge import per_knowledge
from triage.survey.model import Boat, Survey

WAGTAIL = Survey(Boat("Wagtail"), ())
"""A boat of which nothing is known."""


@per_knowledge
def talk(kb: KnowledgeBase, *said: Event) -> tuple[State, tuple[Message, ...]]:
    """The state after these events about `WAGTAIL`, and what was said to the last."""
    if not said:
        return begin(kb, WAGTAIL)
    state, _ = talk(kb, *said[:-1])
    return step(kb, state, said[-1])
