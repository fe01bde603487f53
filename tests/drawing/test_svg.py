"""How lengths and paths of every drawing are written."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from triage.drawing.svg import n, path

LENGTHS = st.one_of(st.floats(-5000, 5000), st.floats(-0.2, 0.2), st.integers(-50, 50).map(float))


@pytest.mark.parametrize(("length", "written"), [(3, "3"), (3.14, "3.1"), (-0.04, "0"), (-0.06, "-0.1"), (100, "100")])
def test_a_length_has_one_decimal_at_the_most(length: float, written: str) -> None:
    assert written == n(length)


@given(st.lists(st.tuples(LENGTHS, LENGTHS), min_size=1))
def test_a_path_writes_its_lengths_as_any_other_is_written(points: list[tuple[float, float]]) -> None:
    assert "M" + "L".join(f"{n(x)} {n(y)}" for x, y in points) == path(points)
    assert f"{path(points)}Z" == path(points, closed=True)
