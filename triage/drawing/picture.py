"""The dependency graph as a self-contained SVG: light background, no fonts from elsewhere, and told in words too."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from functools import cache
from typing import TYPE_CHECKING

from triage.drawing.diagram import Diagram, Edge, strengths
from triage.drawing.layout import Box, Placed, ordered, placed
from triage.knowledge.model import KnowledgeBase
from triage.knowledge.model.cause import Strength
from triage.resources import template_environment

if TYPE_CHECKING:
    import jinja2

TOP, FOOT = 84.0, 46.0
"""Space above the boxes for title and headings, and below them for the key, in units."""

HUES = ("#0b5fa5", "#a84a12", "#1f7a4d", "#8a3c8f", "#6f6000", "#a32135", "#2f6673")
"""The edges of one cause share a hue, to be followed by eye. All are dark enough on white, and none has a meaning."""

GREY = "#444444"

HEADINGS = ("What is found", "What may have done it", "What to look at then")


@dataclass(frozen=True)
class EdgePath:
    """An edge as it is drawn; ``width`` is in units."""

    edge: Edge
    path: str
    width: float
    dashed: bool
    hue: str


def draw(kb: KnowledgeBase, diagram: Diagram) -> str:
    """The diagram as SVG. Raises CannotWork when the template is not there."""
    page, named = diagram.page, strengths(kb)
    columns = ordered(diagram.columns, [(edge.source, edge.target) for edge in diagram.edges], diagram.fixed)
    lefts = [page.margin + sum(page.widths[:index]) + index * page.gap for index in range(len(columns))]
    places = placed(columns, lefts, page.widths, TOP)
    hues = {box.id: HUES[rank % len(HUES)] for rank, box in enumerate(columns[1])}
    bottom = max((place.y + place.box.height for place in places.values()), default=TOP)
    return _page().render(
        diagram=diagram,
        page=page,
        words=_words(columns),
        width=lefts[-1] + page.widths[-1] + page.margin,
        height=bottom + FOOT,
        headings=list(zip(HEADINGS, lefts, strict=True)),
        edge_paths=[_edge_path(diagram, places, edge, named, hues) for edge in diagram.edges],
        columns=[[places[box.id] for box in column] for column in columns],
        hues=hues,
        key=[(strength.says, _width(strength), _dashed(name, named)) for name, strength in named.items()],
        leading=page.leading * page.font,
    )


def _words(columns: Sequence[Sequence[Box]]) -> str:
    """The picture for those who cannot see it."""
    described = (
        f"{heading}: {'; '.join(box.tip for box in boxes)}." for heading, boxes in zip(HEADINGS, columns, strict=True)
    )
    return " ".join(described)


def _edge_path(
    diagram: Diagram, places: Mapping[str, Placed], edge: Edge, named: Mapping[str, Strength], hues: Mapping[str, str]
) -> EdgePath:
    one, other = places[edge.source], places[edge.target]
    if edge.kind == "suspects":
        return EdgePath(edge, _bow(one, other, diagram.page.margin), 1.3, dashed=False, hue=GREY)
    left, right = (other, one) if edge.kind == "leaves" else (one, other)
    path = _across(left, right, diagram.page.bend)
    return EdgePath(edge, path, _width(named[edge.strength]), _dashed(edge.strength, named), hues[edge.source])


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
