"""Numbers that are not known exactly, and what comes of them."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from itertools import product


@dataclass(frozen=True)
class Interval:
    """From the least to the most that a number may be. ValueError where the least is the larger, or no number."""

    low: float
    high: float

    def __post_init__(self) -> None:
        if not self.low <= self.high:
            raise ValueError(f"from {self.low} to {self.high} is no interval")

    @property
    def middle(self) -> float:
        """Halfway."""
        return (self.low + self.high) / 2

    @property
    def width(self) -> float:
        """From the least to the most."""
        return self.high - self.low

    def times(self, factor: float) -> Interval:
        """In another unit, or as a multiple; ``factor`` above nothing."""
        return Interval(self.low * factor, self.high * factor)


def exactly(value: float) -> Interval:
    """A number that is known."""
    return Interval(value, value)


def spanning(f: Callable[..., float], **ranges: Interval) -> Interval:
    """What ``f`` may come to when each argument lies anywhere in its range.

    Exact for a function that is monotone in each argument, as all formulas here are: then its least and its greatest
    value lie at corners of the box.
    """
    corners = product(*((one.low, one.high) for one in ranges.values()))
    found = [f(**dict(zip(ranges, corner, strict=True))) for corner in corners]
    return Interval(min(found), max(found))


def all_spanning(formulas: Mapping[str, Callable[..., float]], **ranges: Interval) -> dict[str, Interval]:
    """Several formulas of the same arguments."""
    return {name: spanning(f, **ranges) for name, f in formulas.items()}
