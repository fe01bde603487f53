"""Lines through a table of offsets: through every offset, and never beyond the table between two."""

from __future__ import annotations

from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from triage.drawing.boat.hull import hull_lines, through


@given(st.lists(st.floats(0, 1000), min_size=3, max_size=12))
def test_a_line_goes_through_the_table_and_stays_between_neighbours(offsets: list[float]) -> None:
    stations = [100.0 * i for i in range(len(offsets))]
    line = through(stations, offsets)

    assert offsets == pytest.approx([line(x) for x in stations])
    for (x0, y0), (x1, y1) in pairwise(zip(stations, offsets, strict=True)):
        for part in (0.1, 0.37, 0.5, 0.93):
            assert min(y0, y1) - 1e-6 <= line(x0 + part * (x1 - x0)) <= max(y0, y1) + 1e-6


def test_beyond_its_ends_a_line_stays_as_it_is_there() -> None:
    line = hull_lines()["sheer"]

    assert line(-500) == line(0) == 590
    assert line(9000) == line(4200) == 26


def test_she_has_the_lines_that_the_views_draw() -> None:
    assert {"sheer", "chine", "sheer_height", "chine_height", "keel_height", "well", "open_well"} == set(hull_lines())
