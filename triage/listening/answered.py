"""What is understood of words that answer a question."""

from __future__ import annotations

from dataclasses import dataclass

from triage.listening.statements import BoatFact, Side
from triage.survey.model import Happened


@dataclass(frozen=True)
class Given:
    """An answer in somebody's words: of which scale, and what it was taken as; ``estimated``: without a unit."""

    scale: str
    answer: str
    words: str
    estimated: bool = False


@dataclass(frozen=True)
class Reply:
    """What a sentence says in answer. ``side``: where the mark is instead, or "other"; ``loose``: figures that measure
    nothing that is known here; ``rest``: clauses of which nothing was made.
    """

    given: tuple[Given, ...] = ()
    side: Side | str = ""
    events: tuple[Happened, ...] = ()
    facts: tuple[BoatFact, ...] = ()
    questions: tuple[str, ...] = ()
    loose: tuple[str, ...] = ()
    rest: tuple[str, ...] = ()

    @property
    def says_something(self) -> bool:
        """Whether anything of it can be kept."""
        return bool(self.given or self.side or self.events or self.facts)
