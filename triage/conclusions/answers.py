"""May she go afloat, may she be towed, who can mend it: as far as it is known, and what a better answer waits for."""

from __future__ import annotations

from dataclasses import dataclass

from triage.conclusions.checks import OpenCheck
from triage.conclusions.values import Range

NOT_YET = "not yet"
"""May she go afloat, may she be towed, while a check that can be made now has still to say so."""


@dataclass(frozen=True)
class Turn:
    """What one answer to a check makes of it, if the others awaited come out well: a level's name or `NOT_YET`."""

    answer: str
    level: int | None
    now: str


@dataclass(frozen=True)
class Awaited:
    """A check without which a better answer cannot be given, and what its answers would make of it."""

    check: OpenCheck
    turns: tuple[Turn, ...]


@dataclass(frozen=True)
class Answer:
    """May she go afloat, may she be towed, who can mend it: the range, and the rule that brought its graver end.

    ``means`` is what the graver end asks of people. ``now`` is what holds today: the name of that end, or `NOT_YET`
    where it bars her and checks can still clear her. ``awaits`` is the smallest set of checks found that would better
    it, and ``then`` what holds once all of them have come out well.
    """

    range: Range
    rule: str
    because: str
    means: str = ""
    now: str = ""
    awaits: tuple[Awaited, ...] = ()
    then: str = ""
