"""What water inside takes away: buoyancy, and standing upright. SI units, masses in kg."""

from __future__ import annotations

from math import atan

from triage.mechanics.leaks import SEA_WATER

SKIN_DENSITY = 1600.0
"""kg/m³, of hand-laid glass; common practice."""

FITTINGS_DENSITY = 4000.0
"""kg/m³, of fittings and spars that lie under water, metal and plastic together; an estimate."""

USED = 0.95
"""Of a space's outside size that holds air; an estimate."""


def lift(volume: float, water: float) -> float:
    """Kg that closed spaces (m³) bear under water, with so much water (m³) in them."""
    return SEA_WATER * (volume * USED - water)


def sunk_weight(skin: float, fittings: float) -> float:
    """What skin and fittings (kg) weigh under water."""
    return skin * (1 - SEA_WATER / SKIN_DENSITY) + fittings * (1 - SEA_WATER / FITTINGS_DENSITY)


def lean(water: float, out: float, afloat: float, height: float) -> float:
    """The angle at which she lies with ``water`` (kg) so far (m) out of the middle.

    Her metacentre lies ``height`` (m) above the middle of her weight, which is ``afloat`` kg in all.
    """
    return atan(water * out / (afloat * height))


def drying(before: float, after: float, time: float) -> float:
    """The share of her weight that she loses in a week; ``time`` is in days."""
    return (before - after) / before * 7 / time
