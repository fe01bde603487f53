"""The events of a YAML parser as plain values, each with the place where it stood."""

from __future__ import annotations

import re
from collections.abc import Iterator
from typing import TYPE_CHECKING, Any

import yaml

from triage.parsing.syntax import UNPRINTABLE, unprintable

if TYPE_CHECKING:
    from triage.parsing.documents import Document, Path

MAX_DEPTH = 40
MAX_PARTS = 50_000
"""Keys, values and brackets. Large files have some 2000; each takes memory, and time when it is wrong."""

_WHOLE = re.compile(r"[-+]?(0|[1-9]\d{0,14})")
_DECIMAL = re.compile(r"[-+]?(0|[1-9]\d{0,14})?\.\d{1,15}|[-+]?(0|[1-9]\d{0,14})\.")
_NOTHING = {"", "~", "null", "Null", "NULL"}


class Builder:
    """Builds values from parser events without recursion, so that deep nesting cannot exhaust the stack."""

    def __init__(self, document: Document) -> None:
        self.document = document
        self.open: list[_Open] = []

    def build(self, events: Iterator[yaml.Event]) -> None:
        """Fill the document with what the events tell."""
        documents = 0
        for number, event in enumerate(events):
            if number == MAX_PARTS:
                self.document.broken = True
                self._complain(event, f"more than {MAX_PARTS} words and values in one file", "Split it.")
                return
            if isinstance(event, yaml.ScalarEvent):
                self._check_plain(event)
                if bad := UNPRINTABLE.search(event.value):
                    self._complain(event, *unprintable(bad[0]))
                self._add(event, _scalar(event))
            elif isinstance(event, yaml.DocumentStartEvent):
                documents += 1
                if documents > 1:
                    self.document.broken = True
                    self._complain(event, "a second document in one file", 'Delete the line "---".')
                    return
            elif isinstance(event, yaml.AliasEvent):
                self._complain(event, f'the shorthand "*{event.anchor}" is not used here', "Write the text out again.")
                self._add(event, None)
            elif isinstance(event, (yaml.MappingStartEvent, yaml.SequenceStartEvent)):
                if len(self.open) == MAX_DEPTH:
                    self.document.broken = True
                    self._complain(event, f"nested deeper than {MAX_DEPTH} levels", "Look for a missing bracket.")
                    return
                self._check_plain(event)
                container: dict[str, Any] | list[Any] = {} if isinstance(event, yaml.MappingStartEvent) else []
                self.open.append(_Open(container, self._add(event, container)))
            elif isinstance(event, (yaml.MappingEndEvent, yaml.SequenceEndEvent)):
                self.open.pop()

    def _complain(self, event: yaml.Event, what: str, hint: str) -> None:
        mark: Any = event.start_mark
        self.document.problems.append(self.document.at(mark.line + 1, mark.column + 1, what, hint))

    def _check_plain(self, event: Any) -> None:
        if event.anchor:
            self._complain(event, f'the shorthand "&{event.anchor}" is not used here', "Leave it out.")
        if event.tag:
            tag = event.tag.replace("tag:yaml.org,2002:", "!!")
            self._complain(event, f'the tag "{tag}" is not used here', "Leave it out.")

    def _add(self, event: Any, value: Any) -> Path:
        """Put a value where it belongs and return its path."""
        mark = (event.start_mark.line + 1, event.start_mark.column + 1)
        if not self.open:
            self.document.value = value
            self.document.marks[()] = mark
            return ()
        top = self.open[-1]
        if isinstance(top.container, list):
            path = (*top.path, len(top.container))
            top.container.append(value)
        elif top.key is None:
            self._take_key(top, event, value)
            return top.path
        else:
            path = (*top.path, top.key)
            top.container.setdefault(top.key, value)
            top.key = None
        self.document.marks.setdefault(path, mark)
        return path

    def _take_key(self, top: _Open, event: Any, value: Any) -> None:
        if isinstance(value, (dict, list)):
            self._complain(event, "a key must be a word", "Look for a missing colon or quote.")
            value = "?"
        text = value if isinstance(value, str) else event.value if isinstance(event, yaml.ScalarEvent) else ""
        top.key = text
        assert isinstance(top.container, dict)
        path = (*top.path, text)
        if text in top.container:
            first = self.document.marks[path][0]
            self._complain(event, f'"{text}" stands twice here (first in line {first})', "Keep one of them.")
        else:
            self.document.marks[path] = (event.start_mark.line + 1, event.start_mark.column + 1)


class _Open:
    """A mapping or list that is being filled."""

    __slots__ = ("container", "key", "path")

    def __init__(self, container: dict[str, Any] | list[Any], path: Path) -> None:
        self.container = container
        self.path = path
        self.key: str | None = None


def _scalar(event: yaml.ScalarEvent) -> str | int | float | None:
    text: str = event.value
    if not event.implicit[0]:
        return text
    if text in _NOTHING:
        return None
    if _WHOLE.fullmatch(text):
        return int(text)
    if _DECIMAL.fullmatch(text):
        return float(text)
    return text
