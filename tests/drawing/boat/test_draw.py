"""The boat: every place is drawn, port is on the left, what she has not is left out, and words tell what is seen."""

from __future__ import annotations

import math
from collections.abc import Iterable

import pytest

from tests.drawing.svg import SVG, classes, read
from triage.drawing.boat.chart import VIEWS, Chart, DrawnPlace, Marker, Spot, Status, View
from triage.drawing.boat.draw import (
    MOST_MARKERS,
    DrawnView,
    draw_boat,
    draw_place,
    draw_place_alone,
    draw_spot,
    draw_view,
    drawn_spots,
    nearest_spots,
    plain_chart,
)
from triage.drawing.svg import style_sheet
from triage.knowledge.model import SIDES, KnowledgeBase

SEEN = DrawnPlace("seen", "")
TITLES: dict[View, str] = {view: f"The view {view}" for view in VIEWS}


def views(chart: Chart) -> dict[str, DrawnView]:
    return {one.view: one for one in draw_boat(chart, TITLES)}


def without(kb: KnowledgeBase, *zones: str) -> Chart:
    return plain_chart(zone for zone in kb.zones if zone not in zones)


def spots_of(kb: KnowledgeBase) -> Iterable[Spot]:
    return [(zone.id, side) for zone in kb.zones.values() for side in (SIDES if zone.sided else ("",))]


def test_every_place_is_drawn_on_each_of_its_sides(kb: KnowledgeBase) -> None:
    drawn = drawn_spots(plain_chart(kb.zones))

    missing = [" ".join(spot) for spot in spots_of(kb) if spot not in drawn]
    assert not missing, f"draw in reports/templates/drawings/boat: {missing}"


def test_port_is_on_the_left_and_starboard_on_the_right_in_every_plan(kb: KnowledgeBase) -> None:
    for view in ("deck", "inside", "under"):
        for (zone, side), (x, _) in views(plain_chart(kb.zones))[view].pen.anchors.items():
            assert side != "port" or x < 195, zone
            assert side != "starboard" or x > 195, zone


def test_port_is_on_the_left_of_the_rig_as_it_is_seen_from_behind(kb: KnowledgeBase) -> None:
    anchors = views(plain_chart(kb.zones))["rig"].pen.anchors

    for zone in ("shrouds", "spreaders", "rig_pins", "trapeze"):
        assert anchors[zone, "port"][0] < anchors[zone, "starboard"][0]


def test_the_bow_is_up_in_every_plan(kb: KnowledgeBase) -> None:
    drawn = views(plain_chart(kb.zones))

    assert drawn["deck"].pen.anchors["stem", ""][1] < drawn["deck"].pen.anchors["transom", ""][1]
    assert drawn["inside"].pen.anchors["mast_step", ""][1] < drawn["inside"].pen.anchors["transom_inside", ""][1]
    assert drawn["under"].pen.anchors["forefoot", ""][1] < drawn["under"].pen.anchors["aft_run", ""][1]


@pytest.mark.parametrize(
    "absent",
    [
        ("bow_pole", "pole_tube", "pole_gear"),
        ("foredeck",),
        ("end_tank",),
        ("shrouds", "spreaders", "rig_pins", "trapeze", "chainplate", "chainplate_under", "forestay_anchor", "furler"),
    ],
)
def test_what_she_has_not_is_not_drawn_and_all_else_is(kb: KnowledgeBase, absent: tuple[str, ...]) -> None:
    drawn = {zone for zone, _ in drawn_spots(without(kb, *absent))}

    assert set(kb.zones) - set(absent) == drawn


def test_an_unstayed_mast_stands_further_forward_without_a_jib(kb: KnowledgeBase) -> None:
    stayed, unstayed = (views(chart) for chart in (plain_chart(kb.zones), without(kb, "shrouds")))

    assert unstayed["deck"].pen.anchors["mast_gate", ""][1] < stayed["deck"].pen.anchors["mast_gate", ""][1]
    assert unstayed["rig"].pen.anchors["mast_low", ""][0] < stayed["rig"].pen.anchors["mast_low", ""][0]
    assert "from behind" not in unstayed["rig"].svg


def test_tanks_run_forward_where_there_is_none_at_the_ends(kb: KnowledgeBase) -> None:
    both, sides = (views(chart)["inside"].svg for chart in (plain_chart(kb.zones), without(kb, "end_tank")))

    assert both != sides
    assert 'data-zone="end_tank"' not in sides


def test_a_view_is_harmless_and_the_same_every_time(kb: KnowledgeBase) -> None:
    statuses: tuple[Status, ...] = ("plain", "not_looked", "seen", "tried", "passed", "found")
    spots = list(spots_of(kb))
    places = {spot: DrawnPlace(statuses[i % 6], f"{spot} & <b>", "#x" if i % 5 else "") for i, spot in enumerate(spots)}
    chart = Chart(places, [Marker(spot, str(i), "open", f'"{i}" & <i>', "#f1") for i, spot in enumerate(spots[::4])])

    first, again = list(draw_boat(chart, TITLES)), list(draw_boat(chart, TITLES))

    assert [one.svg for one in first] == [one.svg for one in again]
    for one in first:
        root = read(one.svg)
        assert {name for name in classes(root) if f".{name}" not in style_sheet()} <= {"words", "plain", "open"}
        assert "group" == root.get("role")
        assert all(group.find("{*}title") is not None for group in root.iter() if group.get("data-zone"))


def test_a_marker_stands_once_for_a_part_and_on_both_sides_where_no_side_was_told(kb: KnowledgeBase) -> None:
    markers = [
        Marker(("bottom", ""), "1", "watch", "1: both"),
        Marker(("case_wall", ""), "2", "weakened", "2: one"),
        Marker(("nowhere", ""), "3", "weakened", "3: none"),
    ]

    drawn = views(Chart(plain_chart(kb.zones).places, markers))

    assert ["1", "1"] == [marker.text for marker in drawn["under"].markers]
    assert ["2"] == [marker.text for marker in drawn["deck"].markers]
    assert () == drawn["inside"].markers == drawn["rig"].markers


def test_a_marker_can_be_reached_and_says_what_it_is(kb: KnowledgeBase) -> None:
    markers = [Marker(("thwart", ""), "1", "weakened", "1: Cross seat", "#f1")]

    root = read(views(Chart(plain_chart(kb.zones).places, markers))["deck"].svg)

    (link,) = (one for one in root.iter() if one.tag.endswith("}a"))
    assert ("#f1", "1: Cross seat") == (link.get("href"), link.get("aria-label"))


def test_a_place_is_shown_on_both_its_sides_and_ringed_where_it_is_small(kb: KnowledgeBase) -> None:
    drawn = list(draw_boat(plain_chart(kb.zones), TITLES))

    small, large = (draw_place(drawn, zone, "here") for zone in ("chainplate", "foredeck"))

    assert (2, 1) == (small.count('class="here"'), large.count('class="here"'))
    assert (4, 0) == (small.count('class="ring'), large.count('class="ring'))
    assert 'href="#boat-deck-hull"' in small
    assert 'href="#boat-deck-chainplate-starboard"' in small
    assert "" == draw_place(drawn, "nowhere", "here")


def test_of_very_many_marks_the_first_are_numbered(kb: KnowledgeBase) -> None:
    markers = [Marker(("thwart", ""), str(i), "watch", "") for i in range(500)]

    deck = views(Chart(plain_chart(kb.zones).places, markers))["deck"]

    assert [str(i) for i in range(MOST_MARKERS)] == [marker.text for marker in deck.markers]


def test_a_mast_is_taken_for_stayed_until_a_tube_for_it_was_seen(kb: KnowledgeBase) -> None:
    unknown = DrawnPlace("not_looked", "")
    places = {(zone, ""): unknown for zone in (*kb.zones, "mast_tube")}

    nothing_known, tube = (views(Chart(one))["deck"] for one in (places, places | {("mast_tube", ""): SEEN}))

    assert {("chainplate", "port"), ("mast_tube", "")} & set(nothing_known.pen.anchors) == {("chainplate", "port")}
    assert {("chainplate", "port"), ("mast_tube", "")} & set(tube.pen.anchors) == {("mast_tube", "")}


def test_what_a_finger_may_have_meant_is_the_place_itself_and_those_nearest(kb: KnowledgeBase) -> None:
    chart = Chart(dict.fromkeys(spots_of(kb), SEEN))
    for view in VIEWS:
        drawn = draw_view(chart, view, TITLES[view])
        for spot, at in drawn.pen.anchors.items():
            nearest = nearest_spots(drawn, spot, at)
            away = [math.dist(drawn.pen.anchors[one], at) for one in nearest]
            assert nearest[0] == spot
            assert len(set(nearest)) == min(4, len(drawn.pen.anchors))
            assert away[1:] == sorted(away[1:])


def test_one_side_of_a_place_is_cut_out_and_ringed(kb: KnowledgeBase) -> None:
    drawn = draw_view(Chart(dict.fromkeys(spots_of(kb), SEEN)), "deck", "deck")
    cut = read(draw_spot(drawn, ("chainplate", "port"), "Shroud anchor, port"))

    assert [use.get("href") for use in cut.iter(f"{SVG}use")] == ["#boat-deck-hull", "#boat-deck-chainplate-port"]
    left, _, wide, _ = (float(number) for number in cut.get("viewBox", "").split())
    assert left < drawn.pen.anchors["chainplate", "port"][0] < left + wide


def test_places_to_be_tapped_are_reached_by_keyboard_and_say_what_they_are(kb: KnowledgeBase) -> None:
    places = {spot: DrawnPlace("seen", f"{spot[0]} {spot[1]}: seen", "#there") for spot in spots_of(kb)}
    svg = read(draw_view(Chart(places, tapped=True), "deck", "deck").svg)
    links = list(svg.iter(f"{SVG}a"))

    assert links
    assert all(link.get("aria-label", "").endswith(": seen") and link.get("tabindex") is None for link in links)
    assert not [group for group in svg.iter(f"{SVG}g") if group.get("aria-hidden") and list(group.iter(f"{SVG}a"))]


def test_a_place_alone_needs_no_other_picture_and_may_stand_twice(kb: KnowledgeBase) -> None:
    for zone in ("chainplate", "foredeck"):
        first, again = (read(draw_place_alone(kb.zones, zone, "Here", name)) for name in ("a", "b"))
        ids = [{part.get("id") for part in root.iter()} - {None} for root in (first, again)]

        assert "Here" == first.get("aria-label")
        assert not [part for part in first.iter() if part.tag.endswith("use")]
        assert "found" in classes(first)
        assert not ids[0] & ids[1]
    assert not draw_place_alone(kb.zones, "moon", "Nowhere", "a")
