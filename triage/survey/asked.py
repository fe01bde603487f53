"""What somebody wants to know of a survey, in words: which of the known questions these are."""

from __future__ import annotations

import re

from triage.knowledge.model import KnowledgeBase
from triage.knowledge.per_knowledge import per_knowledge


def asked_about(kb: KnowledgeBase, words: str) -> tuple[str, ...]:
    """The questions in the order in which they are asked; of two readings of the same words the longer one counts."""
    said = _plain(words)
    taken: list[tuple[int, str]] = []
    for phrase, question in _phrases(kb):
        if (at := said.find(phrase)) >= 0:
            taken.append((at, question))
            said = said.replace(phrase, f" {'#' * (len(phrase) - 2)} ")
    return tuple(dict.fromkeys(question for _, question in sorted(taken)))


@per_knowledge
def _phrases(kb: KnowledgeBase) -> list[tuple[str, str]]:
    """Every way of asking with its question, the longest first."""
    ways = (kb.lexicon.speech.questions, kb.lexicon.asking)
    every = {(_plain(way), name) for one in ways for name, said in one.items() for way in said}
    return sorted(every, key=lambda one: (-len(one[0]), one))


def _plain(text: str) -> str:
    return f" {' '.join(re.findall('[a-z0-9]+', text.casefold().replace('’', '').replace(chr(39), '')))} "
