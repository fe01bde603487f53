"""How far judgements agree, and how sure one may be of a share. Only this module imports the statistics libraries.

Every figure comes with an interval of 95 %, because classes are small. What cannot be worked out from so little is
None, and no figure is made up for it.
"""

from __future__ import annotations

import math
import random
import warnings
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import Literal, TypeVar

from triage.errors import MissingExtra

try:
    import krippendorff
    import numpy as np
    from scipy.stats import bootstrap
    from statsmodels.stats.inter_rater import cohens_kappa, fleiss_kappa
    from statsmodels.stats.proportion import confint_proportions_2indep, proportion_confint
except ImportError:  # pragma: no cover - the message is the behaviour
    raise MissingExtra("marking a class", "teaching") from None

SURE = 0.95
"""How often an interval holds what it is about."""

RESAMPLES = 999
"""Times that cases are drawn again for an interval that has no formula."""

Weights = Literal["linear", "quadratic"]
Level = Literal["nominal", "ordinal", "interval", "ratio"]
Unit = TypeVar("Unit")


@dataclass(frozen=True)
class Estimate:
    """A figure, from where to where it may truly be, and from how many judgements it comes.

    ``low`` and ``high`` are None where there is too little to tell.
    """

    value: float
    low: float | None
    high: float | None
    n: int

    @property
    def width(self) -> float:
        """How much the interval leaves open; without end where there is none."""
        return math.inf if self.low is None or self.high is None else self.high - self.low


def share(found: int, of: int, method: Literal["wilson", "beta"] = "wilson") -> Estimate | None:
    """A share with Wilson's interval, or the exact one of Clopper and Pearson ("beta"). None of nothing."""
    if of == 0:
        return None
    low, high = proportion_confint(found, of, alpha=1 - SURE, method=method)
    return Estimate(found / of, float(low), float(high), of)


def difference(before: tuple[int, int], after: tuple[int, int]) -> Estimate | None:
    """By how much the second share is larger than the first (each found, of), with Newcombe's interval.

    It takes every judgement for somebody else's. None where one of them is of nothing.
    """
    if not before[1] or not after[1]:
        return None
    low, high = confint_proportions_2indep(*after, *before, method="newcomb", compare="diff", alpha=1 - SURE)
    return Estimate(after[0] / after[1] - before[0] / before[1], float(low), float(high), before[1] + after[1])


def kappa(table: Sequence[Sequence[int]], weights: Weights | None = None) -> Estimate | None:
    """Cohen's kappa of a square table of counts, with weights where levels have an order.

    None where all is in one cell, so that chance would agree as well.
    """
    counts = np.asarray(table, dtype=float)
    if counts.sum() == 0 or np.count_nonzero(counts.sum(axis=0) + counts.sum(axis=1)) < 2:
        return None
    with warnings.catch_warnings(), np.errstate(all="ignore"):
        warnings.simplefilter("ignore")
        found = cohens_kappa(counts, wt=weights, return_results=True)
        value, low, high = float(found.kappa), float(found.kappa_low), float(found.kappa_upp)
    if not math.isfinite(value):
        return None
    known = math.isfinite(low) and math.isfinite(high) and high > low
    return Estimate(value, max(-1.0, low) if known else None, min(1.0, high) if known else None, int(counts.sum()))


def kappa_among(table: Sequence[Sequence[int]], method: Literal["fleiss", "randolph"] = "fleiss") -> float | None:
    """Fleiss' kappa: rows are cases, columns how many said each level; each case by as many. None of no difference."""
    counts = np.asarray(table, dtype=float)
    if counts.size == 0 or np.count_nonzero(counts.sum(axis=0)) < 2:
        return None
    return float(fleiss_kappa(counts, method=method))


def alpha(ratings: Sequence[Sequence[float | None]], level: Level = "ordinal") -> float | None:
    """Krippendorff's alpha: a row for each who judged, a column for each case; None where somebody has not judged it.

    None where nothing was judged twice, or all the same.
    """
    data = np.array([[np.nan if one is None else one for one in row] for row in ratings], dtype=float)
    if data.size == 0:
        return None
    pairable = data[:, (~np.isnan(data)).sum(axis=0) >= 2]
    if pairable.size == 0 or len(np.unique(pairable[~np.isnan(pairable)])) < 2:
        return None
    return float(krippendorff.alpha(reliability_data=data, level_of_measurement=level))


def alpha_of(ratings: Sequence[Sequence[float | None]], level: Level = "ordinal") -> Estimate | None:
    """The same with an interval: cases are drawn again, as if the class had met others."""
    value = alpha(ratings, level)
    if value is None:
        return None
    cases = list(zip(*ratings, strict=True))
    low, high = _drawn_again(cases, lambda some: alpha(list(zip(*some, strict=True)), level))
    return Estimate(value, low, high, sum(one is not None for row in ratings for one in row))


def mean(values: Sequence[float]) -> Estimate | None:
    """The mean, with an interval by drawing the values again. None of nothing."""
    if not values:
        return None
    value = float(np.mean(values))
    if len(values) < 2 or min(values) == max(values):
        return Estimate(value, None, None, len(values))
    found = bootstrap(
        (np.asarray(values, dtype=float),),
        np.mean,
        confidence_level=SURE,
        n_resamples=RESAMPLES,
        method="percentile",
        rng=np.random.default_rng(len(values)),
    ).confidence_interval
    return Estimate(value, float(found.low), float(found.high), len(values))


def _drawn_again(
    units: Sequence[Unit], of: Callable[[Sequence[Unit]], float | None]
) -> tuple[float, float] | tuple[None, None]:
    """Between which the figure lies when units are drawn again; none where it often cannot be told."""
    chance = random.Random(len(units))
    found = [value for _ in range(RESAMPLES) if (value := of(chance.choices(units, k=len(units)))) is not None]
    if len(found) < RESAMPLES * SURE:
        return None, None
    low, high = np.quantile(found, [(1 - SURE) / 2, (1 + SURE) / 2])
    return float(low), float(high)
