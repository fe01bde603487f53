"""Ordered attributes, how a measurement becomes one of their levels, and where a statement comes from."""

from __future__ import annotations

from dataclasses import dataclass, field

from triage.errors import Place
from triage.knowledge.model.ways import Ways

NOWHERE = Place("not in a file")
"""Where knowledge stands that no file holds; the loader always knows better."""


@dataclass(frozen=True)
class Observation:
    """One thing that somebody saw, felt or was told, in words that stand after "you found that".

    ``heard`` are other words for the very same thing.
    """

    say: str
    heard: tuple[str, ...] = ()


@dataclass(frozen=True)
class Level:
    """One step of a scale: a short name, what it means in words, and what it asks of people.

    An observed level has ``observations``, each enough by itself; a derived one a ``phrase``. ``role`` says which
    part it plays for the program, whatever it is called (see `ROLES`).
    ``kept_for`` says why people tell it from the milder one although nothing is concluded from it.
    """

    name: str
    phrase: str = ""
    means: str = ""
    role: str = ""
    kept_for: str = ""
    observations: tuple[Observation, ...] = ()

    @property
    def in_full(self) -> str:
        """Everything that the level stands for; of a boat it would claim more than anybody said."""
        return self.phrase or "; or ".join(one.say for one in self.observations)


@dataclass(frozen=True)
class Measure:
    """How a measured quantity becomes a level.

    ``limits[n - 1]`` is where level ``n`` begins, in ``unit``; None means that level has no measure, 0 that it
    is anything above nothing, an infinite limit that no measurement shows better than this level. With
    ``smaller_is_worse`` a level begins just below its limit, and of a limit in ``over`` just above it. ``most`` is the
    largest value that can be believed.
    """

    unit: str
    limits: tuple[float | None, ...]
    smaller_is_worse: bool = False
    what: str = ""
    most: float | None = None
    over: frozenset[float] = frozenset()

    def level(self, value: float) -> int:
        """The level of ``value`` (in ``unit``); at a limit the worse one, unless that begins over it."""
        reached = 0
        for level, limit in enumerate(self.limits, start=1):
            if limit is None:
                continue
            if self._begins(value, limit):
                reached = level
        return reached

    def _begins(self, value: float, limit: float) -> bool:
        if self.smaller_is_worse:
            return value < limit
        return value > limit if limit == 0 or limit in self.over else value >= limit


@dataclass(frozen=True)
class Basis:
    """Where a statement comes from: "common practice", "estimate" or "published" (then with source and where).

    ``analogy`` is what the source speaks of, where what it says of that was carried over to small boats. ``argued``:
    how limits compare with what a sum makes of them.
    """

    kind: str
    source: str = ""
    where: str = ""
    analogy: str = ""
    argued: str = ""


@dataclass(frozen=True)
class Scale:
    """An ordered attribute. ``observed``: a check reads it; otherwise rules raise it. Level 0 is the best.

    ``ways``: how else people may have it than as a level or one quantity.
    """

    id: str
    name: str
    observed: bool
    levels: tuple[Level, ...]
    asks: str = ""
    measure: Measure | None = None
    basis: Basis | None = None
    place: Place = field(default=NOWHERE, compare=False)
    ways: Ways = field(default_factory=Ways)

    @property
    def top(self) -> int:
        """The worst level."""
        return len(self.levels) - 1

    def words(self, level: int) -> str:
        """A level in words that stand after "you found that", when nothing more was said of it.

        They never name one of several observations, which perhaps nobody made.
        """
        known = self.levels[level]
        if len(known.observations) == 1:
            return known.observations[0].say
        return known.phrase or self.named(level)

    def example(self, level: int) -> str:
        """A level that somebody may yet find, by the first of its observations: words that stand after "if"."""
        seen = self.levels[level].observations
        return seen[0].say if seen else self.words(level)

    def named(self, level: int) -> str:
        """A level by its name alone, as words that claim no look and no test."""
        return f"“{self.name}” is “{self.levels[level].name}”"

    def choices(self, level: int) -> tuple[tuple[str, str], ...]:
        """Each way of answering with a level: what is recorded of it, and the words to choose it by."""
        seen = self.levels[level].observations
        if len(seen) > 1:
            return tuple((one.say, one.say) for one in seen)
        return ((self.levels[level].name, self.words(level)),)
