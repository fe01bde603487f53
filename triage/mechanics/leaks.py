"""How fast water comes in, and what an air test says of it. SI units.

An opening flows as an orifice, Q = C A √(2 g h); a fine crack as water between plates, Q = l g³ ρ g h / (12 μ t).
The smaller of the two holds.
"""

from __future__ import annotations

from math import sqrt

from triage.mechanics.rig import GRAVITY

DISCHARGE = 0.6
"""Of a sharp-edged hole; common practice."""

SEA_WATER = 1025.0
"""kg/m³."""

VISCOSITY = 0.0011
"""Pa·s, of sea water at about 18 °C."""

ATMOSPHERE = 101_325.0
"""Pa."""


def through_hole(area: float, depth: float) -> float:
    """m³/s through a hole (m²) that lies ``depth`` (m) under water."""
    return DISCHARGE * area * sqrt(2 * GRAVITY * depth)


def through_crack(length: float, gap: float, wall: float, depth: float) -> float:
    """m³/s through a crack of this length and gap (m) in a wall (m)."""
    fine = length * gap**3 * SEA_WATER * GRAVITY * depth / (12 * VISCOSITY * wall)
    return min(fine, through_hole(length * gap, depth))


def air_lost(volume: float, drop: float) -> float:
    """m³ of air that left a space (m³) whose pressure fell by ``drop`` (Pa)."""
    return volume * drop / ATMOSPHERE


def warming(kelvin: float) -> float:
    """Pa that a closed space gains as it warms, from 20 °C."""
    return ATMOSPHERE * kelvin / 293.15
