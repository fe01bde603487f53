"""The line through dated lengths against certified values and against scipy."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.optimize import curve_fit

from triage.mechanics.growth import DEVIATIONS, Measured, growth

NORRIS_X = (
    0.2, 337.4, 118.2, 884.6, 10.1, 226.5, 666.3, 996.3, 448.6, 777.0, 558.2, 0.4, 0.6, 775.5, 666.9, 338.0, 447.5,
    11.6, 556.0, 228.1, 995.8, 887.6, 120.2, 0.3, 0.3, 556.8, 339.1, 887.2, 999.0, 779.0, 11.1, 118.3, 229.2, 669.1,
    448.9, 0.5,
)  # fmt: skip
NORRIS_Y = (
    0.1, 338.8, 118.1, 888.0, 9.2, 228.1, 668.5, 998.5, 449.1, 778.9, 559.2, 0.3, 0.1, 778.1, 668.8, 339.3, 448.9,
    10.8, 557.7, 228.3, 998.0, 888.8, 119.6, 0.3, 0.6, 557.6, 339.3, 888.0, 998.5, 778.9, 10.2, 117.6, 228.9, 668.4,
    449.2, 0.2,
)  # fmt: skip


def test_a_line_that_is_certified() -> None:
    """NIST, Statistical Reference Datasets, linear regression, Norris: slope 1.00211681802045 with standard deviation
    0.429796848199937e-3, intercept −0.262323073774029. Its errors are not given but come of the scatter.
    """
    found = growth([Measured(x, y, 1e-6) for x, y in zip(NORRIS_X, NORRIS_Y, strict=True)])

    assert 1.00211681802045 == pytest.approx(found.rate, rel=1e-12)
    assert 0.429796848199937e-3 == pytest.approx(found.error / DEVIATIONS, rel=1e-9)
    assert -0.262323073774029 == pytest.approx(found.length - found.rate * found.day, rel=1e-8)


@given(
    st.lists(
        st.tuples(st.integers(0, 3000), st.floats(1, 500), st.floats(0.5, 20)),
        min_size=3,
        max_size=9,
        unique_by=lambda one: one[0],
    )
)
@settings(max_examples=30)
def test_lengths_with_errors_of_their_own(measured: list[tuple[int, float, float]]) -> None:
    """Against curve_fit of scipy, with the errors given and with them stretched to the scatter: ours are the larger."""
    days, lengths, errors = (np.array(part, dtype=float) for part in zip(*measured, strict=True))
    last = days.max()

    def line(day: np.ndarray, rate: float, length: float) -> np.ndarray:
        return np.asarray(rate * (day - last) + length)

    found = growth([Measured(*one) for one in measured])
    told = [curve_fit(line, days, lengths, p0=[0, 1], sigma=errors / DEVIATIONS, absolute_sigma=how) for how in (1, 0)]
    worst = DEVIATIONS * np.sqrt(np.maximum(np.diag(told[0][1]), np.diag(told[1][1])))

    rate, length = told[0][0]  # found by steps, so the last digits are theirs
    assert rate == pytest.approx(found.rate, rel=1e-3, abs=1e-4)
    assert length == pytest.approx(found.length, rel=1e-3, abs=1e-2)
    assert worst == pytest.approx([found.error, found.length_error], rel=1e-3)


def test_two_measurements_are_what_scipy_makes_of_them() -> None:
    days, lengths, errors = np.array([0.0, 200.0]), np.array([40.0, 46.0]), np.array([2.0, 3.0])
    fit, spread = curve_fit(
        lambda day, rate, first: first + rate * day, days, lengths, sigma=errors / DEVIATIONS, absolute_sigma=True
    )
    found = growth([Measured(*one) for one in zip(days, lengths, errors, strict=True)])

    assert (fit[0], DEVIATIONS * np.sqrt(spread[0][0])) == pytest.approx((found.rate, found.error), rel=1e-6)
