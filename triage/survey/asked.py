"""What somebody wants to know of a survey, in words: which of the known questions these are."""

from __future__ import annotations

import re
from collections.abc import Sequence

from triage.knowledge.model import KnowledgeBase
from triage.knowledge.per_knowledge import per_knowledge


def asked_about(kb: KnowledgeBase, words: str) -> tuple[str, ...]:
    """The questions in the order in which they are asked; of two readings of the same words the longer one counts.

    A part between semicolons that asks in no known words is about what most of its words hint at.
    """
    every = (one for part in words.split(";") for one in _phrased(kb, part) or [hinted(kb, _plain(part).split())])
    return tuple(dict.fromkeys(filter(None, every)))


def hinted(kb: KnowledgeBase, words: Sequence[str]) -> str:
    """The question at which most of the words hint, of as many the first named; empty where none does."""
    speech = kb.lexicon.speech
    counts = {name: sum(one in said for one in words) for name, said in speech.question_words.items()}
    if most := max(counts.values(), default=0):
        return next(name for name, count in counts.items() if count == most)
    return next((name for name, said in speech.question_begins.items() if words[:1] and words[0] in said), "")


def _phrased(kb: KnowledgeBase, words: str) -> list[str]:
    said = _plain(words)
    taken: list[tuple[int, str]] = []
    for phrase, question in _phrases(kb):
        if (at := said.find(phrase)) >= 0:
            taken.append((at, question))
            said = said.replace(phrase, f" {'#' * (len(phrase) - 2)} ")
    return [question for _, question in sorted(taken)]


@per_knowledge
def _phrases(kb: KnowledgeBase) -> list[tuple[str, str]]:
    """Every way of asking with its question, the longest first."""
    ways = (kb.lexicon.speech.questions, kb.lexicon.asking)
    every = {(_plain(way), name) for one in ways for name, said in one.items() for way in said}
    return sorted(every, key=lambda one: (-len(one[0]), one))


def _plain(text: str) -> str:
    return f" {' '.join(re.findall('[a-z0-9]+', text.casefold().replace('’', '').replace(chr(39), '')))} "
