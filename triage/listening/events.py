"""Resolving somebody's own words to what happened: "we hit a rock", "tightened it today"."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from itertools import chain

from triage.knowledge.model import KnowledgeBase
from triage.knowledge.per_knowledge import per_knowledge
from triage.listening.asides import force_told
from triage.listening.clauses import sentences
from triage.listening.phrase_matcher import plain_words
from triage.survey.model import Happened

_PART = re.compile(r"[,;.!?]|\bbut\b|\bthen\b")

Words = tuple[str, ...]


@dataclass(frozen=True)
class Heard:
    """The events in a sentence, and its words without them: there may be a mark in these."""

    events: tuple[Happened, ...]
    rest: str


def heard_events(text: str, kb: KnowledgeBase) -> Heard:
    """What the sentence tells of. What is denied or asked has not happened; of two readings the longer one counts."""
    told = kb.happenings
    if text.rstrip().endswith("?") or not told.asked.isdisjoint(plain_words(text).split()[:1]):
        return Heard((), text)
    found: set[str] = set()
    rest = []
    for part in _PART.split(text):
        words = plain_words(part).split()
        taken: set[int] = set()
        for event, phrase in _phrases(kb) if told.denied.isdisjoint(words) else ():
            for start in _places(phrase, words):
                places = range(start, start + len(phrase))
                if taken.isdisjoint(places):
                    taken.update(places)
                    found.add(event)
        rest.append(" ".join(word for place, word in enumerate(words) if place not in taken))
    force, ago = force_told(kb, chain.from_iterable(sentences(text, kb))), _told(text, told.ago)
    events = tuple(Happened(event, force=force, when=ago, said=text) for event in told.events if event in found)
    return Heard(events, ", ".join(part for part in rest if part) if events else text)


@per_knowledge
def _phrases(kb: KnowledgeBase) -> tuple[tuple[str, Words], ...]:
    """Every phrase with its event, the longest first."""
    said = [
        (event.id, tuple(plain_words(phrase).split()))
        for event in kb.happenings.events.values()
        for phrase in event.said
    ]
    return tuple(sorted(said, key=lambda one: -len(one[1])))


def _places(phrase: Words, words: list[str]) -> Iterator[int]:
    for start in range(len(words) - len(phrase) + 1):
        if tuple(words[start : start + len(phrase)]) == phrase:
            yield start


def _told(text: str, words: Mapping[str, tuple[str, ...]]) -> str:
    """Which of these the sentence says, by its longest phrase; empty where it says none."""
    plain = plain_words(text)
    said = [(len(phrase), key) for key, phrases in words.items() for phrase in phrases if plain_words(phrase) in plain]
    return max(said, default=(0, ""))[1]
