"""How far a plate dips, and what two dips say about its stiffness. Lengths in m, forces in N, moduli in Pa.

Sources: Roark's Formulas for Stress and Strain, table 11.4, case 1b (hinged edges, load on a small spot in the middle),
read; case 8b (clamped edges) from memory. The tests hold both against finite elements, within half a per cent.
"""

from __future__ import annotations

from bisect import bisect_right

ASPECTS = (1.0, 1.2, 1.4, 1.6, 1.8, 2.0)
"""Long side over short side."""

HINGED = (0.1267, 0.1478, 0.1621, 0.1715, 0.1770, 0.1805)
HINGED_LONG = 0.1851
CLAMPED = (0.0611, 0.0706, 0.0754, 0.0777, 0.0786, 0.0788)
CLAMPED_LONG = 0.0791

FEET = (0.0, 0.1, 0.2, 0.3, 0.4, 0.5, 0.6, 0.7, 0.8, 0.9, 1.0)
"""Side of a square foot over the short side of the plate."""

HINGED_FEET = (1.0, 0.981, 0.938, 0.880, 0.812, 0.738, 0.660, 0.581, 0.503, 0.426, 0.354)
CLAMPED_FEET = (1.0, 0.967, 0.896, 0.806, 0.708, 0.608, 0.512, 0.423, 0.345, 0.279, 0.226)
"""The share of the dip under a point that is left under such a foot on a square plate, which is the least of any plate;
by finite elements (tests/reference/test_plates.py).
"""

LONG = 3.0
"""From this aspect on a plate dips as an endless strip does."""

ROUND_MEMBRANE = 0.44
"""In x + 0.44 x³ = w/t: how a round clamped plate stiffens as it dips; taken for others too, from memory."""


def coefficient(aspect: float, edges: tuple[float, ...], long: float) -> float:
    """α of w = α F b² / (E t³), between the values of the table in straight lines. ValueError below an aspect of 1."""
    if aspect < 1:
        raise ValueError("the long side is the longer one")
    places, values = (*ASPECTS, LONG), (*edges, long)
    if aspect >= LONG:
        return long
    at = bisect_right(places, aspect) - 1
    share = (aspect - places[at]) / (places[at + 1] - places[at])
    return values[at] + share * (values[at + 1] - values[at])


def spread(foot: float, shares: tuple[float, ...]) -> float:
    """The share of its dip under a point that a plate dips under a ``foot`` so many times its short side, in straight
    lines between the values of the table; a wider foot stands on the edges, and the plate bears what it bears of one as
    wide as itself.
    """
    foot = min(foot, FEET[-1])
    at = min(bisect_right(FEET, foot), len(FEET) - 1) - 1
    share = (foot - FEET[at]) / (FEET[at + 1] - FEET[at])
    return shares[at] + share * (shares[at + 1] - shares[at])


def dip(force: float, short: float, thickness: float, modulus: float, alpha: float) -> float:
    """How far the middle dips while it dips little: w = α F b² / (E t³)."""
    return alpha * force * short**2 / (modulus * thickness**3)


def stretched(dip: float, thickness: float) -> float:
    """The dip when the skin is stretched too: the root of x + 0.44 x³ = w / t, times t. Smaller than ``dip``."""
    ratio, low, high = dip / thickness, 0.0, dip / thickness
    for _ in range(60):
        middle = (low + high) / 2
        low, high = (middle, high) if middle + ROUND_MEMBRANE * middle**3 < ratio else (low, middle)
    return high * thickness


def stiffness_lost(dip: float, twin: float) -> float:
    """The share of its twin's stiffness that a place has lost, 0 to 1; 0 where it dips less."""
    return max(0.0, 1 - twin / dip)


def thickness_lost(dip: float, twin: float) -> float:
    """The share of its thickness that would have to be missing for that: stiffness goes with its cube."""
    return max(0.0, 1.0 - float((twin / dip) ** (1 / 3)))
