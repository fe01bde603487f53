"""Agreement, shares and their intervals against published examples; each names where its data and value stand."""

from __future__ import annotations

import math

import pytest

from triage.teaching.agreement import Estimate, alpha, alpha_of, difference, kappa, kappa_among, mean, share


def value(estimate: Estimate | None) -> float:
    assert estimate is not None
    return estimate.value


@pytest.mark.parametrize(
    ("found", "of", "method", "low", "high"),
    [
        (3, 20, "beta", 0.03207, 0.37893),  # Clopper and Pearson, computed with scipy and statsmodels alike
        (3, 20, "wilson", 0.05237, 0.36042),
        (0, 30, "beta", 0.0, 0.11570),
    ],
)
def test_shares_have_the_intervals_of_wilson_and_of_clopper_and_pearson(
    found: int, of: int, method: str, low: float, high: float
) -> None:
    estimate = share(found, of, method)  # type: ignore[arg-type]

    assert estimate is not None
    assert estimate.low == pytest.approx(low, abs=5e-6)
    assert estimate.high == pytest.approx(high, abs=5e-6)


def test_nothing_found_in_59_means_less_than_one_in_twenty() -> None:
    """The classic 95/95: with 59 looked at and none found, one is 95 % sure of a share below 5 %; with 29, of 10 %."""
    for of, most in ((59, 0.05), (29, 0.10)):
        assert 0.05 > (1 - most) ** of
        assert 0.05 < (1 - most) ** (of - 1)
        estimate = share(0, of, "beta")
        assert estimate is not None
        assert estimate.high is not None
        assert estimate.high == pytest.approx(1 - 0.025 ** (1 / of))  # two-sided, of nothing found


def test_newcombes_interval_of_a_difference() -> None:
    """Fagerland and others 2015, as statsmodels has it (test_proportion.py): 7/34 against 1/34, 0.019 to 0.34."""
    grew = difference((1, 34), (7, 34))

    assert grew is not None
    assert grew.value == pytest.approx(6 / 34)
    assert grew.low == pytest.approx(0.019, abs=5e-4)
    assert grew.high == pytest.approx(0.34, abs=5e-3)


def test_kappa_of_two_who_judge_yes_or_no() -> None:
    """The worked example of the Wikipedia page on Cohen's kappa."""
    assert value(kappa([[20, 5], [10, 15]])) == pytest.approx(0.40)


def test_kappa_of_the_docstring_of_scikit_learn() -> None:
    """``cohen_kappa_score``: negative, positive, neutral by two annotators."""
    first, second = ["neg", "pos", "neg", "neu", "pos"], ["neg", "pos", "neg", "neu", "neg"]
    words = ["neg", "neu", "pos"]
    pairs = list(zip(first, second, strict=True))

    assert value(kappa([[pairs.count((one, other)) for other in words] for one in words])) == pytest.approx(0.6875)


def test_weighted_kappa_of_landis_and_koch() -> None:
    """Landis and Koch 1977: 149 patients with multiple sclerosis, judged by two neurologists."""
    table = [[38, 5, 0, 1], [33, 11, 3, 0], [10, 14, 5, 6], [3, 7, 3, 10]]

    assert value(kappa(table)) == pytest.approx(0.208, abs=5e-4)
    assert value(kappa(table, "linear")) == pytest.approx(0.3797, abs=5e-5)
    assert value(kappa(table, "quadratic")) == pytest.approx(0.5246, abs=5e-5)


WIKIPEDIA = [
    [0, 0, 0, 0, 14],
    [0, 2, 6, 4, 2],
    [0, 0, 3, 5, 6],
    [0, 3, 9, 2, 0],
    [2, 2, 8, 1, 1],
    [7, 7, 0, 0, 0],
    [3, 2, 6, 3, 0],
    [2, 5, 3, 2, 2],
    [6, 5, 2, 1, 0],
    [0, 2, 2, 3, 7],
]


def test_fleiss_kappa_of_fourteen_raters() -> None:
    """The worked example of the Wikipedia page on Fleiss' kappa; also statsmodels, test_inter_rater.py, table1."""
    assert kappa_among(WIKIPEDIA) == pytest.approx(0.20993, abs=5e-6)


DIAGNOSES = """444444 222555 233335 555555 222444 113333 333355 113334 114444 555555 144444 124444 222333 144444 224445
333335 111455 111112 224444 133555 555555 244444 224555 114444 144445 222224 111155 224444 133333 555555"""


def test_fleiss_kappa_of_psychiatric_diagnoses() -> None:
    """Fleiss 1971, as R's irr (diagnoses) and statsmodels (test_inter_rater.py) have it: 30 patients, six raters."""
    table = [[one.count(str(level)) for level in range(1, 6)] for one in DIAGNOSES.split()]

    assert kappa_among(table) == pytest.approx(0.43024, abs=5e-6)


def test_kappa_with_chance_fixed_and_free() -> None:
    """statsmodels, test_inter_rater.py: 0.161905 by Fleiss, 0.214286 by Randolph."""
    table = [[7, 1], [3, 5]]

    assert kappa_among(table, "fleiss") == pytest.approx(0.161905, abs=5e-7)
    assert kappa_among(table, "randolph") == pytest.approx(0.214286, abs=5e-7)


C_DATA: list[list[float | None]] = [
    [1, 2, 3, 3, 2, 1, 4, 1, 2, None, None, None],
    [1, 2, 3, 3, 2, 2, 4, 1, 2, 5, None, 3],
    [None, 3, 3, 3, 2, 3, 4, 2, 2, 5, 1, None],
    [1, 2, 3, 3, 2, 4, 4, 1, 2, 5, 1, None],
]


@pytest.mark.parametrize(
    ("level", "expected"), [("nominal", 0.743), ("ordinal", 0.815), ("interval", 0.849), ("ratio", 0.797)]
)
def test_alpha_of_krippendorffs_c_data(level: str, expected: float) -> None:
    """Krippendorff's "C data", in the docstring of krippendorff.alpha and of R's irr::kripp.alpha."""
    assert alpha(C_DATA, level) == pytest.approx(expected, abs=5e-4)  # type: ignore[arg-type]


THREE_CODERS = [
    "*    *    *    *    *    3    4    1    2    1    1    3    3    *    3",
    "1    *    2    1    3    3    4    3    *    *    *    *    *    *    *",
    "*    *    2    1    3    4    4    *    2    1    1    3    3    *    4",
]


def test_alpha_of_three_coders_and_fifteen_units() -> None:
    """The worked example of the Wikipedia page on Krippendorff's alpha: nominal 0.691, interval 0.811."""
    data = [[None if one == "*" else float(one) for one in row.split()] for row in THREE_CODERS]

    assert alpha(data, "nominal") == pytest.approx(0.691358, abs=5e-7)
    assert alpha(data, "interval") == pytest.approx(0.811, abs=5e-4)


def test_intervals_hold_their_figure_and_are_the_same_every_time() -> None:
    for estimate in (alpha_of(C_DATA), mean([0.04, 0.09, 0.49, 0.01, 0.25, 0.16])):
        assert estimate is not None
        assert estimate.low is not None
        assert estimate.high is not None
        assert estimate.low <= estimate.value <= estimate.high
    assert alpha_of(C_DATA) == alpha_of(C_DATA)


def test_nothing_is_made_up_where_there_is_too_little() -> None:
    assert share(0, 0) is None
    assert difference((0, 0), (1, 2)) is None
    assert kappa([[3, 0], [0, 0]]) is None
    assert kappa([[0, 0], [0, 0]]) is None
    assert kappa_among([]) is None
    assert kappa_among([[2, 0], [2, 0]]) is None
    assert alpha([[1, None], [None, 2]]) is None
    assert alpha([]) is None
    assert alpha([[1, 1], [1, 1]]) is None
    assert mean([]) is None
    assert mean([0.25, 0.25]) == Estimate(0.25, None, None, 2)
    assert math.inf == Estimate(0.25, None, None, 2).width
    full = kappa([[3, 0], [0, 2]])
    assert full is not None
    assert (1.0, None) == (full.value, full.low)
