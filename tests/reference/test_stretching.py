"""How a plate stiffens as it dips, against von Kármán's equations of a round clamped plate, solved by scipy."""

from __future__ import annotations

from math import pi

import pytest

from triage.mechanics import plates

POISSON = 0.3
BENDING = 1 / (12 * (1 - POISSON**2))
"""Of a plate whose modulus, thickness and radius are one."""


def dip_of_a_round_plate(load: float) -> float:
    """The dip of its middle under a load there, in thicknesses, with edges that neither turn nor move inwards."""
    import numpy as np
    from scipy.integrate import solve_bvp

    def equations(r: np.ndarray, y: np.ndarray) -> np.ndarray:
        slope, turn, pull, pulls = y[:4]
        bent = slope / r**2 - turn / r + (pull * slope + load / (2 * pi * r)) / BENDING
        return np.vstack([turn, bent, pulls, -3 * pulls / r - slope**2 / (2 * r**2), slope])

    def edges(inner: np.ndarray, outer: np.ndarray) -> np.ndarray:
        still = outer[3] + (1 - POISSON) * outer[2]
        return np.array([inner[0], inner[3], outer[0], still, outer[4]])

    r = np.geomspace(1e-3, 1, 200)
    solved = solve_bvp(equations, edges, r, np.zeros((5, r.size)), max_nodes=20_000)
    assert solved.success
    return float(-solved.y[4][-1] + solved.y[4][0])


def test_a_small_dip_is_the_linear_one() -> None:
    """P a² ÷ (16 π D), the closed form for a round clamped plate."""
    assert dip_of_a_round_plate(0.01) == pytest.approx(0.01 / (16 * pi * BENDING), rel=0.01)


@pytest.mark.parametrize("little", [0.5, 1, 2, 4])
def test_the_skin_stretches_as_the_sum_takes_it_to(little: float) -> None:
    found = dip_of_a_round_plate(little * 16 * pi * BENDING)

    assert plates.stretched(little, 1) == pytest.approx(found, rel=0.03)
