"""A command in somebody's own words: "go back", "delete that", "why do you ask?"."""

from __future__ import annotations

from collections.abc import Sequence

from triage.dialogue import events
from triage.dialogue.events import Event, Said
from triage.dialogue.moves import Option, option_said
from triage.dialogue.state import What
from triage.knowledge.model import KnowledgeBase
from triage.listening.saying import command_in

COMMANDED: dict[str, Event] = {
    "back": events.Undo(),
    "delete": events.Remove(),
    "skip": events.Skip(),
    "why": events.Why(),
    "how": events.How(),
    "other": events.Answers(),
    "marks": events.Marks(),
    "new": events.New(),
    "finish": events.Finish(),
}
"""What a command in words does."""


def meant(kb: KnowledgeBase, what: What, options: Sequence[Option], event: Event) -> Event:
    """A command in words is the event that it commands, unless it is one of the choices or asks nothing here."""
    if not isinstance(event, Said) or option_said(options, event.text.strip()) is not None:
        return event
    command = command_in(kb, event.text)
    if not command or (command in ("why", "how") and what != "answer"):
        return event
    return COMMANDED[command]
