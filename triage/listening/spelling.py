"""Slips of the pen in words of the trade: "ruder", "centerbord", "gelcote". A word that exists is never touched."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Mapping
from dataclasses import dataclass, field

SHORTEST, LONG = 5, 7
"""Letters: shorter words are not guessed at; from the second on a word may be off by two slips."""


@dataclass(frozen=True)
class Speller:
    """Turns a word into the one that was meant, or into two that were run together.

    ``slips`` are real words that owners write for words of the ``trade``; words in ``every`` stand as they are. A word
    is found by what is left of it when letters are taken out, of the word and of those that are known, so that a guess
    takes some hundred look-ups however many words there are. Nobody gets the first letter wrong.
    """

    trade: frozenset[str]
    every: frozenset[str]
    slips: Mapping[str, str]
    _near: dict[str, dict[str, set[str]]] = field(default_factory=dict, compare=False)
    """By first letter, once such a word was asked for: what is left of words, and of which."""
    _heard: dict[str, tuple[str, ...]] = field(default_factory=dict, compare=False)

    def __call__(self, word: str) -> tuple[str, ...]:
        """The words that were meant."""
        if word in self.slips:
            return (self.slips[word],)
        if word in self.every or len(word) < SHORTEST or _is_inflected(word, self.every):
            return (word,)
        if word not in self._heard:
            if len(self._heard) > 10_000:  # a long text cannot fill the memory
                self._heard.clear()
            self._heard[word] = self._guess(word)
        return self._heard[word]

    def _guess(self, word: str) -> tuple[str, ...]:
        near, most = self._near_with(word[0]), _most(word)
        found: list[tuple[int, int, str]] = []
        for candidate in {one for left in _without(word, most) for one in near.get(left, ())}:
            slips = distance(word, candidate, most)
            if slips <= most and (slips == 1 or len(candidate) >= LONG - 1):
                found.append((slips, abs(len(word) - len(candidate)), candidate))
        if found:
            return (min(found)[2],)
        for cut in range(4, len(word) - 3):
            if word[:cut] in self.trade and word[cut:] in self.trade:
                return word[:cut], word[cut:]
        return (word,)

    def _near_with(self, letter: str) -> Mapping[str, set[str]]:
        if letter not in self._near:
            near: dict[str, set[str]] = defaultdict(set)
            for word in self.trade:
                if word[0] == letter and len(word) >= SHORTEST - 1 and word.isalpha():
                    for left in _without(word, _most(word)):
                        near[left].add(word)
            self._near[letter] = dict(near)
        return self._near[letter]


def _most(word: str) -> int:
    """How many slips a word is allowed."""
    return 2 if len(word) >= LONG else 1


def _is_inflected(word: str, every: frozenset[str]) -> bool:
    for ending in ("s", "es", "ed", "d", "ing", "ly", "y", "er", "r"):
        root = word.removesuffix(ending)
        if root != word and len(root) > 2 and not every.isdisjoint((root, f"{root}e", root[:-1])):
            return True
    return False


def _without(word: str, most: int) -> set[str]:
    """The word, and all that is left of it with up to so many letters taken out."""
    every, last = {word}, {word}
    for _ in range(most):
        last = {one[:place] + one[place + 1 :] for one in last for place in range(len(one))}
        every |= last
    return every


def distance(one: str, other: str, most: int) -> int:
    """How many letters are wrong, missing, too many or swapped with their neighbour; more than ``most`` is any more."""
    if abs(len(one) - len(other)) > most:
        return most + 1
    before: list[int] = []
    row = list(range(len(other) + 1))
    for place, letter in enumerate(one, start=1):
        before, last, row = row, before, [place]
        for column, wanted in enumerate(other, start=1):
            cost = min(before[column] + 1, row[-1] + 1, before[column - 1] + (letter != wanted))
            if place > 1 and column > 1 and letter == other[column - 2] and one[place - 2] == wanted:
                cost = min(cost, last[column - 2] + 1)
            row.append(cost)
    return row[-1]
