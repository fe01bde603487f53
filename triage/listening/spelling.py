"""Slips of the pen in words of the trade: "ruder", "centerbord", "gelcote". A word that exists is never touched."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Callable, Iterable, Mapping

SHORTEST, LONG = 5, 7
"""Letters: shorter words are not guessed at; from the second on a word may be off by two slips."""

Speller = Callable[[str], tuple[str, ...]]


def speller(trade: Iterable[str], ordinary: frozenset[str], slips: Mapping[str, str]) -> Speller:
    """What turns a word into the one that was meant, or into two that were run together.

    ``slips`` are real words that owners write for words of the trade; ``ordinary`` words stand as they are. A word is
    found by what is left of it when letters are taken out, of the word and of those that are known, so that a guess
    takes some hundred look-ups however many words there are.
    """
    known = frozenset(trade)
    every = known | ordinary
    near: dict[str, set[str]] = defaultdict(set)
    for word in known:
        if len(word) >= SHORTEST - 1 and word.isalpha():
            for left in _without(word, 2 if len(word) >= LONG else 1):
                near[left].add(word)
    heard: dict[str, tuple[str, ...]] = {}

    def corrected(word: str) -> tuple[str, ...]:
        if word in slips:
            return (slips[word],)
        if word in every or len(word) < SHORTEST or _is_inflected(word, every):
            return (word,)
        if word not in heard:
            if len(heard) > 10_000:  # a long text cannot fill the memory
                heard.clear()
            heard[word] = _guess(word, near, known)
        return heard[word]

    return corrected


def _is_inflected(word: str, every: frozenset[str]) -> bool:
    for ending in ("s", "es", "ed", "d", "ing", "ly", "y", "er", "r"):
        root = word.removesuffix(ending)
        if root != word and len(root) > 2 and not every.isdisjoint((root, f"{root}e", root[:-1])):
            return True
    return False


def _guess(word: str, near: Mapping[str, set[str]], known: frozenset[str]) -> tuple[str, ...]:
    most = 2 if len(word) >= LONG else 1
    found: list[tuple[int, int, str]] = []
    for candidate in {one for left in _without(word, most) for one in near.get(left, ())}:
        slips = distance(word, candidate, most)
        if slips <= most and word[0] == candidate[0] and (slips == 1 or len(candidate) >= LONG - 1):
            found.append((slips, abs(len(word) - len(candidate)), candidate))
    if found:
        return (min(found)[2],)
    for cut in range(4, len(word) - 3):
        if word[:cut] in known and word[cut:] in known:
            return word[:cut], word[cut:]
    return (word,)


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
