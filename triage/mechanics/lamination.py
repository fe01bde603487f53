"""Classical lamination theory: what a stack of layers is as one plate. SI units; the middle of the stack is z = 0.

Each layer gives its stiffness in the plane, turned to the stack's axes. Summed over the thickness it makes A (Pa·m,
stretching), B (Pa·m², coupling) and D (Pa·m³, bending). The theory is that of Kaw, Mechanics of Composite Materials,
chapter 4, from memory.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from math import cos, radians, sin

from triage.mechanics.linear import solve

Matrix = tuple[tuple[float, ...], ...]


@dataclass(frozen=True)
class Ply:
    """One layer: thickness in m, moduli in Pa along and across its fibres and in shear, and its angle in degrees."""

    thickness: float
    along: float
    across: float
    poisson: float
    shear: float
    angle: float = 0.0

    def stiffness(self) -> Matrix:
        """Q in the stack's axes: of plane stress, turned."""
        minor = self.poisson * self.across / self.along
        full = 1 - self.poisson * minor
        q11, q22, q12, q66 = self.along / full, self.across / full, minor * self.along / full, self.shear
        c, s = cos(radians(self.angle)), sin(radians(self.angle))
        both = (q12 + 2 * q66) * s**2 * c**2
        t11 = q11 * c**4 + 2 * both + q22 * s**4
        t22 = q11 * s**4 + 2 * both + q22 * c**4
        t12 = (q11 + q22 - 4 * q66) * s**2 * c**2 + q12 * (s**4 + c**4)
        t66 = (q11 + q22 - 2 * q12 - 2 * q66) * s**2 * c**2 + q66 * (s**4 + c**4)
        t16 = (q11 - q12 - 2 * q66) * s * c**3 + (q12 - q22 + 2 * q66) * s**3 * c
        t26 = (q11 - q12 - 2 * q66) * s**3 * c + (q12 - q22 + 2 * q66) * s * c**3
        return (t11, t12, t16), (t12, t22, t26), (t16, t26, t66)


@dataclass(frozen=True)
class Stack:
    """Layers from the outside in, as one plate."""

    plies: Sequence[Ply]

    @property
    def thickness(self) -> float:
        """All of it, in m."""
        return sum(ply.thickness for ply in self.plies)

    def moment(self, order: int) -> Matrix:
        """A, B or D: the stiffness times z to the power ``order`` of 0, 1 or 2, over the thickness."""
        z, summed = -self.thickness / 2, [[0.0] * 3 for _ in range(3)]
        for ply in self.plies:
            over = ((z + ply.thickness) ** (order + 1) - z ** (order + 1)) / (order + 1)
            for i, row in enumerate(ply.stiffness()):
                for j, q in enumerate(row):
                    summed[i][j] += q * over
            z += ply.thickness
        return tuple(tuple(row) for row in summed)

    def compliance(self, loaded: int) -> float:
        """Strain (0 to 2) or curvature (3 to 5) for one unit of its own load, free to stretch and bend as it likes."""
        a, b, d = (self.moment(order) for order in range(3))
        whole = [[*one, *other] for one, other in (*zip(a, b, strict=True), *zip(b, d, strict=True))]
        return solve(whole, [float(row == loaded) for row in range(6)])[loaded]
