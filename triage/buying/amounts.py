"""Sums of money that nobody knows to the penny: three-point amounts, lines that may or may not come, and their total.

Pure Python on a grid of equal steps, so that a phone can do it. Formulas: triangular and PERT-beta as planning
handbooks print them (mean (a + 4m + b) / 6); the exact variance of the beta, (μ − a)(b − μ) / 7, is worked out.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from itertools import accumulate, groupby, pairwise
from typing import Literal

Shape = Literal["pert", "triangular"]

CELLS = 1000
"""Steps of the grid from the least to the most that a total can be."""


@dataclass(frozen=True)
class ThreePoint:
    """An amount between ``least`` and ``most``, ``likely`` in between; a single figure where all three are alike."""

    least: float
    likely: float
    most: float
    shape: Shape = "pert"

    def __post_init__(self) -> None:
        if not (math.isfinite(self.most - self.least) and self.least <= self.likely <= self.most):
            raise ValueError(f"{self.least:g}, {self.likely:g}, {self.most:g} do not run from the least to the most")

    @property
    def mean(self) -> float:
        """What it comes to on average."""
        weight = 4 if self.shape == "pert" else 1
        return (self.least + weight * self.likely + self.most) / (weight + 2)

    @property
    def sd(self) -> float:
        """The standard deviation, exactly."""
        a, m, b = self.least, self.likely, self.most
        if self.shape == "pert":
            return math.sqrt(max(0.0, (self.mean - a) * (b - self.mean)) / 7)
        return math.sqrt(max(0.0, a * a + m * m + b * b - a * b - a * m - b * m) / 18)

    def below(self, value: float) -> float:
        """The chance that it is no more than ``value``."""
        return self._part(value)[0]

    @classmethod
    def single(cls, value: float) -> ThreePoint:
        """A figure that is certain."""
        return cls(value, value, value)

    def turned(self) -> ThreePoint:
        """The amount with the other sign."""
        return ThreePoint(-self.most, -self.likely, -self.least, self.shape)

    def shifted(self, by: float) -> ThreePoint:
        """So much more at every point."""
        return ThreePoint(self.least + by, self.likely + by, self.most + by, self.shape)

    def scaled(self, factor: float) -> ThreePoint:
        """The amount times a factor."""
        return ThreePoint(self.least * factor, self.likely * factor, self.most * factor, self.shape)

    def on_grid(self, step: float) -> Spread:
        """The amount on the multiples of ``step``; what lies between two of them is shared so that the mean stays."""
        first = math.floor(self.least / step)
        last = max(first + 1, math.ceil(self.most / step))
        weights = [0.0] * (last - first + 1)
        before = (0.0, 0.0)
        for cell in range(first, last):
            upto = self._part((cell + 1) * step) if cell + 1 < last else (1.0, self.mean)
            mass, moment = upto[0] - before[0], upto[1] - before[1]
            above = min(mass, max(0.0, moment / step - cell * mass))
            weights[cell - first] += mass - above
            weights[cell - first + 1] += above
            before = upto
        return Spread(step, first, tuple(weights))

    def _part(self, value: float) -> tuple[float, float]:
        """The chance that it is no more than ``value``, and what such amounts add to the mean."""
        a, b = self.least, self.most
        if value < a:
            return 0.0, 0.0
        if value >= b:
            return 1.0, self.mean
        return self._beta_part(value) if self.shape == "pert" else self._triangle_part(value)

    def _beta_part(self, value: float) -> tuple[float, float]:
        a, m, b = self.least, self.likely, self.most
        alpha, beta = 1 + 4 * (m - a) / (b - a), 1 + 4 * (b - m) / (b - a)
        x = (value - a) / (b - a)
        chance = incomplete_beta(alpha, beta, x)
        return chance, a * chance + (self.mean - a) * incomplete_beta(alpha + 1, beta, x)

    def _triangle_part(self, value: float) -> tuple[float, float]:
        a, m, b = self.least, self.likely, self.most
        if value <= m:
            slope = 2 / ((b - a) * (m - a)) if m > a else 0.0
            d = value - a
            return slope * d * d / 2, slope * d * d * (a / 2 + d / 3)
        slope, d = 2 / ((b - a) * (b - m)), b - value
        above = slope * d * d / 2
        return 1 - above, self.mean - slope * d * d * (b / 2 - d / 3)


def incomplete_beta(a: float, b: float, x: float) -> float:
    """The regularised incomplete beta function, by its continued fraction (Lentz's method)."""
    if x <= 0 or x >= 1:
        return float(x >= 1)
    if x > (a + 1) / (a + b + 2):
        return 1 - incomplete_beta(b, a, 1 - x)
    front = math.exp(math.lgamma(a + b) - math.lgamma(a) - math.lgamma(b) + a * math.log(x) + b * math.log1p(-x)) / a
    tiny = 1e-300
    c, d = 1.0, 1 / ((1 - (a + b) * x / (a + 1)) or tiny)
    result = d
    for k in range(1, 300):
        for term in (
            k * (b - k) * x / ((a + 2 * k - 1) * (a + 2 * k)),
            -(a + k) * (a + b + k) * x / ((a + 2 * k) * (a + 2 * k + 1)),
        ):
            d = 1 / ((1 + term * d) or tiny)
            c = (1 + term / c) or tiny
            result *= c * d
        if abs(c * d - 1) < 1e-15:
            break
    return front * result


@dataclass(frozen=True)
class Line:
    """Something that may have to be paid: ``amount`` with this ``chance``, else what is ``otherwise`` to pay.

    Lines that share a ``cause`` are decided by one throw: what is less likely comes only where the likelier comes too.
    A line with no cause is decided by itself.
    """

    amount: ThreePoint
    chance: float = 1.0
    otherwise: ThreePoint | None = None
    cause: str = ""

    @property
    def mean(self) -> float:
        """What it comes to on average."""
        rest = self.otherwise.mean if self.otherwise else 0.0
        return self.chance * self.amount.mean + (1 - self.chance) * rest

    def turned(self) -> Line:
        """The line with the other sign."""
        return replace(self, amount=self.amount.turned(), otherwise=self.otherwise and self.otherwise.turned())


@dataclass(frozen=True)
class Spread:
    """Chances on a grid: ``weights[k]`` that it is ``(first + k) · step``."""

    step: float
    first: int
    weights: tuple[float, ...]

    @property
    def mean(self) -> float:
        """What it comes to on average."""
        return sum(weight * (self.first + k) for k, weight in enumerate(self.weights)) * self.step

    @property
    def sd(self) -> float:
        """The standard deviation."""
        mean = self.mean / self.step
        return self.step * math.sqrt(sum(w * (self.first + k - mean) ** 2 for k, w in enumerate(self.weights)))

    def exceeds(self, value: float) -> float:
        """The chance that it is more than ``value``; a weight is taken as spread over the step around it."""
        total = 0.0
        for k, weight in enumerate(self.weights):
            above = (self.first + k + 0.5) - value / self.step
            total += weight * min(1.0, max(0.0, above))
        return min(1.0, total)

    def excess(self, value: float) -> float:
        """By how much it is more than ``value``, on average; where it is less, that counts as nothing."""
        each = ((weight, (self.first + k) * self.step - value) for k, weight in enumerate(self.weights))
        return sum(weight * above for weight, above in each if above > 0)

    def quantile(self, chance: float) -> float:
        """The amount that is not exceeded with this chance."""
        for k, upto in enumerate(accumulate(self.weights)):
            weight = self.weights[k]
            if upto >= chance - 1e-12 and weight > 0:
                inside = 1 - (upto - chance) / weight
                return (self.first + k - 0.5 + min(1.0, max(0.0, inside))) * self.step
        return (self.first + len(self.weights) - 1) * self.step

    def plus(self, other: Spread) -> Spread:
        """The sum of two that know nothing of each other."""
        weights = [0.0] * (len(self.weights) + len(other.weights) - 1)
        for k, weight in enumerate(self.weights):
            if weight:
                for j, there in enumerate(other.weights, start=k):
                    weights[j] += weight * there
        return Spread(self.step, self.first + other.first, tuple(weights))


def total(lines: Iterable[Line], cells: int = CELLS) -> Spread:
    """The total of the lines, exact but for the grid. Of no lines it is nothing for certain."""
    known = list(lines)
    ends = [_ends(line) for line in known]
    width = sum(high for _, high in ends) - sum(low for low, _ in ends)
    step = width / cells if width else max((abs(high) for _, high in ends), default=0.0) / cells or 1.0
    found = Spread(step, 0, (1.0,))
    for cause, sharing in groupby(sorted(known, key=lambda line: line.cause), key=lambda line: line.cause):
        for group in [list(sharing)] if cause else [[line] for line in sharing]:
            found = found.plus(_of_one_throw(group, step))
    return found


def _ends(line: Line) -> tuple[float, float]:
    otherwise = (line.otherwise.least, line.otherwise.most) if line.otherwise else (0.0, 0.0)
    if line.chance >= 1:
        otherwise = (line.amount.least, line.amount.most)
    return min(line.amount.least, otherwise[0]), max(line.amount.most, otherwise[1])


def _of_one_throw(lines: Sequence[Line], step: float) -> Spread:
    """Lines decided by one throw, evenly between 0 and 1: each comes where its chance is above it."""
    thresholds = sorted({0.0, 1.0, *(min(1.0, max(0.0, line.chance)) for line in lines)})
    parts = []
    for low, high in pairwise(thresholds):
        spread = Spread(step, 0, (1.0,))
        for line in lines:
            paid = line.amount if line.chance >= high else line.otherwise
            if paid is not None:
                spread = spread.plus(paid.on_grid(step))
        parts.append((high - low, spread))
    return _mixed(parts, step)


def _mixed(parts: Sequence[tuple[float, Spread]], step: float) -> Spread:
    first = min(spread.first for _, spread in parts)
    last = max(spread.first + len(spread.weights) for _, spread in parts)
    weights = [0.0] * (last - first)
    for chance, spread in parts:
        for k, weight in enumerate(spread.weights, start=spread.first - first):
            weights[k] += chance * weight
    return Spread(step, first, tuple(weights))
