"""What people call things: the words that lead from somebody's own sentence to a place, a mark and a size."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field


@dataclass(frozen=True)
class PlaceWords:
    """What a place is called, and the place as a picture in words."""

    picture: str
    said: tuple[str, ...]


@dataclass(frozen=True)
class MarkWords:
    """What a mark is called, and the zones in which such words most often mean this mark."""

    said: tuple[str, ...]
    usual_in: frozenset[str]


@dataclass(frozen=True)
class SizeUse:
    """When a size is a reading of a scale: with one of these words in the sentence, or with nothing else said."""

    beside: tuple[str, ...]
    alone: bool


@dataclass(frozen=True)
class Words:
    """All of them. ``ignored`` words say nothing; a word after a denial ("no cracks") is not heard, and words
    after one of ``asides`` ("below the mast") count for less.

    ``taken_as`` turns a size without a ruler ("hand") into a quantity ("100 mm"), as an estimate.

    ``asking`` holds, by outcome, how people ask for it; ``could_not_tell``, how they say that they do not know.
    """

    zones: Mapping[str, PlaceWords] = field(default_factory=dict)
    signs: Mapping[str, MarkWords] = field(default_factory=dict)
    ignored: frozenset[str] = frozenset()
    denials: frozenset[str] = frozenset()
    asides: frozenset[str] = frozenset()
    sides: Mapping[str, tuple[str, ...]] = field(default_factory=dict)
    taken_as: Mapping[str, str] = field(default_factory=dict)
    readings: Mapping[str, SizeUse] = field(default_factory=dict)
    asking: Mapping[str, tuple[str, ...]] = field(default_factory=dict)
    could_not_tell: tuple[str, ...] = ()
