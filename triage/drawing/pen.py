"""The pen of marks and checks: what is drawn freehand, alike on every run because it is seeded by its name."""

from __future__ import annotations

import math
import random
from collections.abc import Callable, Sequence
from typing import Any

from markupsafe import Markup

from triage.drawing.svg import Point, drawings, n, path

THUMB = 1.75
"""How much bolder lines are in a drawing that is shown small."""

DRIFT, NOISE = 0.72, 0.33
"""A crack keeps this part of how far it has strayed, and strays by this part of a step."""


class Pen:
    """Draws one picture. Every random line comes from ``name``, so the same picture has the same bytes."""

    def __init__(self, name: str, *, thumb: bool = False) -> None:
        self._random = random.Random(name)
        self._bolder = THUMB if thumb else 1.0

    def tools(self) -> dict[str, Any]:
        """What templates may use: the pen's own tools, parts that several drawings share, and a little geometry."""
        own: dict[str, Callable[..., Any]] = {
            "uniform": self._random.uniform,
            "chance": self._random.random,
            "choice": self._random.choice,
            **{tool: getattr(self, tool) for tool in _TOOLS},
        }
        geometry = {"cos": math.cos, "sin": math.sin, "radians": math.radians, "pi": math.pi, "path": path}
        parts = drawings().get_template("parts.svg").make_module(own | geometry)
        shared = {name: getattr(parts, name) for name in dir(parts) if not name.startswith("_")}
        return own | geometry | shared

    def w(self, width: float) -> str:
        """The width of a line that its class does not say, bolder in a thumbnail."""
        return n(width * self._bolder)

    def walk(self, start: Point, end: Point, step: float = 7, wild: float = NOISE) -> list[Point]:
        """The way of a crack: short steps that drift and never double back; both ends are exact."""
        (x0, y0), (x1, y1) = start, end
        length = math.dist(start, end) or 1
        ux, uy = (x1 - x0) / length, (y1 - y0) / length
        steps, strayed, points = max(2, round(length / step)), 0.0, [start]
        for i in range(1, steps):
            strayed = DRIFT * strayed + self._random.uniform(-1, 1) * step * wild
            off = strayed * min(1, 2.2 * min(i, steps - i) / steps + 0.25)
            along = length * i / steps + self._random.uniform(-0.18, 0.18) * step
            points.append((x0 + ux * along - uy * off, y0 + uy * along + ux * off))
        return [*points, end]

    def crack(self, start: Point, end: Point, width: float = 1.6, step: float = 7, wild: float = NOISE) -> str:
        """A crack as a wedge, widest where it begins, so that its root is seen at a glance."""
        points = self.walk(start, end, step, wild)
        left, right = [], []
        for i, (x, y) in enumerate(points):
            (x0, y0), (x1, y1) = points[max(i - 1, 0)], points[min(i + 1, len(points) - 1)]
            length = math.hypot(x1 - x0, y1 - y0) or 1
            half = width / 2 * (1 - 0.78 * i / (len(points) - 1))
            dx, dy = (x1 - x0) / length * half, (y1 - y0) / length * half
            left.append((x - dy, y + dx))
            right.append((x + dy, y - dx))
        return Markup(f'<path class="k" d="{path(left + right[::-1], closed=True)}"/>')

    def line(self, start: Point, end: Point, width: float = 1.6, step: float = 7, wild: float = NOISE) -> str:
        """A crack as a line of one width."""
        return self.stroke(self.walk(start, end, step, wild), width)

    def stroke(self, points: Sequence[Point], width: float, kind: str = "c") -> str:
        """A line through points."""
        return Markup(f'<path class="{kind}" stroke-width="{self.w(width)}" d="{path(points)}"/>')

    def shape(self, points: Sequence[Point], kind: str) -> str:
        """A filled outline."""
        return Markup(f'<path class="{kind}" d="{path(points, closed=True)}"/>')

    def scatter(self, many: int, left: float, right: float, top: float, bottom: float) -> list[Point]:
        """Points anywhere in a rectangle."""
        return [(self._random.uniform(left, right), self._random.uniform(top, bottom)) for _ in range(many)]

    def row(self, left: float, right: float, step: float, y: float, wobble: float = 0) -> list[Point]:
        """Points beside each other, each up to ``wobble`` higher or lower."""
        many = math.ceil((right - left) / step)
        return [(left + i * step, y + self._random.uniform(-wobble, wobble)) for i in range(many)]

    def ring(
        self, x: float, y: float, rx: float, ry: float, corners: int, wobble: float = 0, tilt: float = 0
    ) -> list[Point]:
        """The corners of a rough round outline; ``tilt`` in radians."""
        points = []
        across, down = math.cos(tilt), math.sin(tilt)
        for i in range(corners):
            angle = 2 * math.pi * i / corners
            dx = (rx + self._random.uniform(-wobble, wobble)) * math.cos(angle)
            dy = (ry + self._random.uniform(-wobble, wobble)) * math.sin(angle)
            points.append((x + dx * across - dy * down, y + dx * down + dy * across))
        return points

    def arc(self, x: float, y: float, radius: float, start: float, end: float, wobble: float = 0) -> list[Point]:
        """Points along a part of a circle, in degrees, that stray a little."""
        points, strayed = [], 0.0
        for degrees in range(round(start), round(end) + 1, 7):
            strayed = DRIFT * strayed + self._random.uniform(-wobble, wobble)
            angle = math.radians(degrees)
            points.append((x + (radius + strayed) * math.cos(angle), y + (radius + strayed) * math.sin(angle)))
        return points

    def web(self, columns: int, rows: int, across: float, down: float) -> str:
        """Lines that meet and part without a centre, with cells about so large."""
        corner = {
            (i, j): (
                across * (j - 0.45 + 0.5 * (i % 2)) + self._random.uniform(-0.3, 0.3) * across,
                down * (i - 0.35) + self._random.uniform(-0.3, 0.3) * down,
            )
            for i in range(rows)
            for j in range(columns)
        }
        ends = (
            (start, corner[end])
            for (i, j), start in corner.items()
            for end in ((i, j + 1), (i + 1, j + i % 2 - 1), (i + 1, j + i % 2))
            if end in corner and self._random.random() < 0.72
        )
        return Markup("").join(self.line(start, end, 0.95, 6, 0.2) for start, end in ends)

    def strands(
        self,
        points: Sequence[Point],
        many: int,
        angle: float,
        spread: float = 0.5,
        length: float = 14,
        kind: str = "gs",
    ) -> str:
        """Threads of glass, or of anything: short and a little bent, through some of the points."""
        drawn = []
        for _ in range(many):
            x, y = self._random.choice(points)
            turned = angle + self._random.uniform(-spread, spread)
            half = length * self._random.uniform(0.5, 1)
            dx, dy = half * math.cos(turned), half * math.sin(turned)
            bx, by = x + self._random.uniform(-3, 3), y + self._random.uniform(-3, 3)
            drawn.append(f'<path class="{kind}" d="M{n(x - dx)} {n(y - dy)}Q{n(bx)} {n(by)} {n(x + dx)} {n(y + dy)}"/>')
        return Markup("".join(drawn))

    def arrow(self, start: Point, end: Point, both: bool = False) -> str:
        """What moves, and nothing else, has an arrow."""
        angle = math.atan2(end[1] - start[1], end[0] - start[0])
        heads = _head(end, angle) + (_head(start, angle + math.pi) if both else "")
        return Markup(f'<path class="ar" d="{path([start, end])}{heads}"/>')


_TOOLS = (
    *("w", "walk", "crack", "line", "stroke", "shape", "arrow"),
    *("scatter", "row", "ring", "arc", "web", "strands"),
)


def _head(tip: Point, angle: float) -> str:
    x, y = tip
    barbs = [(x - 9 * math.cos(angle + turn), y - 9 * math.sin(angle + turn)) for turn in (-0.5, 0.5)]
    return path([barbs[0], tip, barbs[1]])
