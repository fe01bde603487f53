"""YAML or JSON text as plain values that remember where they stood.

Stricter than YAML on purpose: a key may stand once, ``no`` is a word, there are no anchors, tags or second
documents, and size and nesting are bounded. Everything wrong is reported together.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass, field
from typing import Any

import yaml

from triage.errors import Place, Problem

MAX_BYTES = 2_000_000
MAX_DEPTH = 40

Path = tuple[str | int, ...]

_WHOLE = re.compile(r"[-+]?(0|[1-9]\d{0,14})")
_DECIMAL = re.compile(r"[-+]?(0|[1-9]\d{0,14})?\.\d{1,15}|[-+]?(0|[1-9]\d{0,14})\.")
_NOTHING = {"", "~", "null", "Null", "NULL"}


@dataclass
class Document:
    """One file's ``value`` (dict, list, str, int, float, None) and where each part of it stands."""

    source: str
    text: str
    value: Any = None
    marks: dict[Path, tuple[int, int]] = field(default_factory=dict)
    problems: list[Problem] = field(default_factory=list)

    def problem(self, path: Path, what: str, hint: str = "") -> Problem:
        """A Problem at ``path``, or at the nearest enclosing part that has a place."""
        while path and path not in self.marks:
            path = path[:-1]
        line, column = self.marks.get(path, (0, 0))
        return self.at(line, column, what, hint)

    def at(self, line: int, column: int, what: str, hint: str = "") -> Problem:
        """A Problem at a line and column (from 1; 0 means the whole file)."""
        lines = self.text.splitlines()
        excerpt = lines[line - 1] if 0 < line <= len(lines) else ""
        return Problem(Place(self.source, line, column), what, hint, excerpt[:160])

    def place(self, path: Path) -> Place:
        """Where ``path`` stands."""
        return self.problem(path, "").place


def read_document(text: str | bytes, source: str) -> Document:
    """Read ``text``. The result's ``problems`` says what is wrong with its form; ``value`` is what could be read."""
    if len(text) > MAX_BYTES:
        document = Document(source, "")
        limit = f"at most {MAX_BYTES // 1_000_000} MB"
        document.problems.append(document.at(0, 0, f"this file is too large ({limit})", "Split it."))
        return document
    if isinstance(text, bytes):
        try:
            text = text.decode("utf-8-sig")
        except UnicodeDecodeError as error:
            document = Document(source, "")
            hint = "Save it as UTF-8 text."
            document.problems.append(document.at(0, 0, f"this is not plain text (byte {error.start})", hint))
            return document
    if text.lstrip()[:1] in ("{", "["):
        text = text.replace("\t", " ")  # JSON may be indented with tabs, YAML may not
    document = Document(source, text)
    try:
        _Builder(document).build(yaml.parse(text, Loader=yaml.CSafeLoader))
    except yaml.MarkedYAMLError as error:
        mark = error.problem_mark or error.context_mark
        line, column = (mark.line + 1, mark.column + 1) if mark else (0, 0)
        what = f"this cannot be read: {error.problem or error.context or 'not YAML'}"
        document.problems.append(document.at(line, column, what, _remedy(str(error.problem))))
    except yaml.reader.ReaderError as error:
        line = text.count("\n", 0, error.position) + 1
        what = f"a character that cannot stand in text (code {error.character!r})"
        document.problems.append(document.at(line, 0, what, "Delete it and type the line again."))
    return document


def _remedy(problem: str) -> str:
    if "\\t" in problem or "tab" in problem:
        return "Indent with spaces, not tabs."
    if "mapping values are not allowed" in problem:
        return 'A text that holds ": " must stand in quotes.'
    if "did not find expected" in problem:
        return "Look at the indentation and the brackets of this line and the one above."
    return "Look at quotes, brackets and indentation here."


class _Builder:
    """Builds values from parser events without recursion, so that deep nesting cannot exhaust the stack."""

    def __init__(self, document: Document) -> None:
        self.document = document
        self.open: list[_Open] = []
        self.skipping = 0

    def build(self, events: Iterator[yaml.Event]) -> None:
        documents = 0
        for event in events:
            if isinstance(event, yaml.DocumentStartEvent):
                documents += 1
                if documents > 1:
                    self.complain(event, "a second document in one file", 'Delete the line "---".')
                    return
            elif isinstance(event, yaml.AliasEvent):
                self.complain(event, f'the shorthand "*{event.anchor}" is not used here', "Write the text out again.")
                self.add(event, None)
            elif isinstance(event, yaml.ScalarEvent):
                self.check_plain(event)
                self.add(event, _scalar(event))
            elif isinstance(event, (yaml.MappingStartEvent, yaml.SequenceStartEvent)):
                self.check_plain(event)
                self.enter(event, {} if isinstance(event, yaml.MappingStartEvent) else [])
            elif isinstance(event, (yaml.MappingEndEvent, yaml.SequenceEndEvent)):
                self.leave()

    def complain(self, event: yaml.Event, what: str, hint: str) -> None:
        mark: Any = event.start_mark
        self.document.problems.append(self.document.at(mark.line + 1, mark.column + 1, what, hint))

    def check_plain(self, event: Any) -> None:
        if event.anchor:
            self.complain(event, f'the shorthand "&{event.anchor}" is not used here', "Leave it out.")
        if event.tag and event.tag != "!":
            self.complain(event, f'the tag "{event.tag}" is not used here', "Leave it out.")

    def enter(self, event: Any, container: dict[str, Any] | list[Any]) -> None:
        if self.skipping or len(self.open) >= MAX_DEPTH:
            if not self.skipping:
                self.complain(event, f"nested deeper than {MAX_DEPTH} levels", "Look for a missing bracket.")
            self.skipping += 1
            return
        key = self.add(event, container)
        self.open.append(_Open(container, key))

    def leave(self) -> None:
        if self.skipping:
            self.skipping -= 1
            if not self.skipping and self.open:
                self.open[-1].key = None
        else:
            self.open.pop()

    def add(self, event: Any, value: Any) -> Path:
        """Put a value where it belongs and return its path."""
        if self.skipping:
            return ()
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
            self.take_key(top, event, value)
            return top.path
        else:
            path = (*top.path, top.key)
            if top.key not in top.container:
                top.container[top.key] = value
            top.key = None
            self.document.marks.setdefault(path, mark)
            return path
        self.document.marks[path] = mark
        return path

    def take_key(self, top: _Open, event: Any, value: Any) -> None:
        if isinstance(value, (dict, list)):
            self.complain(event, "a key must be a word", "Look for a missing colon or quote.")
            value = "?"
        text = value if isinstance(value, str) else event.value if isinstance(event, yaml.ScalarEvent) else ""
        top.key = text
        assert isinstance(top.container, dict)
        path = (*top.path, text)
        if text in top.container:
            first = self.document.marks[path][0]
            self.complain(event, f'"{text}" stands twice here (first in line {first})', "Keep one of them.")
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
