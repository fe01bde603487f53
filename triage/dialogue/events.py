"""What a person can do in a conversation, whatever it was done with."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True)
class Said:
    """Words: a description, an answer, a measurement with its unit, or a question about the boat."""

    text: str


@dataclass(frozen=True)
class Chose:
    """One of the choices as they are shown, counted from 1; or all from ``number`` to ``to``, for "between these".

    ``pressed``: with a button; two numbers that are typed could as well be a quantity. ``both``: the same answer for
    the same mark on the other side.
    """

    number: int
    to: int = 0
    pressed: bool = False
    both: bool = False


@dataclass(frozen=True)
class Skip:
    """Nobody could tell."""


@dataclass(frozen=True)
class Why:
    """Why this is asked and what hangs on it, or why it came to this end."""


@dataclass(frozen=True)
class How:
    """How to find the answer."""


@dataclass(frozen=True)
class Undo:
    """Take the last step back."""


@dataclass(frozen=True)
class Remove:
    """Take a mark out of the survey; without a name the one that is talked about."""

    mark: str = ""


@dataclass(frozen=True)
class Change:
    """Ask this about a mark, out of turn: a scale or a fact about the boat, answered before or not."""

    mark: str
    ask: str


@dataclass(frozen=True)
class Clear:
    """Take an answer out, as if it had never been given."""

    mark: str
    ask: str


@dataclass(frozen=True)
class Focus:
    """Go on with this mark."""

    mark: str


@dataclass(frozen=True)
class Same:
    """The mark, which stands from an earlier visit, is as it was."""

    mark: str


@dataclass(frozen=True)
class New:
    """Describe another mark."""


@dataclass(frozen=True)
class Marks:
    """Show all marks, to go on with one of them."""


@dataclass(frozen=True)
class Answers:
    """Show everything that can be answered about the mark that is talked about, to choose one."""


@dataclass(frozen=True)
class Decide:
    """Of the cards of a story this one, counted from 1, is so: as a `Card` holds its decision."""

    card: int
    decision: str


@dataclass(frozen=True)
class Keep:
    """What was understood of a description or of a story is right as it is shown."""


@dataclass(frozen=True)
class Finish:
    """The report of everything so far."""


Event = (
    Said
    | Chose
    | Skip
    | Why
    | How
    | Undo
    | Remove
    | Change
    | Clear
    | Focus
    | Same
    | New
    | Marks
    | Answers
    | Decide
    | Keep
    | Finish
)
