"""Marks drawn: what each sign looks like, with a scale, and what it is most easily taken for."""

from __future__ import annotations

from collections.abc import Collection
from dataclasses import dataclass
from functools import cache

from markupsafe import Markup

from triage.drawing.pen import Pen
from triage.drawing.svg import drawings

SIZE = 200
"""Both ways, in units."""

BARS = (1, 2, 5, 10, 20, 50, 100, 200, 500, 1000)
SHORTEST_BAR = 34
"""The lengths of scale bars, in mm, and how long one is drawn at least, in units."""


@dataclass(frozen=True)
class Picture:
    """A mark as it is drawn: its name where the drawing has one of its own (what is no fault), its width in mm."""

    name: str
    width: float
    svg: Markup


@cache
def draw_mark(sign: str, says: str = "", *, thumb: bool = False, name: str = "mark", across: float = 0) -> Picture:
    """The drawing of a sign, or of what is no fault. ``says`` is its name in words (empty: the drawing's own).

    A thumbnail has bolder lines, and neither words nor a scale. ``name`` comes before its id, so that the same drawing
    may stand on one page twice. ``across`` is how many mm the picture is wide where it is to be of the scale of another
    one. Raises jinja2.TemplateNotFound when it is not drawn.
    """
    own = drawings().get_template(f"marks/{sign}.svg").make_module(Pen(f"mark/{sign}", thumb=thumb).tools())
    own_name = getattr(own, "name", "")
    width = float(getattr(own, "width"))  # noqa: B009 - mypy knows a module of a template by no name
    per_mm = SIZE / width
    bar = next((one for one in BARS if one * per_mm >= SHORTEST_BAR), BARS[-1])
    svg = (
        drawings()
        .get_template("mark.svg")
        .render(
            body=Markup(str(own)),
            id=_id(sign, thumb, name),
            side=max(SIZE, across * per_mm),
            says=says or own_name,
            thumb=thumb,
            bar=bar * per_mm,
            length=f"{bar} mm" if bar < 1000 else f"{bar / 1000:g} m",
        )
    )
    return Picture(own_name, width, Markup(svg))


def drawn_again(sign: str, says: str, *, thumb: bool = False, name: str = "mark") -> Markup:
    """A mark whose drawing stands elsewhere on the same page, under that ``name``; ``says`` is its name in words."""
    return Markup(drawings().get_template("mark_again.svg").render(id=_id(sign, thumb, name), says=says))


def confused_with(sign: str, named: Collection[str]) -> tuple[str, ...]:
    """What stands beside a sign: what its drawing was made to stand by, and the signs that its description names."""
    own = drawings().get_template(f"marks/{sign}.svg").make_module(Pen(sign).tools())
    beside = getattr(own, "beside", "")
    return tuple(dict.fromkeys((*([beside] if beside else ()), *named)))


def _id(sign: str, thumb: bool = False, name: str = "mark") -> str:
    return f"{name}-{sign}{'-small' if thumb else ''}"
