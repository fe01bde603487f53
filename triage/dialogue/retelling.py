"""What is said of one card while it is asked which mark is meant: another place, another mark, a size or a side."""

from __future__ import annotations

from collections.abc import Sequence

from triage.dialogue.cards import AS_HEARD, Card
from triage.dialogue.stories import Story, told
from triage.knowledge.model import KnowledgeBase
from triage.listening.manner import side_of
from triage.listening.naming import marks_named
from triage.listening.saying import place_said, without_what_is_not
from triage.listening.tokens import tokens_of
from triage.phrases import hearing


def at_place_said(kb: KnowledgeBase, card: Card, text: str) -> str:
    """The decision that the words make, which name a place: the one mark that they name there, or, where they name
    none, the likeliest of those that may be meant. Empty where they name no place, or none of these marks is met there.
    """
    meant = without_what_is_not(kb, text)
    zone = place_said(kb, meant)
    if not zone:
        return ""
    named = [*marks_named(kb).named(_stems(kb, meant))]
    there = [sign for sign in named or [sign for _, sign in card.pairs] if sign in kb.offers[zone]]
    sign = there[0] if there and (len(there) == 1 or not named) else ""
    side = (side_of(kb, meant) or card.side) if kb.zones[zone].sided else ""
    return " ".join(one for one in (zone, sign, side) if one) if sign else ""


def with_more(kb: KnowledgeBase, story: Story, number: int, text: str, decisions: Sequence[str]) -> str:
    """The story with a size or a side said of one of its cards beside that card's words; empty where the words are
    neither.
    """
    card = story.cards[number]
    end, sizes = card.found.end, len(card.sizes)
    for between in (", ", ". "):
        longer = f"{story.text[:end]}{between}{text}{story.text[end:]}"
        after = told(kb, longer, decisions)
        if len(after.cards) == len(story.cards):
            longer_card = after.cards[number]
            if len(longer_card.sizes) > sizes or longer_card.side != card.side:
                return longer
    return ""


def in_other_words(kb: KnowledgeBase, story: Story, number: int, text: str) -> str:
    """The story with other words for one of its cards, which may mean other marks; empty where they tell of none, or
    would put what was decided of the others out of its place.
    """
    card = story.cards[number]
    begin, end = card.found.start, card.found.end
    anew = f"{story.text[:begin]}{text}{story.text[end:]}"
    cards = told(kb, anew).cards
    undecided = all(one.decision == AS_HEARD for one in story.cards if one is not card)
    there = next((one for one in cards if one.found.start >= begin), None)
    fits = there is not None and there.pairs != card.pairs and (len(cards) == len(story.cards) or undecided)
    return anew if fits else ""


def is_heard_as(kb: KnowledgeBase, text: str, offered: str) -> bool:
    """Whether words that stand for themselves are heard as the mark that is offered so."""
    alone = told(kb, text).cards[:1]
    return any(offered.startswith(hearing.choice(kb, card.zone, card.sign)) for card in alone)


def _stems(kb: KnowledgeBase, text: str) -> list[str]:
    return [token.stem for token in tokens_of(text, kb) if token.word not in kb.lexicon.ignored]
