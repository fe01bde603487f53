"""Which answers to a question a sentence is likest, for somebody to choose from: nothing is taken of it unasked."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Mapping

from triage.knowledge.model import KnowledgeBase
from triage.knowledge.per_knowledge import per_knowledge
from triage.listening.likeness import Likeness, Said
from triage.listening.observing import ways_of
from triage.listening.phrase_matcher import stem
from triage.listening.saying import small_words
from triage.listening.tokens import tokens_of, words_of

MOST_OFFERED = 3
"""Answers that are offered at once."""

_KNOWN = 0.5
"""The part of what is said that must stand in some way of answering: nine in ten answers have it, and one in six of
those to other questions.
"""


def likest(kb: KnowledgeBase, scale: str, text: str, answers: Mapping[str, str]) -> tuple[str, ...]:
    """Those of the answers (by what is recorded, the words they are chosen by) that the text is likest, likest first.

    Empty where it speaks of something else.
    """
    known, said = _answers(kb, scale), tokens_of(text, kb)
    idle = kb.lexicon.ignored | small_words(kb)
    telling = [token.stem for token in said if token.word not in idle]
    if not telling or sum(map(known.knows, telling)) < _KNOWN * len(telling):
        return ()
    scores = known.scores([(token.stem, 1.0) for token in said])
    near = sorted(scores.keys() & answers.keys(), key=lambda one: (-scores[one], one))
    return tuple(answers[one] for one in near[:MOST_OFFERED])


@per_knowledge
def _answers(kb: KnowledgeBase, scale: str) -> Likeness:
    """Each answer by every way of giving it, of which all words count: "it gives a bit" is not "it gives"."""
    said: dict[str, list[Said]] = defaultdict(list)
    for way in ways_of(kb, scale, at_question=True):
        words = words_of(way.phrase, kb.lexicon.speech.variants)
        said[way.answer].append(([stem(word) for word in words], 1.0))
    return Likeness(said)
