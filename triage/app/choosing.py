"""Choices as they are pressed: by drawing where a mark or a place is chosen, else in words alone."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from markupsafe import Markup

from triage.app.sketches import Sketches
from triage.dialogue.messages import Choices
from triage.dialogue.state import State
from triage.dialogue.telling import Telling
from triage.knowledge.model import KnowledgeBase
from triage.listening.understand import mark_candidate, place_candidate
from triage.phrases import conversation as phrases

MOST_PICTURES = 4
"""Drawings that are shown at once where words were unclear; the others unfold."""


@dataclass(frozen=True)
class Choice:
    """A choice in words: its number as it is counted, and what it says; ``stands``: what a mark comes to so far."""

    number: int
    says: str
    stands: str = ""


@dataclass(frozen=True)
class Drawn:
    """A choice by its drawing: its name, what tells it, and beside it what it is most easily taken for."""

    number: int
    name: str
    tells: str
    picture: Markup
    place: str = ""
    nearest: str = ""
    nearest_picture: Markup = Markup()  # noqa: RUF009 - a Markup never changes


@dataclass(frozen=True)
class Board:
    """All choices of one question: those that are drawn, more of them that unfold, and those in words."""

    drawn: Sequence[Drawn]
    more: Sequence[Drawn]
    plain: Sequence[Choice]
    places: bool = False


def board(kb: KnowledgeBase, state: State, ask: Choices, sketches: Sketches) -> Board:
    """The choices of what is asked now."""
    asking, drawn = state.asking, list[Drawn]()
    if asking.what == "mark":
        signs = asking.offered or kb.offers[asking.zone]
        drawn = [_mark(kb, number, sign, sketches) for number, sign in enumerate(signs, start=1)]
    elif asking.what in ("place", "spot"):
        drawn = [_place(kb, number, zone, sketches) for number, zone in enumerate(asking.offered, start=1)]
    elif asking.what == "which":
        telling = Telling(kb, state)
        drawn = [_mark(kb, number, sign, sketches, zone) for number, (zone, sign) in enumerate(telling.pairs, start=1)]
        taken = [telling.taken_as(*pair) for pair in telling.pairs]
        drawn = [replace(one, tells=" ".join([one.tells, *more])) for one, more in zip(drawn, taken, strict=True)]
    few = MOST_PICTURES if asking.what == "which" else len(drawn)
    return Board(drawn[:few], drawn[few:], plain(ask.choices, after=len(drawn)), asking.what in ("place", "spot"))


def plain(choices: Sequence[str], after: int = 0) -> list[Choice]:
    """The choices in words, without "could not tell", which has a button of its own."""
    counted = enumerate(choices, start=1)
    return [Choice(number, says) for number, says in counted if number > after and says != phrases.I_COULD_NOT_TELL]


def _mark(kb: KnowledgeBase, number: int, sign: str, sketches: Sketches, zone: str = "") -> Drawn:
    mark, nearest = mark_candidate(kb, sign), sketches.nearest(sign)
    return Drawn(
        number,
        mark.name,
        mark.picture,
        sketches.mark(sign),
        kb.zones[zone].name if zone else "",
        sketches.name(nearest) if nearest else "",
        sketches.mark(nearest, thumb=True) if nearest else Markup(),
    )


def _place(kb: KnowledgeBase, number: int, zone: str, sketches: Sketches) -> Drawn:
    place = place_candidate(kb, zone)
    return Drawn(number, place.name, place.picture, sketches.place(zone))
