"""The pen with which the views of the boat are drawn: millimetres of the boat in, shapes of the picture out."""

from __future__ import annotations

import math
from collections.abc import Sequence

from markupsafe import Markup, escape

from triage.drawing.boat.chart import Chart, Spot
from triage.drawing.boat.hull import points_on
from triage.drawing.svg import Point, middle, n, path

LENGTH = 4200
"""Of the boat, in mm."""

SIDES = (("port", -1), ("starboard", 1))
"""With the bow up and seen from above, port is to the left."""

TOOLS = (
    *("on", "has", "known", "stayed", "p", "box", "along", "across", "curve", "line", "outline", "ghost", "word"),
    *("area", "areas", "band", "wire", "spot", "sheet", "sling", "wheel"),
)
"""The tools that a view has."""

SMALL = 20
"""A place that is meant within no more than so many units is a small one."""

_FILLS = {"not_looked": "fog", "seen": "dots", "tried": "dots"}


class BoatPen:
    """Draws one view of one boat, and remembers where each place is, under which id, and which are small."""

    def __init__(self, chart: Chart, name: str) -> None:
        """``name`` comes before the id of every part, so that several views may stand on one page."""
        self.chart, self.name = chart, name
        self.anchors: dict[Spot, Point] = {}
        self.labels: dict[Spot, str] = {}
        self.small: set[Spot] = set()
        self.scale, self.left, self.top = 0.105, 195.0, 30.0
        self.upright = False

    def on(self, scale: float, left: float, top: float, upright: bool = False) -> str:
        """Set the scale (units to the mm) and where the stem's deck edge (upright: its lowest point) is."""
        self.scale, self.left, self.top, self.upright = scale, left, top, upright
        return ""

    def has(self, zone: str) -> bool:
        """Whether she has the place."""
        return self.chart.has(zone)

    def known(self, zone: str) -> bool:
        """Whether she has the place for certain, because somebody looked at it."""
        return any(named == zone and place.status != "not_looked" for (named, _), place in self.chart.places.items())

    def stayed(self) -> bool:
        """Whether wires hold up her mast, as far as is known; a tube for the mast tells against it."""
        return self.has("shrouds") and (self.known("shrouds") or not self.known("mast_tube"))

    def p(self, x: float, y: float) -> Point:
        """A point ``x`` mm from the stern; ``y`` mm to starboard of the middle, or up when the view is upright."""
        if self.upright:
            return self.left + (LENGTH - x) * self.scale, self.top - y * self.scale
        return self.left + y * self.scale, self.top + (LENGTH - x) * self.scale

    def box(self, x0: float, x1: float, y0: float, y1: float) -> list[Point]:
        """A rectangle between two stations and two breadths or heights."""
        return [self.p(x1, y0), self.p(x1, y1), self.p(x0, y1), self.p(x0, y0)]

    def along(self, line: str, start: float, end: float, side: float = 1, inset: float = 0) -> list[Point]:
        """Points along a line of the hull, ``inset`` mm nearer the middle; upright, that much lower."""
        return [self.p(x, side * (length - inset)) for x, length in points_on(line, start, end)]

    def across(self, line: str, start: float, end: float, inset: float = 0) -> list[Point]:
        """Forward along a line on the port side and back along it on the other."""
        return self.along(line, start, end, -1, inset) + self.along(line, end, start, 1, inset)

    def points_of(self, spot: Spot) -> list[Point]:
        """Where the place is on this view: on both sides where no side is told; nowhere if it is not shown."""
        zone, side = spot
        wanted = [point for (named, one), point in self.anchors.items() if named == zone and side in ("", one)]
        return wanted or [point for named, point in self.anchors.items() if named == (zone, "")]

    def curve(self, start: Point, pull: Point, end: Point) -> list[Point]:
        """Points from the start to the end, bent towards ``pull`` (a quadratic Bézier curve)."""
        steps = [i / 16 for i in range(17)]
        weights = [((1 - t) ** 2, 2 * t * (1 - t), t**2) for t in steps]
        return [
            (a * start[0] + b * pull[0] + c * end[0], a * start[1] + b * pull[1] + c * end[1]) for a, b, c in weights
        ]

    def area(self, zone: str, points: Sequence[Point], side: str = "", at: Point | None = None, hit: float = 0) -> str:
        """A place as a filled outline; ``at`` is where a mark points, ``hit`` the radius within which it is meant."""
        return self.part(zone, f'<path d="{path(points, closed=True)}"/>', at or middle(points), side, hit)

    def areas(self, zone: str, outlines: Sequence[Sequence[Point]], at: Point) -> str:
        """A place of several pieces."""
        return self.part(zone, "".join(f'<path d="{path(one, closed=True)}"/>' for one in outlines), at)

    def band(
        self, zone: str, points: Sequence[Point], side: str = "", at: Point | None = None, width: float = 4.6
    ) -> str:
        """A seam or a strip: a line with some width, so that it can be hatched."""
        left, right = [], []
        for i, (x, y) in enumerate(points):
            (x0, y0), (x1, y1) = points[max(i - 1, 0)], points[min(i + 1, len(points) - 1)]
            length = math.hypot(x1 - x0, y1 - y0) or 1
            dx, dy = (x1 - x0) / length * width / 2, (y1 - y0) / length * width / 2
            left.append((x - dy, y + dx))
            right.append((x + dy, y - dx))
        return self.area(zone, left + right[::-1], side, at or points[len(points) // 2])

    def wire(self, zone: str, points: Sequence[Point], side: str = "", at: Point | None = None) -> str:
        """Something thin: a wire, a rope, a cloth seen from its edge."""
        return self.part(zone, f'<path class="w" d="{path(points)}"/>', at or middle([points[0], points[-1]]), side, 10)

    def spot(
        self, zone: str, at: Point, side: str = "", w: float = 9, h: float = 9, r: float = 2, hit: float = 13
    ) -> str:
        """A small part, in units of the picture."""
        x, y = at
        shape = f'<rect x="{n(x - w / 2)}" y="{n(y - h / 2)}" width="{n(w)}" height="{n(h)}" rx="{n(r)}"/>'
        return self.part(zone, shape, at, side, hit)

    def part(self, zone: str, shapes: str, at: Point, side: str = "", hit: float = 0) -> str:
        """A place of any shape. Nothing is drawn of a place that she has not."""
        place = self.chart.place(zone, side)
        if place is None:
            return ""
        self.anchors[zone, side] = at
        label = self.labels[zone, side] = "-".join(filter(None, (self.name, zone, side)))
        fill = f' fill="url(#{self.name}-{_FILLS[place.status]})"' if place.status in _FILLS else ""
        asked = ""
        if place.status == "tried":
            asked = f'<text class="vain" x="{n(at[0])}" y="{n(at[1] + 5)}">?</text>'
        if hit:
            if hit <= SMALL:
                self.small.add((zone, side))
            shapes += f'<circle class="hit" cx="{n(at[0])}" cy="{n(at[1])}" r="{n(hit)}"/>'
        group = (
            f'<g id="{label}" class="place {place.status}" data-zone="{zone}"{fill}>'
            f"<title>{escape(place.says)}</title>{shapes}{asked}</g>"
        )
        if not place.href:
            return Markup(group)
        reached = f'aria-label="{escape(place.says)}"' if self.chart.tapped else 'tabindex="-1"'
        return Markup(f'<a href="{escape(place.href)}" {reached}>{group}</a>')

    def outline(self, points: Sequence[Point]) -> str:
        """The hull itself, on which places lie."""
        return Markup(f'<path class="hull" d="{path(points, closed=True)}"/>')

    def ghost(self, points: Sequence[Point], closed: bool = False) -> str:
        """What is no place of its own and helps to see where one is."""
        return Markup(f'<path class="ghost" d="{path(points, closed=closed)}"/>')

    def line(self, kind: str, points: Sequence[Point]) -> str:
        """A line of the chart itself, such as the water."""
        return Markup(f'<path class="{kind}" d="{path(points)}"/>')

    def word(self, text: str, x: float, y: float) -> str:
        """A word on the chart, in the middle of ``x``."""
        return Markup(f'<text class="caption" x="{n(x)}" y="{n(y)}">{escape(text)}</text>')

    def sheet(self, zone: str, edges: Sequence[Sequence[Point]], at: Point) -> str:
        """Cloth by its edges alone, so that what is behind it stays to be seen."""
        shapes = "".join(f'<path class="w" d="{path(edge)}"/>' for edge in edges if edge)
        return self.part(zone, shapes, at, hit=22)

    def sling(self, zone: str, points: Sequence[Point], side: str, at: Point) -> str:
        """A wire with a ring at its end."""
        ring = f'<circle cx="{n(at[0])}" cy="{n(at[1])}" r="4"/>'
        return self.part(zone, f'<path class="w" d="{path(points)}"/>{ring}', at, side, 10)

    def wheel(self, zone: str, at: Point, side: str, radius: float) -> str:
        """A wheel with its hub."""
        rings = "".join(f'<circle cx="{n(at[0])}" cy="{n(at[1])}" r="{n(r)}"/>' for r in (radius, radius / 3))
        return self.part(zone, rings, at, side, radius + 3)
