"""Which answers to a question a sentence is likest, for somebody to choose from; the worst is taken where it is plain.

An answer is likest by its words, and by what words like them say at every question: "barely" is little of anything, and
"all over the shop" is as bad as it gets, whatever is asked. Only the worst level is ever taken by likeness, where no
other comes near: what would make it milder is always asked.
"""

from __future__ import annotations

import math
from collections import Counter, defaultdict
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from itertools import pairwise

from triage.knowledge.model import KnowledgeBase
from triage.knowledge.per_knowledge import per_knowledge
from triage.listening.likeness import Likeness, Said
from triage.listening.observing import Way, ways_of
from triage.listening.phrase_matcher import stem
from triage.listening.saying import small_words
from triage.listening.tokens import tokens_of, words_of

MOST_OFFERED = 3
"""Answers that are offered at once."""

_KNOWN = 0.5
"""The part of what is said that must stand in some way of answering: nine in ten answers have it, and one in six of
those to other questions.
"""

_AHEAD = 1.2
"""How far the worst level must be ahead to be taken: of the ways of answering, a fifth left out at a time, one in ten
is so taken, and one in sixty of these is wrong.
"""

_OF_ONE = 2
"""How often at most words count as said at one question: the words of its thing say nothing at another."""

_FEWEST, _USUAL = 2, 4.0
"""How often words must stand in ways of answering to say how bad it is, and how often they count as said evenly."""


@dataclass(frozen=True)
class _Answers:
    """The answers of a scale by every way of giving them, and the level of each."""

    known: Likeness
    levels: Mapping[str, int]


def likest(kb: KnowledgeBase, scale: str, text: str, answers: Mapping[str, str]) -> tuple[str, ...]:
    """Those of the answers (by what is recorded, the words they are chosen by) that the text is likest, likest first.

    Empty where it speaks of something else.
    """
    scores = _scores(kb, scale, text)
    near = sorted(scores.keys() & answers.keys(), key=lambda one: (-scores[one], one))
    return tuple(answers[one] for one in near[:MOST_OFFERED])


def plainly_worst(kb: KnowledgeBase, scale: str, text: str, answers: Mapping[str, str]) -> str | None:
    """That of the answers which is of the worst level and which the text is likest, where no other level comes near.

    Not where anything is denied or doubted: "not all over the shop" is much like what it denies.
    """
    if not (kb.lexicon.denials | kb.lexicon.doubts).isdisjoint(words_of(text, kb.lexicon.speech.variants)):
        return None
    scores, levels = _scores(kb, scale, text), _answers(kb, scale).levels
    of_worst = [one for one in scores if levels[one] == kb.scales[scale].top]
    others = max((score for one, score in scores.items() if one not in of_worst), default=0.0)
    best = max(of_worst, key=lambda one: (scores[one], one), default="")
    return best if best in answers and scores[best] - others >= _AHEAD else None


def _scores(kb: KnowledgeBase, scale: str, text: str) -> dict[str, float]:
    """How like each answer the text is; none where it speaks of something else."""
    answers, said = _answers(kb, scale), tokens_of(text, kb)
    idle = kb.lexicon.ignored | small_words(kb)
    telling = [token.stem for token in said if token.word not in idle]
    if not telling or sum(map(answers.known.knows, telling)) < _KNOWN * len(telling):
        return {}
    stems = [token.stem for token in said]
    like, how_bad = answers.known.scores([(one, 1.0) for one in stems]), _how_bad(kb, stems)
    return {
        one: like.get(one, 0.0) + how_bad[_end(level, kb.scales[scale].top)] for one, level in answers.levels.items()
    }


@per_knowledge
def _answers(kb: KnowledgeBase, scale: str) -> _Answers:
    """All words of a way count: "it gives a bit" is not "it gives"."""
    said: dict[str, list[Said]] = defaultdict(list)
    levels: dict[str, int] = {}
    for way in _said(kb, scale):
        said[way.answer].append((_stems(kb, way.phrase), 1.0))
        levels[way.answer] = way.level
    return _Answers(Likeness(said), levels)


def _how_bad(kb: KnowledgeBase, stems: Sequence[str]) -> list[float]:
    """How much the words speak for the best level of anything, for the worst, and for those between, each."""
    words, every = _words_of_levels(kb), sum(_levels_told(kb).values())
    found = [0.0, 0.0, 0.0]
    for one in dict.fromkeys(_with_neighbours(stems)):
        here = words.get(one, Counter())
        if (heard := sum(here.values())) >= _FEWEST:
            for end, told in _levels_told(kb).items():
                even = told / every
                found[end] += math.log((here.get(end, 0) + _USUAL * even) / (heard + _USUAL) / even)
    return [value / len(stems) for value in found]


@per_knowledge
def _words_of_levels(kb: KnowledgeBase) -> dict[str, Counter[int]]:
    """How often words, and neighbours, stand in ways of answering with the best level, the worst, and one between."""
    found: dict[str, Counter[int]] = defaultdict(Counter)
    for scale in kb.lexicon.speech.observations:
        here: dict[str, Counter[int]] = defaultdict(Counter)
        for end, phrase in _ways(kb, scale):
            for one in set(_with_neighbours(_stems(kb, phrase))):
                here[one][end] += 1
        for one, counts in here.items():
            for end, times in counts.items():
                found[one][end] += min(times, _OF_ONE)
    return found


@per_knowledge
def _levels_told(kb: KnowledgeBase) -> Counter[int]:
    return Counter(end for scale in kb.lexicon.speech.observations for end, _ in _ways(kb, scale))


def _ways(kb: KnowledgeBase, scale: str) -> Iterator[tuple[int, str]]:
    for way in _said(kb, scale):
        yield _end(way.level, kb.scales[scale].top), way.phrase


def _said(kb: KnowledgeBase, scale: str) -> list[Way]:
    """The ways of answering; of built ones with the same telling words one, or they outvote what people wrote."""
    ways = ways_of(kb, scale, at_question=True)
    built = {way.words: way for way in reversed(ways) if way.built}
    return [way for way in ways if not way.built or built[way.words] is way]


def _end(level: int, top: int) -> int:
    """0 for the best level, 1 for the worst, 2 for what lies between."""
    return 0 if level == 0 else 1 if level == top else 2


def _stems(kb: KnowledgeBase, phrase: str) -> list[str]:
    return [stem(word) for word in words_of(phrase, kb.lexicon.speech.variants)]


def _with_neighbours(stems: Sequence[str]) -> Iterator[str]:
    yield from stems
    yield from map(" ".join, pairwise(stems))
