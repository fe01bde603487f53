"""Resin, hardener and coat: masses in kg, areas in m², temperatures in °C."""

from __future__ import annotations

from math import ceil

POT = 0.150
"""kg that cure in a pot without running hot, for hands that do this seldom; common practice."""

COLDEST = 15.0
"""°C below which nothing is laid: the least that rules for building in glass allow; common practice for repairs too."""

CURE_AT = 18.0
"""°C for which hours of cure are told; common practice of rules for building in glass."""

HARDENER = ((16.0, 0.03, 0.02), (20.0, 0.02, 0.02), (36.0, 0.01, 0.02))
"""Up to each temperature, the share of hardener from and to: a chart of the trade; the maker's sheet goes before it."""


def hardener(resin: float, temperature: float) -> tuple[float, float]:
    """Kg of hardener from and to. ValueError below `COLDEST`, or where it is too hot to lay."""
    if temperature < COLDEST:
        raise ValueError(f"below {COLDEST:g} °C it does not cure through: warm the place, or wait")
    for upto, one, other in HARDENER:
        if temperature < upto:
            return resin * min(one, other), resin * max(one, other)
    raise ValueError("it is too hot: it would set in the brush")


def cure(temperature: float, hours: float, slower: float) -> float:
    """How long a cure takes that takes ``hours`` (any unit of time) at `CURE_AT`: so many times as long for each ten
    degrees colder, and never less. ValueError below `COLDEST`.
    """
    if temperature < COLDEST:
        raise ValueError(f"below {COLDEST:g} °C it does not cure through: warm the place, or wait")
    return hours * max(1.0, float(slower ** ((CURE_AT - temperature) / 10)))


def pots(resin: float) -> int:
    """Into how many lots it is mixed."""
    return max(1, ceil(round(resin / POT, 9)))


def coat(area: float, thickness: float, density: float, waste: float) -> float:
    """Kg of coat over an area (m²) in a thickness (m), with a share that is wasted."""
    return area * thickness * density * (1 + waste)
