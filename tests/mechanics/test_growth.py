"""Growth told from measuring noise: what never shows, what must show, and when to look again."""

from __future__ import annotations

from math import inf, isinf, sqrt

import pytest
from hypothesis import given
from hypothesis import strategies as st

from triage.mechanics.growth import SEASON, Growth, Measured, growth, look_again_in

lengths = st.lists(
    st.builds(Measured, st.integers(0, 4000).map(float), st.floats(1, 500), st.floats(0.5, 20)),
    min_size=2,
    max_size=8,
    unique_by=lambda one: one.day,
)


def test_two_measurements_that_differ_by_less_than_their_errors_show_nothing() -> None:
    found = growth([Measured(0, 60, 2), Measured(SEASON, 62, 2)])

    assert not found.shows
    assert (2 - 2 * sqrt(2), 2 + 2 * sqrt(2)) == pytest.approx(found.in_days(SEASON))


def test_two_measurements_that_differ_by_more_show_growth() -> None:
    assert growth([Measured(0, 60, 2), Measured(SEASON, 63, 2)]).shows
    assert not growth([Measured(0, 63, 2), Measured(SEASON, 60, 2)]).shows


@given(lengths, st.permutations(range(8)))
def test_the_order_of_the_visits_does_not_matter(measured: list[Measured], order: list[int]) -> None:
    mixed = [measured[index] for index in order if index < len(measured)]

    assert growth(measured).rate == pytest.approx(growth(mixed).rate, rel=1e-6, abs=1e-9)


@given(lengths, st.floats(-1, 1), st.floats(0, 100))
def test_what_grows_at_a_pace_is_found_to(measured: list[Measured], pace: float, first: float) -> None:
    line = [Measured(one.day, first + pace * one.day, one.error) for one in measured]
    found = growth(line)
    last = max(one.day for one in line)

    assert pace == pytest.approx(found.rate, abs=1e-6)
    assert (last, first + pace * last) == pytest.approx((found.day, found.length), rel=1e-6, abs=1e-3)


@given(lengths)
def test_coarser_measuring_never_shows_more(measured: list[Measured]) -> None:
    coarser = [Measured(one.day, one.length, one.error * 2) for one in measured]

    assert growth(measured).error <= growth(coarser).error * (1 + 1e-9)
    if growth(coarser).shows:
        assert growth(measured).shows


def test_measurements_that_scatter_more_than_they_may_count_for_less() -> None:
    steady = [Measured(day * 100, 50 + day, 1) for day in range(5)]
    wild = [Measured(one.day, one.length + (-1) ** index * 15, 1) for index, one in enumerate(steady)]

    assert growth(steady).shows
    assert not growth(wild).shows


def test_when_it_reaches_a_length() -> None:
    found = Growth(rate=0.1, error=0.05, day=100, length=40, length_error=1)

    assert (100 + 9 / 0.15, 100 + 11 / 0.05) == pytest.approx(found.reaches(50))
    assert (100, 100) == found.reaches(20)
    first, last = Growth(0.0, 0.05, 0, 40, 1).reaches(50)
    assert not isinf(first)
    assert inf == last


def test_when_to_look_again_follows_from_how_well_one_measures() -> None:
    assert 104 == look_again_in(2, 2, 10)
    assert look_again_in(5, 5, 10) > look_again_in(2, 2, 10) > look_again_in(2, 2, 20)


@pytest.mark.parametrize(
    "measured", [[], [Measured(0, 5, 1)], [Measured(3, 5, 1), Measured(3, 9, 1)]], ids=["none", "one", "one day"]
)
def test_what_is_no_two_looks_is_refused(measured: list[Measured]) -> None:
    with pytest.raises(ValueError, match="was measured"):
        growth(measured)
