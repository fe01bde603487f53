"""How much some words speak for each of many things: by all words of the thing (BM25), and by its nearest phrase.

Both are sums over words, so that what made an answer can be shown. BM25 finds the thing whose vocabulary a sentence
uses; the nearest phrase finds the one thing that people say in just this way.
"""

from __future__ import annotations

import math
from array import array
from collections import Counter, defaultdict
from collections.abc import Iterable, Mapping, Sequence
from heapq import nlargest
from itertools import chain

from triage.listening.features import Numbered, Rows, asked_of, features, weight_of

Said = tuple[Sequence[str], float]
"""A phrase as a row of stems, and what it counts."""

_LIFT, _LENGTH = 1.2, 0.4
"""BM25: how soon a word that stands in many phrases counts no more, and how much a long list is held against it."""

_COMMON = 0.45
"""What a word counts that says little alone."""

_LITTLE = 20.0
"""Words that are little to have been said of a thing."""

_SELDOM = 3.0
"""How often a word counts as said beside what was heard, so that one heard once tells no more than it should."""

_FURTHER = 0.15
"""What each of the next phrases adds to the nearest one."""


class Likeness:
    """Things with their phrases; a phrase is a row of stems, and may count for less than others."""

    def __init__(
        self, phrases: Mapping[str, Sequence[Said]], common: Iterable[str] = (), places: Numbered | None = None
    ) -> None:
        """``common`` words say little wherever they stand, and less for each time that they are named.

        ``places`` numbers the features for several of these at once.
        """
        self.names = list(phrases)
        every = [(owner, *one) for owner, said in enumerate(phrases.values()) for one in said if one[0]]
        self._phrases = [(owner, weight) for owner, _, weight in every]
        self._common = Counter(common)
        self._places = Numbered() if places is None else places
        seen = [features(stems) for _, stems, _ in every]
        having: dict[str, list[int]] = {}
        for number, some in enumerate(seen):
            for one in some:
                having.setdefault(one, []).append(number)
        for one in having:
            self._places.number(one)
        rows = [having.get(one, []) for one in self._places]
        self._rows = Rows(map(len, rows), chain.from_iterable(rows))
        """The phrases that have each feature."""
        weights = {one: self._weight(one) for one in having}
        squares = {one: weight * weight for one, weight in weights.items()}
        self._long = array("f", (math.sqrt(sum(map(squares.__getitem__, some))) or 1.0 for some in seen))
        self._times = self._counted(every)
        self._total = self._lengths()
        mean = (sum(self._total) / len(self._total) if self._total else 1.0) or 1.0
        self._told = [_LIFT * (1 - _LENGTH + _LENGTH * one / mean) for one in self._total]
        """How BM25 holds against each thing by how many words it is told of."""

    def _having(self, feature: str) -> Sequence[int]:
        place = self._places.get(feature, len(self._rows))
        return self._rows[place] if place < len(self._rows) else ()

    def _rare(self, feature: str) -> float:
        rare = math.log(1 + len(self._phrases) / len(self._having(feature)))
        return float(rare * _COMMON ** self._common[feature])

    def _weight(self, feature: str) -> float:
        return weight_of(feature) * self._rare(feature)

    def _counted(self, every: Iterable[tuple[int, Sequence[str], float]]) -> dict[str, dict[int, float]]:
        """How often the phrases of each thing have a word."""
        table: dict[str, dict[int, float]] = {}
        for owner, stems, weight in every:
            for one in stems:
                counts = table.setdefault(one, {})
                counts[owner] = counts.get(owner, 0.0) + weight
        return table

    def _lengths(self) -> list[float]:
        """By how many words each thing is told of."""
        total = [0.0] * len(self.names)
        for counts in self._times.values():
            for owner, times in counts.items():
                total[owner] += times
        return total

    def _telling(self, owners: int) -> float:
        """What a word tells that so many things have."""
        return math.log(1 + (len(self.names) - owners + 0.5) / (owners + 0.5))

    def scores(self, stems: Sequence[tuple[str, float]]) -> dict[str, float]:
        """How much the words, each with what it counts, speak for each thing; those never met are left out."""
        asked = asked_of(stems)
        near, words = self._near(asked), self._words(stems)
        met = sorted(near.keys() | words.keys())
        return {self.names[owner]: near.get(owner, 0.0) + words.get(owner, 0.0) for owner in met}

    def _near(self, asked: Mapping[str, float]) -> dict[int, float]:
        weighed = {one: value * self._rare(one) for one, value in asked.items() if self._having(one)}
        long = math.sqrt(sum(value * value for value in weighed.values())) or 1.0
        alike: dict[int, float] = defaultdict(float)
        for one, value in weighed.items():
            weight = self._weight(one)
            for number in self._having(one):
                alike[number] += value * (weight / self._long[number])
        best: dict[int, list[float]] = defaultdict(list)
        for number, value in alike.items():
            owner, weight = self._phrases[number]
            best[owner].append(weight * value / long)
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
            if counts := self._times.get(stem):
                worth = self._telling(len(counts)) * weight * (_LIFT + 1)
                most += worth
                for owner, times in counts.items():
                    found[owner] += worth * times / (times + self._told[owner])
        return {owner: value / most for owner, value in found.items()} if most else {}

    def often(self, stem: str) -> float:
        """How large a part of all words the word is."""
        heard = sum(self._times.get(stem, {}).values())
        return (heard + _SELDOM) / (sum(self._total) or 1.0) if heard else 0.0

    def shares(self, stem: str, usual: float) -> list[float]:
        """How large a part of the words of each thing in its order the word is, in terms of the ``usual`` part.

        The less is said of a thing, the nearer to the usual one.
        """
        found = [_LITTLE / (total + _LITTLE) for total in self._total]
        for owner, times in self._times.get(stem, {}).items():
            found[owner] += times / usual / (self._total[owner] + _LITTLE)
        return found

    def knows(self, stem: str) -> bool:
        """Whether any phrase has the word."""
        return stem in self._times
