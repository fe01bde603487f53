"""A text as words that remember where they stand, each in one spelling: "center board" is "centreboard"."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from itertools import chain, pairwise

from triage.knowledge.model import KnowledgeBase
from triage.knowledge.per_knowledge import per_knowledge
from triage.listening.phrase_matcher import plain_words, stem
from triage.listening.spelling import Speller

_WORD = re.compile(r"[a-z]+(?:['’][a-z]+)*|\d+|[½¼¾]", re.IGNORECASE)
Where = tuple[str, int, int]
"""A word, and where it begins and ends."""


@dataclass(frozen=True)
class Token:
    """A word as it is matched, its stem, and where what was written for it stands in the text."""

    word: str
    stem: str
    start: int
    end: int


def tokens_of(text: str, kb: KnowledgeBase) -> tuple[Token, ...]:
    """The words of a text in their order."""
    joined = _joined(_raw(text), kb.lexicon.speech.variants, _corrected(kb))
    return tuple(Token(word, stem(word), start, end) for word, start, end in joined)


def words_of(phrase: str, variants: Mapping[str, str]) -> tuple[str, ...]:
    """The words of a phrase of the lexicon, in the same spelling as those of a text."""
    found = [_folded(word) for word in _WORD.findall(phrase)]
    if not any(word in variants for word in (*found, *map(" ".join, pairwise(found)))):
        return tuple(found)
    return tuple(word for word, _, _ in _joined(_raw(phrase), variants, None))


def _raw(text: str) -> list[Where]:
    return [(_folded(found[0]), found.start(), found.end()) for found in _WORD.finditer(text)]


def _folded(word: str) -> str:
    return word.casefold().replace("'", "").replace("’", "")


def _joined(raw: Sequence[Where], variants: Mapping[str, str], correct: Speller | None) -> Iterator[Where]:
    place = 0
    while place < len(raw):
        said, length = raw[place][0], 1
        two = f"{said} {raw[place + 1][0]}" if place + 1 < len(raw) else ""
        if two in variants:  # "centre board" before "centre"
            said, length = two, 2
        start, end = raw[place][1], raw[place + length - 1][2]
        place += length
        for word in _spelt(said, variants, correct):
            yield word, start, end


def _spelt(said: str, variants: Mapping[str, str], correct: Speller | None) -> Iterable[str]:
    if known := variants.get(said) or variants.get(said.removesuffix("s")):  # "centreplate's", "centre boards"
        return known.split()
    if correct is None or not said.isalpha():
        return (said,)
    return tuple(part for word in correct(said) for part in variants.get(word, word).split())


@per_knowledge
def _corrected(kb: KnowledgeBase) -> Speller:
    """What corrects the words of a text: it knows every word of the lexicon, in the spelling used here."""
    lexicon, speech = kb.lexicon, kb.lexicon.speech
    said = [text for zone in kb.zones.values() for text in (zone.name, zone.trade)]
    said += [sign.name for sign in kb.signs.values()]
    said += [phrase for zone in lexicon.zones.values() for phrase in zone.said]
    said += [phrase for sign in lexicon.signs.values() for phrase in sign.said]
    for ways in (speech.zones, speech.signs, *speech.complaints.values()):
        said += [phrase for phrases in ways.values() for phrase in phrases]
    for event in kb.happenings.events.values():
        said += (*event.said, *speech.events.get(event.id, ()), *chain.from_iterable(chain.from_iterable(event.told)))
    trade = frozenset(word for phrase in said for word in words_of(phrase, speech.variants))
    return Speller(trade, trade | _ordinary(kb), speech.spelling)


def _ordinary(kb: KnowledgeBase) -> frozenset[str]:
    """Words that are no slips: all that the knowledge itself is written in, and the lists by which it is heard."""
    written = [rule.because for rule in kb.all_rules]
    written += [step for check in kb.checks.values() for step in (*check.steps, check.care)]
    written += [text for sign in kb.signs.values() for text in (sign.picture, sign.not_this, sign.harmless)]
    written += [text for zone in kb.zones.values() for text in (zone.trouble, zone.how_passed, zone.reached)]
    speech = kb.lexicon.speech
    written += [phrase for said in vars(speech.scope).values() for phrase in said]
    written += [phrase for one in speech.sizing.measures.values() for phrase in one.words]
    written += [*kb.lexicon.ignored, *kb.purchase.spoken()]
    asking = (speech.questions, speech.question_words)
    for ways in (speech.passes, *asking, speech.sizing.countries, *speech.observations.values()):
        written += [phrase for said in ways.values() for phrase in said]
    written += [*speech.sizing.things, *speech.sizing.vessels, *speech.sizing.after_no_size]
    return frozenset(word for text in written for word in plain_words(text).split())
