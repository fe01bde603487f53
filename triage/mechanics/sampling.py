"""What so many looks, of which so many found something, say of all the places that there are."""

from __future__ import annotations

from collections.abc import Callable
from functools import lru_cache
from math import exp, lgamma, log, log1p

SURE = 0.95
"""How sure a range of shares is to hold the true one."""

HALVINGS = 45
"""After which a share is known to a million-millionth."""


@lru_cache(maxsize=256)
def share(found: int, looked: int) -> tuple[float, float]:
    """The exact range of Clopper and Pearson (1934) for a share, both sides together `SURE`.

    ValueError where more was found than looked at.
    """
    if not 0 <= found <= looked or not looked:
        raise ValueError("more was found than was looked at")
    half = (1 - SURE) / 2
    low = 0.0 if found == 0 else _root(lambda p: 1 - _at_most(found - 1, looked, p) - half)
    high = 1.0 if found == looked else _root(lambda p: half - _at_most(found, looked, p))
    return low, high


def _at_most(found: int, looked: int, p: float) -> float:
    """The chance of so many or fewer, each with chance ``p``: in logarithms, as single terms may be too small."""
    odds, none = log(p) - log1p(-p), looked * log1p(-p)
    return sum(exp(_ways(looked, k) + k * odds + none) for k in range(found + 1))


@lru_cache(maxsize=4096)
def _ways(looked: int, found: int) -> float:
    """The logarithm of how many ways there are to find so many."""
    return lgamma(looked + 1) - lgamma(found + 1) - lgamma(looked - found + 1)


def _root(rising: Callable[[float], float]) -> float:
    """Where a rising function of a share passes nothing."""
    low, high = 0.0, 1.0
    for _ in range(HALVINGS):
        middle = (low + high) / 2
        low, high = (low, middle) if rising(middle) > 0 else (middle, high)
    return (low + high) / 2
