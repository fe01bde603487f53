"""Numbers beside the boat: no two leaders cross, no two markers overlap, and each is as near as it can be."""

from __future__ import annotations

import random
from itertools import combinations

import pytest

from triage.drawing.boat.chart import VIEWS, Marker
from triage.drawing.boat.draw import draw_boat, plain_chart
from triage.drawing.boat.markers import GAP, Columns, cross, place, spread
from triage.drawing.svg import Point
from triage.knowledge.model import KnowledgeBase

COLUMNS = Columns(left=28, right=362, top=44, bottom=462, middle=195)


def marks(points: list[Point]) -> list[tuple[Marker, Point]]:
    return [(Marker((f"z{i}", ""), str(i), "watch", ""), point) for i, point in enumerate(points)]


@pytest.mark.parametrize("many", [2, 6, 12, 22])
def test_leaders_never_cross_and_markers_never_overlap(kb: KnowledgeBase, many: int) -> None:
    titles = dict.fromkeys(VIEWS, "")
    chosen = random.Random(many)
    for view in draw_boat(plain_chart(kb.zones), titles):
        points = sorted(view.pen.anchors.values())
        for _ in range(60):
            placed, gap = place(marks(chosen.sample(points, min(many, len(points)))), COLUMNS)

            assert not [1 for one, other in combinations(placed, 2) if cross(one, other)]
            for one, other in combinations(placed, 2):
                assert one.at[0] != other.at[0] or abs(one.at[1] - other.at[1]) >= gap - 1e-6
            assert all(COLUMNS.top - 1e-6 <= one.at[1] <= COLUMNS.bottom + 1e-6 for one in placed)


def test_a_marker_is_on_the_side_of_its_mark_and_in_the_middle_where_fewer_are() -> None:
    placed, _ = place(marks([(100, 100), (290, 100), (300, 200), (195, 300)]), COLUMNS)

    assert {"0": 28, "1": 362, "2": 362, "3": 28} == {one.marker.text: one.at[0] for one in placed}


def test_markers_stand_closer_where_there_are_more_than_room_for() -> None:
    few, many = (place(marks([(100, 10.0 * i) for i in range(number)]), COLUMNS)[1] for number in (5, 30))

    assert GAP == few
    assert 0 < many < GAP


def test_heights_move_no_more_than_they_must() -> None:
    assert [100, 200] == spread([100, 200], 40, 0, 400)
    assert [80, 120] == spread([100, 100], 40, 0, 400)
    assert [20, 60, 100] == spread([0, 0, 0], 40, 20, 400)
    assert [320, 360, 400] == spread([390, 395, 400], 40, 0, 400)
