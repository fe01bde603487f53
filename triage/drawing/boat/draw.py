"""The boat as pictures: each view of her, with how her places stand and with numbered markers."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass

from markupsafe import Markup

from triage.drawing.boat.chart import VIEWS, Chart, DrawnPlace, Marker, Spot, View
from triage.drawing.boat.markers import GAP, Columns, place
from triage.drawing.boat.pen import LENGTH, SIDES, TOOLS, BoatPen
from triage.drawing.svg import Point, drawings

WIDTH = 390.0
"""Of a view, in units: those of a phone."""

HEIGHTS: Mapping[View, float] = {"deck": 560, "inside": 506, "under": 506, "rig": 606}

POLE = 44.0
"""What the deck plan takes more where there is a pole at the bow."""

NEAR, FAR = 56.0, 105.0
"""How far round a small place, and round any other, is shown in a picture of it alone, in units."""

CLOSER = 0.75
"""How much closer a place on one side alone is shown than both sides together."""

MOST_MARKERS = 36
"""On one view; of more, the first. They would be too small to read, and the list beside the picture has them all."""

MARGIN = 28.0
"""From an edge to the middle of a column of markers."""


@dataclass(frozen=True)
class DrawnView:
    """A view: its SVG, the pen that drew it and remembers where each place is, and the markers that stand on it."""

    view: View
    svg: Markup
    pen: BoatPen
    markers: tuple[Marker, ...]


def draw_boat(chart: Chart, titles: Mapping[View, str], name: str = "boat") -> Iterator[DrawnView]:
    """Every view of the boat, drawn when it is asked for. ``titles`` say what each is, ``name`` is before every id.

    A marker stands on the first view that shows its place, and on none when none does.
    """
    left = list(chart.markers)
    for view in VIEWS:
        pen, body = _shapes(chart, view, f"{name}-{view}")
        here = [(marker, point) for marker in left for point in pen.points_of(marker.spot)]
        left = [marker for marker in left if not pen.points_of(marker.spot)]
        yield _framed(pen, body, view, titles[view], here[:MOST_MARKERS])


def draw_view(chart: Chart, view: View, title: str, name: str = "boat") -> DrawnView:
    """One view of the boat, with every marker whose place it shows."""
    pen, body = _shapes(chart, view, f"{name}-{view}")
    here = [(marker, point) for marker in chart.markers for point in pen.points_of(marker.spot)]
    return _framed(pen, body, view, title, here[:MOST_MARKERS])


def draw_place(views: Iterable[DrawnView], zone: str, says: str) -> Markup:
    """The place out of the first of these views that shows it, on both sides, coloured and ringed where it is small.

    The view stands on the same page. Empty when no view has the place.
    """
    for pen in (view.pen for view in views):
        spots = [spot for spot in pen.anchors if spot[0] == zone]
        if spots:
            crop, rings, radius = _close_up(pen, spots)
            template = drawings().get_template("boat/crop.svg")
            return Markup(template.render(pen=pen, spots=spots, rings=rings, crop=crop, radius=radius, says=says))
    return Markup()


def _close_up(pen: BoatPen, spots: list[Spot]) -> tuple[tuple[float, float, float], list[Point], float]:
    """Which square of the view shows these spots, where the small ones are ringed, and how wide a ring is."""
    reach = NEAR if pen.small.intersection(spots) else FAR
    across, down = zip(*(pen.anchors[spot] for spot in spots), strict=True)
    side = max(max(across) - min(across), max(down) - min(down)) + 2 * reach
    crop = ((min(across) + max(across) - side) / 2, (min(down) + max(down) - side) / 2, side)
    return crop, [pen.anchors[spot] for spot in spots if spot in pen.small], side / 8


def draw_place_alone(zones: Iterable[str], zone: str, says: str, name: str) -> Markup:
    """The place on a boat with these zones, in a picture that needs no other on its page; empty when no view has it.

    ``name`` comes before every id.
    """
    chart = Chart({(one, ""): DrawnPlace("found" if one == zone else "plain", "") for one in zones})
    for view in VIEWS:
        pen, body = _shapes(chart, view, f"{name}-{view}")
        spots = [spot for spot in pen.anchors if spot[0] == zone]
        if spots:
            crop, rings, radius = _close_up(pen, spots)
            template = drawings().get_template("boat/place.svg")
            return Markup(template.render(body=Markup(body), crop=crop, rings=rings, radius=radius, says=says))
    return Markup()


def draw_spot(view: DrawnView, spot: Spot, says: str) -> Markup:
    """The place on this side alone, out of a view that stands on the same page, coloured and ringed."""
    pen = view.pen
    at = pen.anchors[spot]
    reach = NEAR if spot in pen.small else FAR * CLOSER
    crop = (at[0] - reach, at[1] - reach, 2 * reach)
    template = drawings().get_template("boat/crop.svg")
    return Markup(template.render(pen=pen, spots=[spot], rings=[at], crop=crop, radius=reach / 4, says=says))


def nearest_spots(view: DrawnView, spot: Spot | None, at: Point, most: int = 4) -> list[Spot]:
    """The place that was hit, if any, and those nearest to a point of this view: what a finger may have meant."""
    anchors = view.pen.anchors
    return sorted(anchors, key=lambda other: (other != spot, math.dist(anchors[other], at)))[:most]


def drawn_spots(chart: Chart) -> dict[Spot, View]:
    """The places of the chart as they are drawn, side by side, and the first view that shows each."""
    found: dict[Spot, View] = {}
    for view in VIEWS:
        for spot in _shapes(chart, view, view)[0].anchors:
            found.setdefault(spot, view)
    return found


def plain_chart(zones: Iterable[str]) -> Chart:
    """A chart of these places on which all stand alike, with nothing said of them."""
    return Chart({(zone, ""): DrawnPlace("plain", "") for zone in zones})


def _shapes(chart: Chart, view: View, name: str) -> tuple[BoatPen, str]:
    pen = BoatPen(chart, name)
    tools = {tool: getattr(pen, tool) for tool in TOOLS}
    return pen, drawings().get_template(f"boat/{view}.svg").render(tools, sides=SIDES)


def _framed(pen: BoatPen, body: str, view: View, title: str, marks: list[tuple[Marker, Point]]) -> DrawnView:
    height = HEIGHTS[view] + (POLE if view == "deck" and pen.has("bow_pole") else 0)
    placed, gap = place(marks, _columns(view, height))
    svg = (
        drawings()
        .get_template("boat/frame.svg")
        .render(
            body=Markup(body),
            pen=pen,
            view=view,
            title=title,
            width=WIDTH,
            height=height,
            placed=placed,
            size=min(1.0, gap / GAP),
            bar=250 * pen.scale,
            bow=pen.p(LENGTH, 0)[1] - 12,
        )
    )
    return DrawnView(view, Markup(svg), pen, tuple(marker for marker, _ in marks))


def _columns(view: View, height: float) -> Columns:
    """On the side view the columns keep clear of the masthead and of what stays on land."""
    if view == "rig":
        return Columns(left=MARGIN, right=WIDTH - MARGIN, top=56, bottom=470, middle=220)
    return Columns(left=MARGIN, right=WIDTH - MARGIN, top=44, bottom=height - 44, middle=WIDTH / 2)
