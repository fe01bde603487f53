"""Amounts of money against scipy and against worked examples that others have published."""

from __future__ import annotations

import itertools
import math
import random

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy import integrate, special, stats

from triage.buying.amounts import Line, Shape, ThreePoint, incomplete_beta, total

Points = tuple[int, int, int]
POINTS = st.tuples(*[st.integers(0, 2000)] * 3).map(lambda drawn: (min(drawn), sorted(drawn)[1], max(drawn)))
SHAPES: st.SearchStrategy[Shape] = st.sampled_from(["pert", "triangular"])


def theirs(amount: ThreePoint):  # type: ignore[no-untyped-def]  # scipy has no types
    a, m, b = amount.least, amount.likely, amount.most
    if amount.shape == "triangular":
        return stats.triang((m - a) / (b - a), a, b - a)
    return stats.beta(1 + 4 * (m - a) / (b - a), 1 + 4 * (b - m) / (b - a), a, b - a)


def test_handbook_formulas_for_80_150_400() -> None:
    """Mean (a+m+b)/3 and (a+4m+b)/6 as planning pages print them; sd and quantiles by scipy."""
    triangle, pert = ThreePoint(80, 150, 400, "triangular"), ThreePoint(80, 150, 400)

    assert (210, 180) == (triangle.mean, pert.mean)
    assert [68.678, 56.061] == pytest.approx([triangle.sd, pert.sd], abs=0.001)
    assert 200.00 == pytest.approx(total([Line(triangle)]).quantile(0.5), abs=0.5)
    assert [273.509, 228.922] == pytest.approx(
        [total([Line(triangle)]).quantile(0.8), total([Line(pert)]).quantile(0.8)], abs=0.5
    )


@given(st.floats(0.1, 30), st.floats(0.1, 30), st.floats(0, 1))
def test_incomplete_beta_is_scipys(a: float, b: float, x: float) -> None:
    assert special.betainc(a, b, x) == pytest.approx(incomplete_beta(a, b, x), abs=1e-12)


@given(POINTS, SHAPES, st.floats(0, 1))
def test_mean_sd_and_chance_are_scipys(points: Points, shape: Shape, at: float) -> None:
    amount = ThreePoint(*points, shape)
    if amount.least == amount.most:
        return
    value = amount.least + at * (amount.most - amount.least)

    assert theirs(amount).mean() == pytest.approx(amount.mean)
    assert theirs(amount).std() == pytest.approx(amount.sd)
    assert theirs(amount).cdf(value) == pytest.approx(amount.below(value), abs=1e-9)


@given(POINTS, SHAPES)
def test_the_grid_keeps_the_mean_exactly(points: Points, shape: Shape) -> None:
    amount = ThreePoint(*points, shape)
    spread = total([Line(amount)])

    assert amount.mean == pytest.approx(spread.mean, abs=1e-6 * max(1, amount.most))
    assert amount.sd == pytest.approx(spread.sd, abs=spread.step)
    assert 1 == pytest.approx(sum(spread.weights))


def test_two_lines_added_are_the_integral_that_scipy_finds() -> None:
    first, second = ThreePoint(80, 150, 400), ThreePoint(40, 60, 300, "triangular")
    spread = total([Line(first), Line(second)])

    for value in (150, 250, 330, 420, 600):
        below, _ = integrate.quad(lambda x, v=value: theirs(first).pdf(x) * theirs(second).cdf(v - x), 80, 400)
        assert 1 - below == pytest.approx(spread.exceeds(value), abs=0.003)


def test_a_line_that_may_not_come_is_the_mixture() -> None:
    amount, instead = ThreePoint(200, 400, 900), ThreePoint(20, 30, 60)
    spread = total([Line(amount, 0.25, instead)])
    ends = (theirs(amount), theirs(instead))

    assert 0.25 * amount.mean + 0.75 * instead.mean == pytest.approx(spread.mean)
    for value in (10, 40, 100, 300, 500):
        wanted = 0.25 * ends[0].sf(value) + 0.75 * ends[1].sf(value)
        assert wanted == pytest.approx(spread.exceeds(value), abs=0.02)


def test_the_total_is_what_drawing_at_random_gives() -> None:
    lines = [
        Line(ThreePoint(80, 150, 400)),
        Line(ThreePoint(100, 300, 900), 0.3, cause="hit the bottom"),
        Line(ThreePoint(50, 80, 200), 0.3, ThreePoint(10, 20, 30), cause="hit the bottom"),
        Line(ThreePoint(40, 60, 300, "triangular"), 0.15),
    ]
    draw = random.Random(15)
    many = 20_000
    drawn = [theirs(line.amount).rvs(many, random_state=number) for number, line in enumerate(lines)]
    instead = theirs(ThreePoint(10, 20, 30)).rvs(many, random_state=9)
    sums = []
    for k in range(many):
        struck, alone = draw.random() < 0.3, draw.random() < 0.15
        paid = drawn[1][k] + drawn[2][k] if struck else instead[k]
        sums.append(drawn[0][k] + paid + (drawn[3][k] if alone else 0.0))
    spread = total(lines)

    assert sum(sums) / len(sums) == pytest.approx(spread.mean, rel=0.02)
    for chance in (0.1, 0.5, 0.9):
        assert chance == pytest.approx(sum(one <= spread.quantile(chance) for one in sums) / len(sums), abs=0.015)


def test_a_shared_cause_widens_the_total_and_leaves_the_mean() -> None:
    amount = ThreePoint(300, 300, 300)
    apart = total([Line(amount, 0.2), Line(amount, 0.2)])
    together = total([Line(amount, 0.2, cause="a"), Line(amount, 0.2, cause="a")])

    assert 120 == pytest.approx(apart.mean)
    assert 120 == pytest.approx(together.mean)
    assert math.sqrt(2 * 0.16) * 300 == pytest.approx(apart.sd, rel=0.01)
    assert 0.4 * 600 == pytest.approx(together.sd, rel=0.01)
    assert 0.2 == pytest.approx(together.exceeds(450))
    assert 0.04 == pytest.approx(apart.exceeds(450))


@given(st.lists(st.tuples(POINTS, st.floats(0, 1), st.sampled_from(["", "a", "b"])), max_size=5), st.randoms())
def test_the_order_of_lines_changes_nothing(given_: list[tuple[Points, float, str]], draw: random.Random) -> None:
    lines = [Line(ThreePoint(*points), chance, None, cause) for points, chance, cause in given_]
    shuffled = draw.sample(lines, len(lines))
    one, other = total(lines, 200), total(shuffled, 200)

    assert sum(line.mean for line in lines) == pytest.approx(one.mean, abs=0.01)
    assert one.mean == pytest.approx(other.mean, abs=0.01)
    for chance, following in itertools.pairwise((0.1, 0.5, 0.9)):
        assert one.quantile(chance) <= one.quantile(following) + one.step
    assert 0 == pytest.approx(one.exceeds(sum(line.amount.most for line in lines) + 6 * one.step))


def test_no_lines_cost_nothing() -> None:
    assert 0 == total([]).mean
    assert 0 == total([]).exceeds(1)


@pytest.mark.parametrize("points", [(3, 2, 4), (0, 5, 4), (0, 1, math.inf), (math.nan, 1, 2)])
def test_points_that_do_not_run_upwards_are_refused(points: tuple[float, float, float]) -> None:
    with pytest.raises(ValueError, match="do not run"):
        ThreePoint(*points)


def test_the_beta_of_80_150_400_is_not_the_short_cut() -> None:
    """α 1.875 and β 4.125, by scipy; (b − a) / 6, which planning pages print for the sd, says 53.333."""
    pert = ThreePoint(80, 150, 400)

    assert stats.beta(1.875, 4.125, 80, 320).std() == pytest.approx(pert.sd)
    assert stats.beta(1.875, 4.125, 80, 320).ppf(0.8) == pytest.approx(228.922, abs=0.001)
    assert 53.333 == pytest.approx((pert.most - pert.least) / 6, abs=0.001)
    assert pert.sd > 56
