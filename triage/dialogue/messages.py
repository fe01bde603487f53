"""What a conversation says, as data: a terminal prints it, a screen draws it.

Choices are shown in their order and counted from 1, wherever they appear; ``Chose`` means the same number.
"""

from __future__ import annotations

from dataclasses import dataclass

from triage.conclusions.assessment import Assessment
from triage.conclusions.checks import OpenCheck
from triage.dialogue.question import Done, Question


@dataclass(frozen=True)
class Line:
    """A sentence or two."""

    text: str


@dataclass(frozen=True)
class Points:
    """Sentences of equal rank, under a title that may be empty."""

    title: str
    lines: tuple[str, ...]


@dataclass(frozen=True)
class Understood:
    """A description as it was understood, each part by its name and its picture; ``left``: sizes kept in the note."""

    place: str
    place_picture: str
    mark: str
    mark_picture: str
    sizes: tuple[str, ...]
    left: tuple[str, ...]


@dataclass(frozen=True)
class Choices:
    """Something to choose, or to say in words where there is no choice."""

    text: str
    choices: tuple[str, ...] = ()


@dataclass(frozen=True)
class Asked:
    """A question about the mark at ``place``, its choices as they are shown, and what was answered before.

    ``explain``: how to find the answer has not been told yet.
    """

    question: Question
    place: str
    choices: tuple[str, ...]
    answered: str
    explain: bool


@dataclass(frozen=True)
class HowTo:
    """How to find the answer."""

    how: OpenCheck
    made: bool


@dataclass(frozen=True)
class Noted:
    """What an answer was understood as, and what it did."""

    text: str
    change: str


@dataclass(frozen=True)
class Ended:
    """What came of a mark, where it sends people, and what to do next."""

    done: Done
    sends: tuple[str, ...]
    text: str
    choices: tuple[str, ...]


@dataclass(frozen=True)
class Refused:
    """That cannot be, or was not understood; nothing has changed, and these are the choices still."""

    what: str
    hint: str = ""
    choices: tuple[str, ...] = ()


@dataclass(frozen=True)
class SoFar:
    """The boat and her marks, each with where it stands."""

    boat: str
    marks: tuple[str, ...]


@dataclass(frozen=True)
class Report:
    """Everything so far, concluded."""

    assessment: Assessment


@dataclass(frozen=True)
class Left:
    """The person wants to leave."""


Message = Line | Points | Understood | Choices | Asked | HowTo | Noted | Ended | Refused | SoFar | Report | Left

PROMPTS = (Understood, Choices, Asked, Ended)
"""The messages that put what is being asked."""
