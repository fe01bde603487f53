"""Plates against finite elements: scikit-fem, Kirchhoff's plate on Argyris triangles, smooth as the plate itself is."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import pytest

from triage.mechanics import plates

POISSON = 0.3
"""What the tables are made for."""

Load = Callable[[Any, float], Any]
"""From the elements and the aspect of the plate to the load of one newton on them."""


def coefficient(aspect: float, *, clamped: bool, load: Load, elements: int = 6) -> float:
    """α of the dip in the middle: the load, the short side, the thickness and the modulus are all one.

    ``elements`` is an even number of them along the short side.
    """
    import numpy as np
    from skfem import Basis, BilinearForm, ElementTriArgyris, MeshTri, condense, solve
    from skfem.helpers import dd, ddot, eye, trace

    def on_x(at: Any) -> Any:
        return (at[0] < 1e-9) | (at[0] > aspect - 1e-9)

    def on_y(at: Any) -> Any:
        return (at[1] < 1e-9) | (at[1] > 1 - 1e-9)

    @BilinearForm  # type: ignore[untyped-decorator]
    def bending(u: Any, v: Any, _: Any) -> Any:
        moments = (1 - POISSON) * dd(u) + POISSON * eye(trace(dd(u)), 2)
        return ddot(moments, dd(v)) / (12 * (1 - POISSON**2))

    mesh = MeshTri.init_tensor(
        np.linspace(0, aspect, 2 * round(elements * aspect / 2) + 1), np.linspace(0, 1, elements + 1)
    )
    basis = Basis(mesh.with_boundaries({"x": on_x, "y": on_y}), ElementTriArgyris(), intorder=8)
    held = {"x": ["u", "u_y"], "y": ["u", "u_x"]}
    if clamped:
        held = {side: ["u", "u_x", "u_y", "u_n"] for side in held}
    still = np.unique(np.concatenate([basis.get_dofs(side).all(names) for side, names in held.items()]))
    bent = solve(*condense(bending.assemble(basis), load(basis, aspect), D=still))
    return float((_middle(basis, aspect) @ bent)[0])


def _middle(basis: Any, aspect: float) -> Any:
    import numpy as np

    return basis.probes(np.array([[aspect / 2], [0.5]]))


def on_a_point(basis: Any, aspect: float) -> Any:
    """One newton in the middle."""
    import numpy as np

    return np.asarray(_middle(basis, aspect).T @ np.ones(1)).ravel()


def on_a_patch(across: float) -> Load:
    """One newton spread over a square in the middle, as by a heel; nine by nine points stand for it."""

    def load(basis: Any, aspect: float) -> Any:
        import numpy as np

        steps = (np.arange(9) - 4) / 9 * across
        x, y = np.meshgrid(aspect / 2 + steps, 0.5 + steps)
        return np.asarray(basis.probes(np.array([x.ravel(), y.ravel()])).T @ np.full(81, 1 / 81)).ravel()

    return load


@pytest.mark.parametrize(
    ("aspect", "hinged", "clamped"), list(zip(plates.ASPECTS, plates.HINGED, plates.CLAMPED, strict=True))
)
def test_both_tables_are_what_finite_elements_find(aspect: float, hinged: float, clamped: float) -> None:
    assert hinged == pytest.approx(coefficient(aspect, clamped=False, load=on_a_point), rel=0.005)
    assert clamped == pytest.approx(coefficient(aspect, clamped=True, load=on_a_point), rel=0.005)


@pytest.mark.parametrize("aspect", [1.1, 1.5, 1.9])
def test_between_the_values_of_a_table_straight_lines_will_do(aspect: float) -> None:
    for clamped, table, endless in (
        (False, plates.HINGED, plates.HINGED_LONG),
        (True, plates.CLAMPED, plates.CLAMPED_LONG),
    ):
        found = coefficient(aspect, clamped=clamped, load=on_a_point)
        assert found == pytest.approx(plates.coefficient(aspect, table, endless), rel=0.02)


def test_a_long_plate_dips_as_an_endless_one() -> None:
    """From an aspect of 3 on, the sum takes the plate for endless."""
    assert plates.HINGED_LONG == pytest.approx(coefficient(4, clamped=False, load=on_a_point), rel=0.01)
    assert plates.CLAMPED_LONG == pytest.approx(coefficient(4, clamped=True, load=on_a_point), rel=0.01)


@pytest.mark.parametrize(("clamped", "shares"), [(False, plates.HINGED_FEET), (True, plates.CLAMPED_FEET)])
def test_a_wide_foot_dips_less_than_a_point_as_the_sum_takes_it_to(clamped: bool, shares: tuple[float, ...]) -> None:
    """On a square plate as in the table; on a longer one by less, so that the sum never calls a soft panel sound."""
    point, long_point = (coefficient(aspect, clamped=clamped, load=on_a_point) for aspect in (1.0, 1.6))
    for foot in (0.1, 0.3, 0.7):
        found = coefficient(1.0, clamped=clamped, load=on_a_patch(foot)) / point
        longer = coefficient(1.6, clamped=clamped, load=on_a_patch(foot)) / long_point
        assert plates.spread(foot, shares) == pytest.approx(found, rel=0.01)
        assert plates.spread(foot, shares) < longer


def test_finite_elements_tell_a_wrong_table() -> None:
    """Held edges taken for hinged ones, or the sides for each other, are not overlooked."""
    assert plates.CLAMPED[0] != pytest.approx(coefficient(1, clamped=False, load=on_a_point), rel=0.5)
    assert plates.HINGED[0] != pytest.approx(coefficient(2, clamped=False, load=on_a_point), rel=0.2)
