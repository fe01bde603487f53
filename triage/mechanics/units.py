"""Units at the edge of the sums: how many of the SI unit each is."""

from __future__ import annotations

from math import pi

IN_SI = {
    "": 1.0, "mm": 1e-3, "m": 1.0, "g": 1e-3, "kg": 1.0, "L": 1e-3, "L/h": 1e-3 / 3600, "minutes": 60.0,
    "hours": 3600.0, "days": 86_400.0, "months": 365.25 / 12 * 86_400, "deg": pi / 180, "°": pi / 180, "%": 1e-2,
    "N": 1.0, "kN": 1e3, "N·m": 1.0, "MPa": 1e6, "GPa": 1e9,
}  # fmt: skip
"""By unit. A plain number is itself."""

DAY = 86_400.0
"""s."""

KNOT = 1852 / 3600
"""m/s."""

MM_OF_WATER = 9.80665
"""Pa, of one millimetre of water in a gauge."""
