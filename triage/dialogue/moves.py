"""What comes of an event: a move to something else that is asked, or only something that is said."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass

from triage.dialogue.edits import Edit
from triage.dialogue.messages import Message
from triage.dialogue.state import Asking
from triage.parsing.text import same
from triage.survey.model import Survey


@dataclass(frozen=True)
class Move:
    """Ask this next, after saying ``says``. ``survey`` is the new one, if it changed, and ``backs`` undoes that."""

    asking: Asking
    says: tuple[Message, ...] = ()
    survey: Survey | None = None
    backs: tuple[Edit, ...] = ()


Says = tuple[Message, ...]
Outcome = Move | Says


@dataclass(frozen=True)
class Option:
    """A choice as it is shown, and what comes of it; worked out only when it is chosen.

    ``letter`` names a mark of a story, and says the choice that is about it.
    """

    text: str
    then: Callable[[], Outcome]
    letter: str = ""


def option_said(options: Sequence[Option], text: str, *, words: int = 1) -> Option | None:
    """The one choice that was said: in full, or by the words it begins with and no other does, at least so many."""
    said = same(text).rstrip(".!")
    exactly = [one for one in options if said in (same(one.text), one.letter)]
    begun = [one for one in options if len(said.split()) >= words and _begins(same(one.text), said)]
    return exactly[0] if exactly else begun[0] if len(begun) == 1 else None


def _begins(text: str, said: str) -> bool:
    return text.startswith(said) and not text[len(said) : len(said) + 1].isalnum()
