"""The picture of the graph: well-formed, self-contained, legible, and told in words as well."""

from __future__ import annotations

import itertools
import re
import xml.etree.ElementTree as ET

import pytest

from triage.causes.graph import around, graph_of
from triage.drawing.diagram import NEIGHBOURHOOD_PAGE, OVERVIEW_PAGE, neighbourhood, overview
from triage.drawing.layout import Box, ordered, placed
from triage.drawing.picture import HUES, draw
from triage.knowledge.model import KnowledgeBase

SVG = "{http://www.w3.org/2000/svg}"


@pytest.fixture(scope="module", params=["everything", "grounding", "mast_step"])
def picture(kb: KnowledgeBase, request: pytest.FixtureRequest) -> str:
    graph = graph_of(kb)
    if request.param == "everything":
        return draw(kb, overview(kb, graph))
    return draw(kb, neighbourhood(kb, around(graph, request.param), request.param))


def test_the_picture_is_well_formed_and_asks_for_nothing_from_elsewhere(picture: str) -> None:
    root = ET.fromstring(picture)

    used = {element.tag.removeprefix(SVG) for element in root.iter()}
    assert {"svg", "title", "desc", "style", "defs", "marker", "rect", "text", "g", "path"} >= used
    assert re.findall(r"(?:href|src|@import|url\()[^)]*", picture) in (
        [],
        ["url(#causes-arrow"] * picture.count("url("),
    )


def test_the_picture_has_a_title_and_is_told_in_words(picture: str, kb: KnowledgeBase) -> None:
    root = ET.fromstring(picture)

    title, words = root.find(f"{SVG}title"), root.find(f"{SVG}desc")
    assert title is not None
    assert words is not None
    assert "img" == root.get("role")
    assert f"{title.get('id')} {words.get('id')}" == root.get("aria-labelledby")
    assert kb.causation.causes["grounding"].name in (words.text or "")


def test_every_box_and_every_line_says_what_it_is(picture: str) -> None:
    root = ET.fromstring(picture)

    lines = [path for path in root.iter(f"{SVG}path") if path.get("stroke-width") and "C" in path.get("d", "")]
    assert len(lines) > 5
    assert all(path.findtext(f"{SVG}title") for path in lines)
    boxes = [group for group in root.iter(f"{SVG}g") if group.find(f"{SVG}rect") is not None]
    assert all(group.findtext(f"{SVG}title") for group in boxes)


def em(text: str, *, bold: bool) -> float:
    """About how long a text is, in parts of its size: letters of DejaVu Sans, the widest of the fonts, rounded up."""
    widths = {**dict.fromkeys("ijl.,:’'", 0.32), **dict.fromkeys("ftr -()", 0.42), **dict.fromkeys("mwMW", 0.98)}
    return sum(widths.get(letter, 0.61) for letter in text) * (1.1 if bold else 1)


def test_no_text_leaves_its_box_and_no_box_lies_on_another(picture: str) -> None:
    root = ET.fromstring(picture)
    size = float(root.get("font-size", ""))

    columns: dict[float, list[tuple[float, float]]] = {}
    for group in (group for group in root.iter(f"{SVG}g") if group.find(f"{SVG}rect") is not None):
        rect = group.find(f"{SVG}rect")
        assert rect is not None
        x, y, width, height = (float(rect.get(name, "")) for name in ("x", "y", "width", "height"))
        for text in group.iter(f"{SVG}text"):
            length = em(text.text or "", bold=text.get("font-weight") == "bold") * float(text.get("font-size", size))
            assert float(text.get("x", "")) + length <= x + width, text.text
            assert y < float(text.get("y", "")) <= y + height
        columns.setdefault(x, []).append((y, y + height))
    assert 3 == len(columns)
    for boxes in columns.values():
        assert all(first[1] <= second[0] for first, second in itertools.pairwise(boxes))


@pytest.mark.parametrize(("page", "millimetres"), [(NEIGHBOURHOOD_PAGE, 190), (OVERVIEW_PAGE, 277)])
def test_letters_are_at_least_six_points_high_on_a4(page: object, millimetres: float) -> None:
    assert isinstance(page, type(NEIGHBOURHOOD_PAGE))
    width = sum(page.widths) + 2 * (page.gap + page.margin)

    assert page.font / width * millimetres / 25.4 * 72 >= 6


def test_lines_are_dark_enough_on_white() -> None:
    """WCAG 2.2, 1.4.3 and 1.4.11: contrast of text 4.5 to 1, of lines 3 to 1 (from memory)."""

    def luminance(hue: str) -> float:
        parts = [int(hue[place : place + 2], 16) / 255 for place in (1, 3, 5)]
        red, green, blue = (part / 12.92 if part <= 0.04045 else ((part + 0.055) / 1.055) ** 2.4 for part in parts)
        return 0.2126 * red + 0.7152 * green + 0.0722 * blue

    assert all(1.05 / (luminance(hue) + 0.05) >= 4.5 for hue in HUES)


def box(name: str) -> Box:
    return Box(name, (name,), (), (), 10, 2, name)


def test_boxes_are_ordered_so_that_lines_do_not_cross() -> None:
    columns = [[box("a"), box("b"), box("c")], [box("C"), box("B"), box("A")]]

    tidy = ordered(columns, [("a", "A"), ("b", "B"), ("c", "C")], fixed=[0])

    assert [["a", "b", "c"], ["A", "B", "C"]] == [[one.id for one in column] for column in tidy]


def test_a_shorter_column_is_spread_over_the_height_of_the_highest() -> None:
    places = placed([[box("a"), box("b"), box("c")], [box("A")]], lefts=[0, 100], widths=[50, 50], top=0)

    assert places["b"].middle == pytest.approx(places["A"].middle, abs=2)
    assert (0, 100) == (places["a"].x, places["A"].x)
