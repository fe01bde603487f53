"""The features by which phrases are found: words, the pieces of which longer ones are made, and their neighbours.

What is worked out of some ten thousand phrases travels with the page, so both tables are kept as what packs well:
names as one text, and numbers by their bytes, all first ones, then all second ones.
"""

from __future__ import annotations

from array import array
from collections.abc import Iterable, Mapping, Sequence
from functools import lru_cache
from itertools import accumulate, chain, pairwise
from sys import byteorder, intern

_GRAM, _GRAMS = 4, 0.25
"""Letters of the pieces by which words alike are found, and what they weigh beside the word itself."""

_PIECE = "~"
"""What a piece ends in, and no word."""

_PAIR = 0.75
"""What two words that follow one another weigh beside either."""


class Numbered(dict[str, int]):
    """Features in the order in which they were met, each with its number."""

    def number(self, feature: str) -> int:
        """Of one that may be new."""
        return self.setdefault(feature, len(self))

    def __reduce__(self) -> tuple[object, tuple[str]]:
        return _numbered, ("\n".join(self),)


class Rows:
    """A row of numbers for each place, one behind another in one array."""

    def __init__(self, lengths: Iterable[int], numbers: Iterable[int]) -> None:
        self._starts = array("I", accumulate(lengths, initial=0))
        self._numbers = array("I", numbers)

    def __getitem__(self, place: int) -> Sequence[int]:
        return self._numbers[self._starts[place] : self._starts[place + 1]]

    def __len__(self) -> int:
        return len(self._starts) - 1

    def __reduce__(self) -> tuple[object, tuple[bytes, bytes]]:
        lengths = array("I", (end - start for start, end in pairwise(self._starts)))
        return _rows, (_by_bytes(lengths), _by_bytes(self._numbers))


def asked_of(stems: Sequence[tuple[str, float]]) -> dict[str, float]:
    """The features of some words, with what each counts."""
    found: dict[str, float] = {}
    for stem, weight in stems:
        word, *pieces = _spelt(stem)
        found[word] = max(weight, found.get(word, 0.0))
        for piece in pieces:
            found[piece] = max(_GRAMS * weight, found.get(piece, 0.0))
    for (one, first), (other, second) in pairwise(stems):
        found[f"{one} {other}"] = _PAIR * min(first, second)
    return found


def features(stems: Sequence[str]) -> Mapping[str, None]:
    """Those of a phrase; each is kept once."""
    every = (*chain.from_iterable(map(_spelt, stems)), *map("{} {}".format, stems, stems[1:]))
    return dict.fromkeys(map(intern, every))


def weight_of(feature: str) -> float:
    """What a feature counts in a phrase, of which every word counts whole."""
    return _GRAMS if feature.endswith(_PIECE) else _PAIR if " " in feature else 1.0


@lru_cache(maxsize=10_000)
def _spelt(stem: str) -> tuple[str, ...]:
    """A word and its pieces."""
    if len(stem) <= _GRAM:
        return (stem,)
    padded = f"<{stem}>"
    return (stem, *(f"{padded[start : start + _GRAM]}{_PIECE}" for start in range(len(padded) - _GRAM + 1)))


def _numbered(names: str) -> Numbered:
    every = names.split("\n") if names else []
    return Numbered(zip(map(intern, every), range(len(every)), strict=True))


def _rows(lengths: bytes, numbers: bytes) -> Rows:
    return Rows(_from_bytes(lengths), _from_bytes(numbers))


def _by_bytes(numbers: array[int]) -> bytes:
    told = array("I", numbers)
    if byteorder == "big":
        told.byteswap()
    return b"".join(told.tobytes()[place :: told.itemsize] for place in range(told.itemsize))


def _from_bytes(kept: bytes) -> array[int]:
    told = array("I")
    mixed, size = bytearray(len(kept)), len(kept) // told.itemsize
    for place in range(told.itemsize):
        mixed[place :: told.itemsize] = kept[place * size : (place + 1) * size]
    told.frombytes(mixed)
    if byteorder == "big":
        told.byteswap()
    return told
