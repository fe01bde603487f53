"""Other ways in which people have a reading: two quantities that make one, and how many there are."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Literal

PairKind = Literal["angle", "bend", "part", "added", "excess", "oval", "across", "rate", "arc", "left"]
"""What two quantities are to each other: an offset at the end of an arm, or over a length; a part of a whole; what came
on top of it; more here than there; long and short; two ways across,
of which the longer counts; a quantity in a time; a gap under a straightedge of another length;
what is left of the ``standard``."""


@dataclass(frozen=True)
class Pair:
    """Two quantities that make one in the scale's unit, both said in ``unit`` (of a rate: in those of the scale).

    ``say`` is an example of it. ``standard`` is the length (or head) that the scale's own figures are for.
    """

    kind: PairKind
    say: str
    unit: str = ""
    standard: float | None = None


@dataclass(frozen=True)
class Count:
    """How many of how many fail: ``limits[n - 1]`` of them make level n, and so does ``share[n - 1]`` percent of all.

    ``words`` say that one fails. One that only takes some of a turn is at the levels without a limit: so it is up to
    ``turn`` of one; beyond that it may as well have failed.
    """

    say: str
    words: tuple[str, ...]
    limits: tuple[float | None, ...]
    share: tuple[float | None, ...]
    turn: float


@dataclass(frozen=True)
class Crowd:
    """How many there are to the square metre, beside how large the largest is: ``limits[n - 1]`` make level n.

    They count from the first level on that the size reaches. ``words`` are what they are called. Of a limit in ``over``
    the level begins just above it.
    """

    say: str
    words: tuple[str, ...]
    limits: tuple[float | None, ...]
    over: frozenset[float] = frozenset()


@dataclass(frozen=True)
class Ways:
    """Every other way in which a scale can be told. ``pairs`` by kind."""

    pairs: Mapping[PairKind, Pair] = field(default_factory=dict)
    count: Count | None = None
    crowd: Crowd | None = None

    @property
    def examples(self) -> tuple[str, ...]:
        """One example of each."""
        counted = [way.say for way in (self.count, self.crowd) if way is not None]
        return (*(pair.say for pair in self.pairs.values()), *counted)
