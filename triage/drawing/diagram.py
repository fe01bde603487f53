"""What is drawn of the dependency graph: marks on the left, causes in the middle, what to look at then on the right."""

from __future__ import annotations

import textwrap
from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import Any, Literal

from triage.causes.graph import LINKS, Graph
from triage.drawing.layout import Box
from triage.knowledge.model import KnowledgeBase
from triage.knowledge.model.cause import ANYWHERE, Strength


@dataclass(frozen=True)
class PageSpec:
    """How large things are drawn, in units; ``leading``, ``bend`` and ``small`` are fractions.

    ``letters`` fit in a line of each column. ``bend`` says how far edges leave the boxes level: 0 is straight.
    """

    widths: tuple[float, float, float]
    gap: float
    margin: float
    font: float
    leading: float
    letters: tuple[int, int, int]
    pad: float
    above: float
    bend: float
    paper: Literal["portrait", "landscape"]
    small: float = 0.86


NEIGHBOURHOOD_PAGE = PageSpec(
    widths=(310, 240, 350),
    gap=90,
    margin=46,
    font=14,
    leading=1.25,
    letters=(36, 25, 41),
    pad=7,
    above=10,
    bend=0.5,
    paper="portrait",
)
"""For a part of the graph; on A4 its letters are 6.4 points high."""

OVERVIEW_PAGE = PageSpec(
    widths=(340, 285, 340),
    gap=290,
    margin=30,
    font=13,
    leading=1.14,
    letters=(60, 60, 60),
    pad=0.3,
    above=0.8,
    bend=0.25,
    paper="landscape",
)
"""For the whole graph; on A4 its letters are 6.3 points high."""


@dataclass(frozen=True)
class Edge:
    """An edge between two boxes: what it stands for, how strong it is, and what it says when it is pointed at."""

    source: str
    target: str
    kind: str
    tip: str
    strength: str = ""


@dataclass(frozen=True)
class Diagram:
    """Everything in a picture, without its places."""

    title: str
    note: str
    page: PageSpec
    columns: tuple[Sequence[Box], Sequence[Box], Sequence[Box]]
    fixed: tuple[int, ...]
    edges: Sequence[Edge]


def neighbourhood(kb: KnowledgeBase, graph: Graph[str], title: str) -> Diagram:
    """A part of the graph, with every mark and every check."""
    edges = _edges(kb, graph)
    ends = {end for edge in edges for end in (edge.source, edge.target)}
    columns: tuple[list[Box], list[Box], list[Box]] = ([], [], [])
    for node, data in graph.nodes(data=True):
        if data["kind"] == "cause":
            columns[1].append(_box(NEIGHBOURHOOD_PAGE, 1, node, "", data["name"]))
        elif data["kind"] == "check":
            columns[2].append(_box(NEIGHBOURHOOD_PAGE, 2, node, data["place"], data["name"], _only_reason(graph, node)))
        elif data["kind"] == "mark":
            columns[0].append(_box(NEIGHBOURHOOD_PAGE, 0, node, data["place"], data["name"]))
        elif node in ends:
            columns[0].append(_box(NEIGHBOURHOOD_PAGE, 0, node, data["name"], "Any mark there"))
    arrows = any(edge.kind == "suspects" for edge in edges)
    note = "An arrow at the left edge: once the one is bad enough, look for the other." if arrows else ""
    return Diagram(title, note, NEIGHBOURHOOD_PAGE, columns, (), edges)


def overview(kb: KnowledgeBase, graph: Graph[str]) -> Diagram:
    """All causes, with the places where they leave marks and those where they send people to look."""
    place = {"leaves": "found at", "sends": "look at"}
    edges: dict[tuple[str, str], Edge] = {}
    for edge in _edges(kb, graph):
        zone = graph.nodes[edge.target].get("zone")
        if edge.kind in place and zone != ANYWHERE:
            drawn = replace(edge, target=f"{place[edge.kind]} {zone}")
            edges.setdefault((drawn.source, drawn.target), drawn)
    causes = [node for node, data in graph.nodes(data=True) if data["kind"] == "cause"]
    columns = (
        _places(kb, 0, {other for _, other in edges}, place["leaves"]),
        [_box(OVERVIEW_PAGE, 1, cause, graph.nodes[cause]["name"]) for cause in causes],
        _places(kb, 2, {other for _, other in edges}, place["sends"]),
    )
    title = "Causes: where they leave their marks, and where they send you to look"
    note = (
        "For the marks, the checks and the reasons: triage causes graph --around, with the name of a cause or a place."
    )
    return Diagram(title, note, OVERVIEW_PAGE, columns, (0, 2), list(edges.values()))


def _places(kb: KnowledgeBase, column: int, ends: set[str], what: str) -> list[Box]:
    """The zones at which edges end, in the order of the walk-round, with a little space between its legs."""
    boxes = []
    leg = ""
    for zone in kb.zones.values():
        if f"{what} {zone.id}" in ends:
            box = _box(OVERVIEW_PAGE, column, f"{what} {zone.id}", zone.name)
            boxes.append(box if zone.leg == leg else replace(box, above=box.above + OVERVIEW_PAGE.font / 3))
            leg = zone.leg
    return boxes


def _edges(kb: KnowledgeBase, graph: Graph[str]) -> list[Edge]:
    edges = []
    for one, other, data in graph.edges(data=True):
        if data["kind"] not in LINKS:
            continue
        near, far = _name(graph.nodes[one]), _name(graph.nodes[other])
        if data["kind"] == "suspects":
            edges.append(Edge(one, other, "suspects", f"{near}, so {far}? {data['because']}"))
            continue
        says = strengths(kb)[data["strength"]].says
        tip = f"{near} {says} leaves {far}." if data["kind"] == "leaves" else f"{near}, so {far}: {data['because']}"
        edges.append(Edge(one, other, data["kind"], tip, data["strength"]))
    return edges


def strengths(kb: KnowledgeBase) -> dict[str, Strength]:
    """The named strengths of the knowledge, strongest first."""
    weights = kb.causation.weights
    named = weights.strengths if weights else {}
    return dict(sorted(named.items(), key=lambda item: -item[1].chance))


def _name(data: dict[str, Any]) -> str:
    return ", ".join((data["place"], data["name"]) if "place" in data else (data["name"],))


def _only_reason(graph: Graph[str], check: str) -> str:
    """Why the check is made, where one cause alone asks for it."""
    reasons = [data["because"] for _, _, data in graph.in_edges(check, data=True) if data["kind"] == "sends"]
    return reasons[0] if len(reasons) == 1 else ""


def _box(page: PageSpec, column: int, node: str, plain: str, strong: str = "", small: str = "") -> Box:
    letters = page.letters[column]
    above = textwrap.wrap(plain, letters)
    middle = textwrap.wrap(strong, letters - 2)
    below = textwrap.wrap(small, round(letters * 1.16))
    height = (len(above) + len(middle) + len(below) * page.small) * page.leading * page.font + 2 * page.pad
    tip = ", ".join(text for text in (plain, strong) if text)
    return Box(node, tuple(above), tuple(middle), tuple(below), height, page.above, tip)
