"""How much some words speak for each of many things: by all words of the thing (BM25), and by its nearest phrase.

Both are sums over words, so that what made an answer can be shown. BM25 finds the thing whose vocabulary a sentence
uses; the nearest phrase finds the one thing that people say in just this way.
"""

from __future__ import annotations

import math
from collections import Counter, defaultdict
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from heapq import nlargest

Features = Mapping[str, float]
Said = tuple[Sequence[str], float]
"""A phrase as a row of stems, and what it counts."""

_LIFT, _LENGTH = 1.2, 0.4
"""BM25: how soon a word that stands in many phrases counts no more, and how much a long list is held against it."""

_GRAM, _GRAMS = 4, 0.25
"""Letters of the pieces by which words alike are found, and what they weigh beside the word itself."""

_PAIR = 0.75
"""What two words that follow one another weigh beside either."""

_COMMON = 0.45
"""What a word counts that says little alone."""

_FURTHER = 0.15
"""What each of the next phrases adds to the nearest one."""


@dataclass(frozen=True)
class _Phrase:
    owner: int
    weight: float


class Likeness:
    """Things with their phrases; a phrase is a row of stems, and may count for less than others."""

    def __init__(self, phrases: Mapping[str, Sequence[Said]], common: Iterable[str] = ()) -> None:
        """``common`` words say little wherever they stand."""
        self.names = list(phrases)
        every = [(owner, *one) for owner, said in enumerate(phrases.values()) for one in said if one[0]]
        self._count = [_Phrase(owner, weight) for owner, _, weight in every]
        seen = [features(stems) for _, stems, _ in every]
        spread = Counter(one for some in seen for one in some)
        self._rare = {one: math.log(1 + len(seen) / count) for one, count in spread.items()}
        for stem in common:  # says nothing alone
            self._rare[stem] = self._rare.get(stem, 0.0) * _COMMON
        self._nearest: dict[str, list[tuple[int, float]]] = defaultdict(list)
        for number, some in enumerate(seen):
            weighed = {one: count * self._rare[one] for one, count in some.items()}
            long = math.sqrt(sum(value * value for value in weighed.values())) or 1.0
            for one, value in weighed.items():
                self._nearest[one].append((number, value / long))
        self._of_words = self._bm25([(owner, stems, weight) for owner, stems, weight in every])

    def _bm25(self, every: Sequence[tuple[int, Sequence[str], float]]) -> dict[str, list[tuple[int, float]]]:
        counts: list[dict[str, float]] = [defaultdict(float) for _ in self.names]
        for owner, stems, weight in every:
            for one in stems:
                counts[owner][one] += weight
        total = [sum(count.values()) for count in counts]
        mean = (sum(total) / len(total) if total else 1.0) or 1.0
        owners = Counter(one for count in counts for one in count)
        self._telling = {one: math.log(1 + (len(self.names) - n + 0.5) / (n + 0.5)) for one, n in owners.items()}
        table: dict[str, list[tuple[int, float]]] = defaultdict(list)
        for owner, count in enumerate(counts):
            for one, times in count.items():
                damped = times * (_LIFT + 1) / (times + _LIFT * (1 - _LENGTH + _LENGTH * total[owner] / mean))
                table[one].append((owner, self._telling[one] * damped))
        return table

    def scores(self, stems: Sequence[tuple[str, float]]) -> dict[str, float]:
        """How much the words, each with what it counts, speak for each thing; those never met are left out."""
        asked = features([stem for stem, _ in stems], [weight for _, weight in stems])
        near, words = self._near(asked), self._words(stems)
        met = sorted(near.keys() | words.keys())
        return {self.names[owner]: near.get(owner, 0.0) + words.get(owner, 0.0) for owner in met}

    def _near(self, asked: Features) -> dict[int, float]:
        weighed = {one: value * self._rare[one] for one, value in asked.items() if one in self._rare}
        long = math.sqrt(sum(value * value for value in weighed.values())) or 1.0
        alike: dict[int, float] = defaultdict(float)
        for one, value in weighed.items():
            for number, share in self._nearest.get(one, ()):
                alike[number] += value * share
        best: dict[int, list[float]] = defaultdict(list)
        for number, value in alike.items():
            phrase = self._count[number]
            best[phrase.owner].append(phrase.weight * value / long)
        found = {}
        for owner, values in best.items():
            first, *others = nlargest(4, values)
            found[owner] = first + _FURTHER * sum(others)
        return found

    def _words(self, stems: Sequence[tuple[str, float]]) -> dict[int, float]:
        """As a part of what a thing that knows every word would have."""
        found: dict[int, float] = defaultdict(float)
        most = 0.0
        for stem, weight in dict(stems).items():
            if stem in self._of_words:
                most += self._telling[stem] * weight * (_LIFT + 1)
                for owner, value in self._of_words[stem]:
                    found[owner] += value * weight
        return {owner: value / most for owner, value in found.items()} if most else {}

    def knows(self, stem: str) -> bool:
        """Whether any phrase has the word."""
        return stem in self._of_words


def features(stems: Sequence[str], weights: Sequence[float] = ()) -> dict[str, float]:
    """Words, their neighbours, and the pieces of which longer words are made."""
    weights = weights or [1.0] * len(stems)
    found: dict[str, float] = {}
    for stem, weight in zip(stems, weights, strict=True):
        found[stem] = max(weight, found.get(stem, 0.0))
        if len(stem) > _GRAM:
            padded = f"<{stem}>"
            for start in range(len(padded) - _GRAM + 1):
                piece = padded[start : start + _GRAM] + "~"
                found[piece] = max(_GRAMS * weight, found.get(piece, 0.0))
    for (one, first), (other, second) in zip(
        zip(stems, weights, strict=True), list(zip(stems, weights, strict=True))[1:], strict=False
    ):
        found[f"{one} {other}"] = _PAIR * min(first, second)
    return found
