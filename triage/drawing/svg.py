"""What every drawing is written with: numbers, paths, and the templates that hold the drawings themselves.

Drawings are SVG fragments in ``reports/templates/drawings``, one file for each, with the tools of a pen as functions.
They carry classes and attributes and never a style, because a strict content policy forbids one.
"""

from __future__ import annotations

from collections.abc import Sequence
from functools import cache
from typing import TYPE_CHECKING

from triage.resources import data_dir, template_environment

if TYPE_CHECKING:
    import jinja2

Point = tuple[float, float]
"""In units of the picture, to the right and down."""

FOLDER = "drawings"
STYLE = "drawings.css"


def n(value: float) -> str:
    """A length with at most one decimal, always written the same way."""
    return f"{value:.1f}".rstrip("0").rstrip(".") if abs(value) >= 0.05 else "0"


def path(points: Sequence[Point], *, closed: bool = False) -> str:
    """The points as the ``d`` of a path with straight pieces."""
    written = "L".join([f"{x:.1f} {y:.1f}" for x, y in points])
    return "M" + written.replace("-0.0", "0.0").replace(".0", "") + ("Z" if closed else "")


def middle(points: Sequence[Point]) -> Point:
    """The mean of the points."""
    return sum(x for x, _ in points) / len(points), sum(y for _, y in points) / len(points)


@cache
def drawings() -> jinja2.Environment:
    """The templates of all drawings. Raises CannotWork when there are none."""
    environment = template_environment(FOLDER, keep_trailing_newline=False)
    environment.filters["n"] = n
    return environment


def style_sheet() -> str:
    """The one style sheet of all drawings. Raises CannotWork when it is not there."""
    return (data_dir("templates") / FOLDER / STYLE).read_text(encoding="utf-8")


def drawn(kind: str) -> frozenset[str]:
    """The names of the drawings of this kind: the files in its folder."""
    return frozenset(file.stem for file in (data_dir("templates") / FOLDER / kind).glob("*.svg"))
