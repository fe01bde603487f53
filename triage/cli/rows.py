"""Labelled lines of text, marks gathered by zone, and conditions in words: what entries are printed with."""

from __future__ import annotations

import textwrap
from collections import Counter
from collections.abc import Iterable, Iterator, Sequence

from triage.cli.comparison import marks_text
from triage.knowledge.model.cause import Mark
from triage.parsing.text import WIDTH
from triage.views.rule_text import Line

MOST_LISTED = 15
"""Of what may be very many; the rest is counted."""

MOST_MARKS = 40
"""Of which each is named."""

INDENT = 14


def named(id_: str, text: str) -> str:
    """An id with what there is to say of it."""
    return f"{id_}: {text}" if text else id_


def shown_marks(marks: Sequence[Mark]) -> str:
    """Every mark; or, where they are very many, how many there are in each zone."""
    if len(marks) <= MOST_MARKS:
        return marks_text(list(marks))
    zones = Counter(zone for zone, _ in marks)
    told = ", ".join(f"{zone} ({number})" for zone, number in zones.items())
    return f"{len(marks)} marks in {len(zones)} zones: {told}"


def plain(lines: Iterable[Line], depth: int = 0) -> Iterator[str]:
    """Lines of a condition without links, those that stand below another indented."""
    for line in lines:
        yield "  " * depth + line.says.striptags()
        yield from plain(line.parts, depth + 1)


def row(label: str, text: str) -> Iterator[str]:
    """A text beside its label; nothing if there is none."""
    if text:
        start = f"  {label}".ljust(INDENT) + " "
        inner = len(text) - len(text.lstrip())
        yield textwrap.fill(text, WIDTH, initial_indent=start, subsequent_indent=" " * (INDENT + 1 + inner))


def rows(label: str, texts: Sequence[str], *, all_: bool = False) -> Iterator[str]:
    """Several texts beside one label, each in lines of its own; of very many only the first, unless ``all_``."""
    shown = texts if all_ else texts[:MOST_LISTED]
    for index, text in enumerate(shown):
        yield from row("" if index else label, text)
    if left := len(texts) - len(shown):
        yield from row("", f"and {left} more")
