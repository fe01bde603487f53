"""What a repair by taper takes: sizes in m, masses in kg, glass in kg/m²."""

from __future__ import annotations

from math import ceil, pi

from triage.mechanics.laminate import resin


def taper(thickness: float, ratio: float) -> float:
    """The length ground away on each side of a hole: so many times the skin."""
    return thickness * ratio


def patch(hole: float, length: float) -> float:
    """Across the whole patch."""
    return hole + 2 * length


def layers(thickness: float, ply: float) -> int:
    """How many layers it takes to come up to the skin."""
    return max(1, ceil(round(thickness / ply, 9)))


def ply_diameters(hole: float, length: float, number: int) -> tuple[float, ...]:
    """Across each layer, the smallest first: each ends in the middle of its own step of the taper."""
    return tuple(hole + (2 * step - 1) * length / number for step in range(1, number + 1))


def glass_mass(diameters: tuple[float, ...], weight: float) -> float:
    """Of round layers of a cloth of this weight."""
    return sum(pi * one**2 / 4 for one in diameters) * weight


def resin_mass(glass: float, content: float, waste: float) -> float:
    """With what stays in pot and brush: a share ``waste`` more."""
    return resin(glass, content) * (1 + waste)
