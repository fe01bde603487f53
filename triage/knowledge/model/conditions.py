"""The condition language: what may stand in ``when``.

Conditions are trees of frozen nodes. On scales they are up-closed (`AtLeast`) in rules and down-closed
(`AtMost`) in presumptions; on words (zone, sign, facts) they are membership tests. There is no negation.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from math import prod
from typing import Literal

Where = Literal["anywhere", "twin", "same side"]


@dataclass(frozen=True)
class Is:
    """The word (zone, sign, a zone fact, a boat fact, side) is one of ``values``."""

    word: str
    values: tuple[str, ...]


@dataclass(frozen=True)
class AtLeast:
    """The scale is at this level or worse."""

    scale: str
    level: int


@dataclass(frozen=True)
class AtMost:
    """The scale has been answered, and is at this level or better."""

    scale: str
    level: int


@dataclass(frozen=True)
class All:
    """Every part holds; with no parts, always."""

    parts: tuple[Condition, ...]


@dataclass(frozen=True)
class Any:
    """At least one part holds."""

    parts: tuple[Condition, ...]


@dataclass(frozen=True)
class Elsewhere:
    """At least ``count`` other findings on the boat, related to this one as ``where`` says, satisfy ``condition``."""

    condition: Condition
    count: int = 1
    where: Where = "anywhere"


Condition = Is | AtLeast | AtMost | All | Any | Elsewhere


def ways(condition: Condition) -> int:
    """In how many ways the condition can hold, each of which the engines try; of an elsewhere those of its inside."""
    match condition:
        case All(parts):
            return prod(map(ways, parts))
        case Any(parts):
            return sum(map(ways, parts))
        case Elsewhere(inner):
            return ways(inner)
        case _:
            return 1


def parts(condition: Condition) -> Iterator[Condition]:
    """The condition and everything inside it."""
    yield condition
    if isinstance(condition, (All, Any)):
        for part in condition.parts:
            yield from parts(part)
    elif isinstance(condition, Elsewhere):
        yield from parts(condition.condition)
