"""How a length grows: a straight line through dated measurements, each with its error, by least squares.

Errors are two standard deviations throughout, so that what lies beyond them is not measuring in 19 of 20 cases. Where
the measurements scatter more than their own errors allow, theirs is what counts.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from math import ceil, inf, sqrt

SEASON = 365.25
"""Days from one season to the same time of the next."""

DEVIATIONS = 2.0
"""Standard deviations in an error."""


@dataclass(frozen=True)
class Measured:
    """A length on a day; ``error`` is how far it may be off, above nothing."""

    day: float
    length: float
    error: float


@dataclass(frozen=True)
class Growth:
    """The line: ``rate`` in lengths per day, ``length`` on the ``day`` of the last measurement, and their errors."""

    rate: float
    error: float
    day: float
    length: float
    length_error: float

    @property
    def shows(self) -> bool:
        """Whether it grows by more than measuring can explain."""
        return self.rate > self.error

    def in_days(self, days: float) -> tuple[float, float]:
        """The least and the most that it grows in so many days."""
        return (self.rate - self.error) * days, (self.rate + self.error) * days

    def reaches(self, length: float) -> tuple[float, float]:
        """The first and the last day on which it may come to a length, at the pace that it had; infinite for never."""
        first = _until(length - self.length - self.length_error, self.rate + self.error)
        last = _until(length - self.length + self.length_error, self.rate - self.error)
        return self.day + first, self.day + last


def growth(measured: Sequence[Measured]) -> Growth:
    """The line through two measurements or more, of two days at least. Raises ValueError."""
    weights = [1 / one.error**2 for one in measured]
    total = sum(weights)
    if not measured or total == inf:
        raise ValueError("nothing was measured, or as if nothing could be off")
    day, length = (
        sum(w * value for w, value in zip(weights, values, strict=True)) / total
        for values in ([one.day for one in measured], [one.length for one in measured])
    )
    spread = sum(w * (one.day - day) ** 2 for w, one in zip(weights, measured, strict=True))
    if spread <= 0:
        raise ValueError("all was measured on one day")
    rate = sum(w * (one.day - day) * one.length for w, one in zip(weights, measured, strict=True)) / spread
    last = max(one.day for one in measured)
    worse = _scatter(measured, weights, lambda on: length + rate * (on - day))
    return Growth(
        rate=rate,
        error=worse / sqrt(spread),
        day=last,
        length=length + rate * (last - day),
        length_error=worse * sqrt(1 / total + (last - day) ** 2 / spread),
    )


def look_again_in(error: float, usual: float, matters: float) -> int:
    """Days until a growth of ``matters`` in a season shows: it is then more than the errors of the last measurement and
    of a usual one together.
    """
    return ceil(SEASON * sqrt(error**2 + usual**2) / matters)


def _until(way: float, pace: float) -> float:
    if way <= 0:
        return 0.0
    return way / pace if pace > 0 else inf


def _scatter(measured: Sequence[Measured], weights: Sequence[float], line: Callable[[float], float]) -> float:
    """How many times as far off as their errors say the measurements are, once at least; of two nobody can tell."""
    free = len(measured) - 2
    if free < 1:
        return 1.0
    off = sum(w * (one.length - line(one.day)) ** 2 for w, one in zip(weights, measured, strict=True))
    return max(1.0, DEVIATIONS * sqrt(off / free))
