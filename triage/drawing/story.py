"""The story of a cause as a small graph: what was done, the marks that it left, and what followed from them."""

from __future__ import annotations

import textwrap
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field

from markupsafe import Markup

from triage.drawing.svg import drawings

WIDTH, INDENT, LEADING, PAD, GAP = 358.0, 30.0, 19.0, 8.0, 12.0
"""In units; each step of what follows from what is drawn so much further in."""

LETTER = 8.0
"""About how wide a letter is, in units."""


@dataclass(frozen=True)
class StoryMark:
    """A mark of a story: its number or id, what it is, the mark it follows from (empty: the cause itself)."""

    id: str
    says: str
    follows: str = ""


@dataclass
class _Row:
    id: str
    lines: list[str]
    depth: int
    top: float
    parent: _Row | None
    height: float = field(init=False)

    def __post_init__(self) -> None:
        self.height = len(self.lines) * LEADING + 2 * PAD

    @property
    def left(self) -> float:
        return 1 + self.depth * INDENT


def draw_story(cause: str, marks: Sequence[StoryMark], says: str) -> Markup:
    """A cause with all that it explains, each under what it comes of: another mark, else the cause.

    ``says`` is the picture in words.
    """
    children: dict[str, list[StoryMark]] = {}
    known = {mark.id for mark in marks}
    for mark in marks:
        children.setdefault(mark.follows if mark.follows in known else "", []).append(mark)
    root = _Row("", _wrapped(cause, 0), 0, 2, None)
    rows = [root]
    _grow(root, children, rows)
    height = rows[-1].top + rows[-1].height + 3
    return Markup(drawings().get_template("bands/story.svg").render(rows=rows, says=says, width=WIDTH, height=height))


def _grow(parent: _Row, children: Mapping[str, Sequence[StoryMark]], rows: list[_Row]) -> None:
    for mark in children.get(parent.id, ()):
        if any(row.id == mark.id for row in rows):
            continue
        depth = parent.depth + 1
        row = _Row(mark.id, _wrapped(mark.says, depth), depth, rows[-1].top + rows[-1].height + GAP, parent)
        rows.append(row)
        _grow(row, children, rows)


def _wrapped(text: str, depth: int) -> list[str]:
    return textwrap.wrap(text, int((WIDTH - depth * INDENT - 2 * PAD) / LETTER))
