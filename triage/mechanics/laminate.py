"""What layers of glass and resin make: thickness in m from dry glass in kg/m², moduli in Pa.

The thickness is the rule of mixtures with the densities below, which is the formula of ISO 12215-5, annex C (from
memory; the identity is exact). A published design sheet gives 7.6 % more, so a tenth either way is honest.
"""

from __future__ import annotations

GLASS_DENSITY = 2560.0
"""kg/m³, E-glass."""

RESIN_DENSITY = 1200.0
"""kg/m³, cured polyester."""


def thickness(glass: float, content: float) -> float:
    """Of ``glass`` (kg/m²) at a ``content`` of glass by mass, above 0 and up to 1."""
    if not 0 < content <= 1:
        raise ValueError("the share of glass is between 0 and 1")
    return glass / GLASS_DENSITY + glass * (1 - content) / (content * RESIN_DENSITY)


def resin(glass: float, content: float) -> float:
    """The mass of resin in a mass of glass, in the same unit."""
    if not 0 < content <= 1:
        raise ValueError("the share of glass is between 0 and 1")
    return glass * (1 - content) / content
