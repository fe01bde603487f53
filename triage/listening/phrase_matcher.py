"""Comparing a sentence with many phrases, word by word and allowing for misspelling."""

from __future__ import annotations

import math
import re
from collections import Counter
from collections.abc import Iterable, Mapping
from functools import cache
from itertools import pairwise
from typing import Any

from triage.knowledge.model.lexicon import Lexicon

ALIKE = 80
"""How alike two words must be (of 100, as rapidfuzz counts) for one to be the other misspelt."""

SHORTEST_MISSPELT = 4
"""Letters. Shorter words differ too little from each other to guess at."""

ALSO = 0.1
"""What a further phrase of the same thing adds to the best one."""

ASIDE = 0.7
"""How much a word counts that only tells where the place lies ("below the mast")."""

Phrases = Mapping[str, Iterable[str]]
Stems = tuple[str, ...]


def plain_words(text: str) -> str:
    """The words of a text in small letters, with one space before, between and after them."""
    return f" {' '.join(re.findall(r'[a-z0-9]+', text.casefold().replace('’', '').replace(chr(39), '')))} "


@cache
def stem(word: str) -> str:
    """The word without its endings, so that "leaks", "leaking" and "leaky" are one.

    Snowball's English stemmer, which turns the last letter of "leaky" into an i; here it goes as well.
    """
    root: str = _stemmer().stemWord(word)
    return root[:-1] if len(root) > SHORTEST_MISSPELT and root.endswith("i") else root


@cache
def _stemmer() -> Any:
    from snowballstemmer.english_stemmer import EnglishStemmer

    return EnglishStemmer()


class PhraseMatcher:
    """Phrases by what they stand for; rare words count for more than common ones."""

    def __init__(self, phrases: Phrases, others: Phrases, lexicon: Lexicon) -> None:
        """``others`` are phrases matched beside these: a word that stands in many of them says less here."""
        self.lexicon = lexicon
        self.small_talk = sorted((phrase for phrase in lexicon.ignored if " " in phrase), key=lambda p: (-len(p), p))
        self.phrases = {id_: self._stems(said) for id_, said in phrases.items()}
        beside = {id_: self._stems(said) for id_, said in others.items()}
        here, there = self._frequency(self.phrases), self._frequency(beside)
        self.weights = {word: math.log(1 + len(phrases) / (count + there[word])) for word, count in here.items()}
        self.own = here.keys() - there.keys()
        self.known = {*here, *there}
        ways = [way for said in (*self.phrases.values(), *beside.values()) for way in said]
        self.joined = {first + second: (first, second) for way in ways for first, second in pairwise(way)}
        every = (phrase for said in (*phrases.values(), *others.values()) for phrase in said)
        spelt = {word for phrase in every for word in plain_words(phrase).split() if word not in lexicon.ignored}
        self.spellings = sorted(spelt | self.joined.keys())  # in order, so that of two alike the same is always taken

    def _stems(self, phrases: Iterable[str]) -> list[Stems]:
        """Each phrase as its words without the small ones; a word stands once."""
        ways = (tuple(dict.fromkeys(stem(word) for word, _ in self._content(phrase))) for phrase in phrases)
        return list(dict.fromkeys(way for way in ways if way))

    @staticmethod
    def _frequency(phrases: Mapping[str, list[Stems]]) -> Counter[str]:
        """In the phrases of how many things each word stands."""
        return Counter(word for said in phrases.values() for word in {word for way in said for word in way})

    def _content(self, text: str) -> list[tuple[str, float]]:
        """The words of a text that say something, and how much each counts."""
        words = plain_words(text)
        for phrase in self.small_talk:
            words = words.replace(f" {phrase} ", " ")
        found, count = [], 1.0
        for word in words.split():
            if word in self.lexicon.asides:
                count = ASIDE
            if word not in self.lexicon.ignored:
                found.append((word, count))
        return found

    def weigh(self, text: str) -> dict[str, float]:
        """How much the sentence speaks for each thing; those it does not speak for at all are left out."""
        return self._weighed(self._matched(text))

    def weigh_stems(self, stems: Iterable[tuple[str, float]]) -> dict[str, float]:
        """The same for words that are stems in their right spelling already, each with what it counts."""
        matched: dict[str, float] = {}
        for one, count in stems:
            for known in (one, *self.joined.get(one, ())):
                if known in self.known:
                    matched[known] = max(count, matched.get(known, 0.0))
        return self._weighed(matched)

    def _weighed(self, matched: Mapping[str, float]) -> dict[str, float]:
        found = {}
        for id_, ways in self.phrases.items():
            evidence = sorted((self._evidence(way, matched) for way in ways), reverse=True)
            if evidence and evidence[0]:
                found[id_] = evidence[0] + ALSO * sum(evidence[1:4])
        return found

    def _evidence(self, way: Stems, matched: Mapping[str, float]) -> float:
        """The weight of what was matched of a phrase, the less of it was matched the less in proportion.

        Nothing, when all that was matched of it are words that belong to the other kind as well: the mast alone does
        not speak for "water in the mast" while "water" is of this kind alone.
        """
        own = [word for word in way if word in self.own]
        if own and not any(word in matched for word in own):
            return 0.0
        whole = sum(self.weights[word] for word in way)
        part = sum(self.weights[word] * matched.get(word, 0.0) for word in way)
        return float(part * (part / whole) ** 2)

    def _matched(self, text: str) -> dict[str, float]:
        """The known words of the sentence and how much each counts, from 0 to 1."""
        words = self._without_denials(self._content(text))
        matched: dict[str, float] = {}
        for word, count in words:
            for known, sure in self._as_known(word):
                matched[known] = max(sure * count, matched.get(known, 0.0))
        for (first, count), (second, _) in pairwise(words):
            if (both := stem(first + second)) in self.known:
                matched[both] = count
        return matched

    def _without_denials(self, words: list[tuple[str, float]]) -> list[tuple[str, float]]:
        """The words without denials and what they deny, unless the denial belongs to a phrase ("no receipt")."""
        denied: set[int] = set()
        for place, ((before, _), (word, _)) in enumerate(pairwise(words)):
            if before in self.lexicon.denials and before + stem(word) not in self.joined:
                denied |= {place, place + 1}
        return [word for place, word in enumerate(words) if place not in denied]

    def _as_known(self, word: str) -> list[tuple[str, float]]:
        """The known words that a word stands for: itself, two that were written as one, or the one it is nearest to."""
        root = stem(word)
        found = [(root, 1.0)] if root in self.known else []
        found.extend((part, 1.0) for part in self.joined.get(root, ()))
        if found or len(word) < SHORTEST_MISSPELT:
            return found
        from rapidfuzz import fuzz, process

        near = process.extractOne(word, self.spellings, scorer=fuzz.ratio, score_cutoff=ALIKE)
        if near is None:
            return []
        return [(part, (near[1] / 100) ** 2) for part in self.joined.get(near[0], (stem(near[0]),))]
