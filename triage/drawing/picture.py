"""The dependency graph as a self-contained SVG: light background, no fonts from elsewhere, and told in words too."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from functools import cache
from typing import TYPE_CHECKING

from triage.drawing.diagram import Diagram, Line, strengths
from triage.drawing.layout import Box, Placed, ordered, placed
from triage.knowledge.model import KnowledgeBase
from triage.knowledge.model.cause import Strength
from triage.resources import template_environment

if TYPE_CHECKING:
    import jinja2

TOP, FOOT = 84.0, 46.0
"""Space above the boxes for title and headings, and below them for the key, in units."""

HUES = ("#0b5fa5", "#a84a12", "#1f7a4d", "#8a3c8f", "#6f6000", "#a32135", "#2f6673")
"""The lines of one cause share a hue, to be followed by eye. All are dark enough on white, and none has a meaning."""

GREY = "#444444"

HEADINGS = ("What is found", "What may have done it", "What to look at then")


@dataclass(frozen=True)
class Stroke:
    """A line as it is drawn."""

    line: Line
    path: str
    width: float
    dashed: bool
    hue: str


def draw(kb: KnowledgeBase, scene: Diagram) -> str:
    """The scene as SVG."""
    sheet, named = scene.sheet, strengths(kb)
    columns = ordered(scene.columns, [(line.one, line.other) for line in scene.lines], scene.fixed)
    lefts = [sheet.margin + sum(sheet.widths[:index]) + index * sheet.gap for index in range(len(columns))]
    places = placed(columns, lefts, sheet.widths, TOP)
    hues = {box.id: HUES[rank % len(HUES)] for rank, box in enumerate(columns[1])}
    bottom = max((place.y + place.box.height for place in places.values()), default=TOP)
    return _page().render(
        scene=scene,
        sheet=sheet,
        words=_words(columns),
        width=lefts[-1] + sheet.widths[-1] + sheet.margin,
        height=bottom + FOOT,
        headings=list(zip(HEADINGS, lefts, strict=True)),
        strokes=[_stroke(scene, places, line, named, hues) for line in scene.lines],
        columns=[[places[box.id] for box in column] for column in columns],
        hues=hues,
        key=[(strength.says, _width(strength), _dashed(name, named)) for name, strength in named.items()],
        leading=sheet.leading * sheet.font,
    )


def _words(columns: Sequence[Sequence[Box]]) -> str:
    """The picture for those who cannot see it."""
    told = (
        f"{heading}: {'; '.join(box.tip for box in boxes)}." for heading, boxes in zip(HEADINGS, columns, strict=True)
    )
    return " ".join(told)


def _stroke(
    scene: Diagram, places: Mapping[str, Placed], line: Line, named: Mapping[str, Strength], hues: Mapping[str, str]
) -> Stroke:
    one, other = places[line.one], places[line.other]
    if line.kind == "suspects":
        return Stroke(line, _bow(one, other, scene.sheet.margin), 1.3, dashed=False, hue=GREY)
    left, right = (other, one) if line.kind == "leaves" else (one, other)
    path = _across(left, right, scene.sheet.bend)
    return Stroke(line, path, _width(named[line.strength]), _dashed(line.strength, named), hues[line.one])


def _width(strength: Strength) -> float:
    return 0.7 + 2.3 * strength.chance


def _dashed(name: str, named: Mapping[str, Strength]) -> bool:
    """The weakest of several is."""
    return len(named) > 1 and name == list(named)[-1]


def _across(left: Placed, right: Placed, bend: float) -> str:
    """A curve from the right edge of one box to the left edge of another."""
    start, end = left.x + left.width, right.x
    level = (end - start) * bend
    return _curve((start, left.middle), (start + level, left.middle), (end - level, right.middle), (end, right.middle))


def _bow(one: Placed, other: Placed, margin: float) -> str:
    """A curve round the left of a column, from one box to another; it ends beside where one would begin."""
    out = one.x - min(margin - 6, 12 + abs(one.middle - other.middle) / 16)
    start, end = one.middle + 5, other.middle - 5
    return _curve((one.x, start), (out, start), (out, end), (other.x, end))


def _curve(*points: tuple[float, float]) -> str:
    first, *rest = (f"{x:.1f} {y:.1f}" for x, y in points)
    return f"M{first}C{' '.join(rest)}"


@cache
def _page() -> jinja2.Template:
    return template_environment().get_template("causes.svg")
