"""What two quantities make of one: an angle, a slope, a part, a difference. Pure sums, every one with its formula.

Both quantities of a sum are in one unit (of a rate: each in its own), the second above nothing.
"""

from __future__ import annotations

import math
from collections.abc import Callable

Sum = Callable[[float, float], float]
"""What two quantities come to."""


def angle(offset: float, arm: float) -> float:
    """Degrees: atan(offset / arm), the offset at right angles to the arm. Plane trigonometry."""
    return math.degrees(math.atan(offset / arm))


def share(part: float, whole: float) -> float:
    """Percent: 100 × part / whole; of a bend, the largest gap over the length. Arithmetic."""
    return 100 * part / whole


def shortfall(left: float, whole: float) -> float:
    """Percent: 100 × (1 − left / whole), what has gone of the whole when this is left. Arithmetic."""
    return 100 * (whole - left) / whole


def excess(here: float, there: float) -> float:
    """Percent: 100 × (here / there − 1), how much more there is here; nothing where there is less. Arithmetic."""
    return max(0.0, 100 * (here - there) / there)


def rate(quantity: float, time: float) -> float:
    """How much in one unit of time: quantity / time. Arithmetic."""
    return quantity / time


def rise_over(rise: float, chord: float, standard: float) -> float:
    """The rise of an arc over the ``standard`` chord when it is ``rise`` over ``chord``, in their unit.

    A shallow arc of one radius R rises by chord² / (8 R), so it is rise × (standard / chord)². Plane geometry.
    """
    return rise * (standard / chord) ** 2
