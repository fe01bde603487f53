"""Ranges and money as bands: what is left is as wide as it is, and the same is said in words."""

from __future__ import annotations

import itertools
import re

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.drawing.svg import classes, read
from triage.drawing.bands import MOST_MARKS, WIDTH, Level, Narrowing, Sum, draw_narrowing, draw_sums, mark_step
from triage.drawing.svg import style_sheet

LEVELS = (Level("cosmetic", "looks"), Level("monitor", "watch"), Level("structural", "weakened"))


def left_over(svg: str) -> tuple[float, float]:
    """From where to where the last row reaches."""
    found = re.search(r'class="now" x="([\d.]+)" y="[\d.]+" width="([\d.]+)"', svg)
    assert found
    return float(found[1]), float(found[1]) + float(found[2])


@pytest.mark.parametrize(
    ("low", "high", "expected"), [(0, 2, (0, 1)), (1, 2, (1 / 3, 1)), (1, 1, (1 / 3, 2 / 3)), (0, 0, (0, 1 / 3))]
)
def test_what_is_left_is_as_wide_as_the_levels_it_takes_in(low: int, high: int, expected: tuple[float, float]) -> None:
    svg = draw_narrowing(LEVELS, [Narrowing(0, 2, "at first"), Narrowing(low, high, "now")], "in words")

    assert [part * WIDTH for part in expected] == pytest.approx(left_over(svg), abs=1.2)
    assert 3 - (high - low + 1) == svg.count('class="level out"')


def test_a_band_is_harmless_and_says_what_it_shows() -> None:
    history = [Narrowing(0, 2, 'a "quoted" <answer>'), Narrowing(1, 2, "b" * 60)]

    svg = draw_narrowing(LEVELS, history, "said & done")

    root = read(svg)
    assert ("img", "said & done") == (root.get("role"), root.get("aria-label"))
    assert not [name for name in classes(root) if f".{name}" not in style_sheet()]
    assert svg == draw_narrowing(
        LEVELS, [Narrowing(0, 2, 'a "quoted" <answer>'), Narrowing(1, 2, "b" * 60)], "said & done"
    )


def test_the_water_never_widens_downwards_when_answers_rule_things_out() -> None:
    history = [Narrowing(0, 2, ""), Narrowing(0, 1, ""), Narrowing(1, 1, "")]

    widths = []
    for rows in range(1, 4):
        left, right = left_over(draw_narrowing(LEVELS, history[:rows], ""))
        widths.append(right - left)

    assert sorted(widths, reverse=True) == widths


def test_an_answer_that_one_line_does_not_hold_is_told_whole_and_pushes_down_what_is_below_it() -> None:
    long, short = "the fitting can be seen to move, by up to 1.5 mm", "the fitting lifts"

    drawn = draw_narrowing(LEVELS, [Narrowing(0, 2, long), Narrowing(1, 2, short)], "")

    told = re.findall(r'class="answer(?: last)?" x="([\d.]+)" y="([\d.]+)">([^<]*)', drawn)
    heights = [float(y) for _, y, _ in told]
    assert long == " ".join(words for *_, words in told[:-1])
    assert short == told[-1][2]
    assert min(below - above for above, below in itertools.pairwise(heights)) >= 17
    assert all(0 < float(x) - len(words) * 3.5 < float(x) + len(words) * 3.5 < WIDTH for x, _, words in told)


def test_nothing_is_drawn_of_nothing() -> None:
    with pytest.raises(ValueError, match="at least one row"):
        draw_narrowing(LEVELS, [], "")
    with pytest.raises(ValueError, match="nothing to add up"):
        draw_sums([], "", "")


@given(st.lists(st.tuples(st.floats(0, 5000), st.floats(0, 5000)), min_size=1, max_size=6))
def test_sums_stay_on_their_scale_and_their_total_is_theirs(ends: list[tuple[float, float]]) -> None:
    sums = [Sum(f"job {i}", min(pair), max(pair)) for i, pair in enumerate(ends)]

    svg = draw_sums(sums, "all", "in words")

    read(svg)
    bars = [
        (float(x), float(w)) for x, w in re.findall(r'class="sum[^"]*" x="([\d.]+)" y="[\d.]+" width="([\d.]+)"', svg)
    ]
    assert len(sums) + (len(sums) > 1) == len(bars)
    assert all(12 <= x <= x + width <= WIDTH for x, width in bars)
    if len(sums) > 1:
        assert f"{sum(one.least for one in sums):.0f} to {sum(one.most for one in sums):.0f}" in svg


@given(st.floats(0, 1e6))
def test_marks_are_few_and_at_round_numbers(most: float) -> None:
    step = mark_step(most)

    assert most / step <= MOST_MARKS
    assert re.fullmatch(r"[125]0*|0\.[125]", f"{step:g}".replace("e+05", "00000"))
