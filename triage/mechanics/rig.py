"""What the rig pulls with, and what bolts and pads do with it. SI units.

Statics; the stress areas of bolts are ISO 898-1's, A = π/4 (d − 0.9382 p)².
"""

from __future__ import annotations

from math import cos, pi

GRAVITY = 9.81
"""m/s²."""


def righting_moment(crew: float, out: float, hull: float, hull_out: float) -> float:
    """N·m, of a ``crew`` (kg) whose weight is ``out`` (m) from the middle, and of the hull's as she heels."""
    return GRAVITY * (crew * out + hull * hull_out)


def shroud_pull(moment: float, half_base: float, angle: float) -> float:
    """N in the windward shroud: the moment over half the base (m), along a wire at ``angle`` (radians) to the mast."""
    return moment / (half_base * cos(angle))


def bearing(force: float, bolts: float, diameter: float, thickness: float) -> float:
    """Pa on the wall of the holes."""
    return force / (bolts * diameter * thickness)


def punching(force: float, bolts: float, washer: float, thickness: float) -> float:
    """Pa of shear round the rims of the washers (m across), as they are pulled through a skin."""
    return force / (bolts * pi * washer * thickness)
