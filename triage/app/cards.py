"""A whole story as cards on one screen: each mark to keep, change or take out before anything is kept."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from markupsafe import Markup

from triage.app.sketches import Sketches
from triage.dialogue.cards import OUT, Card
from triage.dialogue.state import State
from triage.dialogue.telling import Telling
from triage.knowledge.model import KnowledgeBase
from triage.phrases import hearing
from triage.phrases.words import at_side

SIDES = ("port", "starboard", "both", "unknown")
"""On which a mark may be, as they are shown."""


@dataclass(frozen=True)
class StoryCard:
    """One mark as it was understood, called by its ``letter``. ``number`` counts from 1; ``change`` is the number of
    the choice that changes it.

    ``keeps`` is the decision that leaves it as it stands; ``sides`` the decisions for each side, where the side is
    still to be said. ``open``: which mark it is has still to be asked; ``out``: it is not kept.
    """

    number: int
    letter: str
    change: int
    mark: str
    place: str
    words: str
    sizes: Sequence[str]
    picture: Markup
    keeps: str
    sides: Sequence[tuple[str, str]]
    open: bool
    out: bool


@dataclass(frozen=True)
class Told:
    """A story: its cards, what else was understood a line each, and the number of the choice to tell it again."""

    cards: Sequence[StoryCard]
    others: Sequence[str]
    again: int

    @property
    def kept(self) -> int:
        """How many marks would be kept."""
        return sum(not card.out for card in self.cards)


def told_story(kb: KnowledgeBase, state: State, sketches: Sketches) -> Told:
    """The story that is told now."""
    telling = Telling(kb, state)
    keeping = len(telling.keeping())
    cards = [_card(kb, number, card, sketches, keeping) for number, card in enumerate(telling.told.cards, start=1)]
    return Told(cards, telling.told.others, len(telling.options()))


def _card(kb: KnowledgeBase, number: int, card: Card, sketches: Sketches, keeping: int) -> StoryCard:
    side = hearing.SIDES.get(card.side) if kb.zones[card.zone].sided else None
    asks_side = not card.is_open and card.wants_side(kb)
    return StoryCard(
        number=number,
        letter=card.letter,
        change=keeping + number,
        mark=hearing.WHICH_IS_IT if card.is_open else kb.signs[card.sign].name,
        place="" if card.is_open else at_side(kb.zones[card.zone].name, side),
        words=card.words,
        sizes=() if card.is_open else card.says(kb),
        picture=sketches.place(card.zone) if card.is_open else sketches.mark(card.sign, thumb=True),
        keeps=card.decision,
        sides=[(one, f"{card.zone} {card.sign} {one}") for one in SIDES] if asks_side else (),
        open=card.is_open,
        out=card.decision == OUT,
    )
