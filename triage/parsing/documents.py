"""YAML or JSON text as plain values that remember where they stood.

Stricter than YAML on purpose: a key may stand once, ``no`` is a word, there are no anchors, tags or second
documents, and size and nesting are bounded. Everything wrong is reported together.
"""

from __future__ import annotations

import datetime
import json
import re
from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Any

import yaml

from triage.errors import Place, Problem
from triage.parsing.building import MAX_DEPTH, MAX_PARTS, Builder
from triage.parsing.syntax import UNPRINTABLE, fault, unprintable

MAX_BYTES = 2_000_000
MAX_BITS = 64
"""Of a whole number that another program gives. Text is limited by its bytes; and Python itself cannot print all."""

MAX_TOLD = 2000
"""Characters in which a problem is told, and those of its remedy; of what was written, no more is said back."""

MAX_EXCERPT = 160
"""Characters of a line that are shown with a problem; of a longer line, those around the place."""

Path = tuple[str | int, ...]


_LOADER: type = getattr(yaml, "CSafeLoader", yaml.SafeLoader)  # the quick one is compiled, and the phone has none
_LINE_END = re.compile(r"\r\n|[\n\r\x85\u2028\u2029]")
_BREAK = re.compile(r"[\t\n\r\x85\u2028\u2029]")
_JSON_PAIR = re.compile(r"\\\\|\\u[dD][89abAB][0-9a-fA-F]{2}\\u[dD][c-fC-F][0-9a-fA-F]{2}")


@dataclass
class Document:
    """One file's ``value`` (dict, list, str, int, float, None) and where each part of it stands.

    ``broken``: reading stopped at the last problem, so that ``value`` lacks whatever comes after it. ``textless``: the
    value came from another program, so that places are told as paths.
    """

    source: str
    text: str
    value: Any = None
    marks: dict[Path, tuple[int, int]] = field(default_factory=dict)
    problems: list[Problem] = field(default_factory=list)
    broken: bool = False
    textless: bool = False

    def __post_init__(self) -> None:
        self.lines = _LINE_END.split(self.text)

    def problem(self, path: Path, what: str, hint: str = "") -> Problem:
        """A Problem at ``path``, or at the nearest enclosing part that has a place; without a text, at the path."""
        if self.textless:
            return Problem(Place(f"{self.source}{_told(path)}"), _in_one_line(what), _in_one_line(hint))
        while path and path not in self.marks:
            path = path[:-1]
        line, column = self.marks.get(path, (0, 0))
        return self.at(line, column, what, hint)

    def at(self, line: int, column: int, what: str, hint: str = "") -> Problem:
        """A Problem at a line and column (from 1; 0 means the whole file)."""
        whole = self.lines[line - 1] if 0 < line <= len(self.lines) else ""
        start = max(0, column - MAX_EXCERPT // 2) if len(whole) > MAX_EXCERPT else 0
        excerpt = whole[start : start + MAX_EXCERPT].replace("\t", " ")
        what, hint = _in_one_line(what), _in_one_line(hint)
        return Problem(Place(self.source, line, column), what, hint, UNPRINTABLE.sub("\ufffd", excerpt), start)

    def breaks(self, line: int, column: int, what: str, hint: str) -> None:
        """Note a problem that ends the reading."""
        self.problems.append(self.at(line, column, what, hint))
        self.broken = True

    def place(self, path: Path) -> Place:
        """Where ``path`` stands."""
        return self.problem(path, "").place


def read_document(text: str | bytes, source: str) -> Document:
    """Read ``text``. The result's ``problems`` says what is wrong with its form; ``value`` is what could be read."""
    if len(text) > MAX_BYTES:
        return _refused(source, f"this file is too large (at most {MAX_BYTES // 1_000_000} MB)", "Split it.")
    if isinstance(text, bytes):
        try:
            text = text.decode("utf-8")
        except UnicodeDecodeError as error:
            return _refused(source, f"this is not plain text (byte {error.start + 1})", "Save it as UTF-8 text.")
    document = Document(source, _as_yaml(text.removeprefix("\ufeff")))
    if bad := UNPRINTABLE.search(document.text):
        before = _LINE_END.split(document.text[: bad.start()])
        document.breaks(len(before), len(before[-1]) + 1, *unprintable(bad[0]))
        return document
    try:
        Builder(document).build(yaml.parse(document.text, Loader=_LOADER))
    except yaml.MarkedYAMLError as error:
        document.breaks(*fault(error, document.lines))
    return document


def document_of(value: Any, source: str) -> Document:
    """A document of what another program has as plain values: mappings, lists, texts, numbers, dates."""
    document = Document(source, "", textless=True)
    document.value = _plain(document, value, (), [0])
    return document


def _plain(document: Document, value: Any, path: Path, parts: list[int]) -> Any:
    """The value as reading its text would give it; what no text could say becomes a problem."""
    parts[0] += 1
    if parts[0] > MAX_PARTS or len(path) > MAX_DEPTH:
        document.breaks(0, 0, "this holds too much to be read", "Split it.")
    if document.broken or value is None or isinstance(value, str):
        return value
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, int) and value.bit_length() > MAX_BITS:
        document.problems.append(document.problem(path, "this number is too large", "Check it."))
        return None
    if isinstance(value, (int, float)):
        return value
    if isinstance(value, datetime.date):
        return value.isoformat()
    if isinstance(value, Mapping):
        return {str(key): _plain(document, part, (*path, str(key)), parts) for key, part in value.items()}
    if isinstance(value, (list, tuple)):
        return [_plain(document, part, (*path, index), parts) for index, part in enumerate(value)]
    what = f"this is {type(value).__name__}, which no survey can hold"
    document.problems.append(document.problem(path, what, "Give a text, a number, a list or a mapping."))
    return None


def _in_one_line(told: str) -> str:
    """What is told, whatever was quoted in it."""
    line = _BREAK.sub(" ", told)
    return line if len(line) <= MAX_TOLD else f"{line[: MAX_TOLD - 1]}…"


def _told(path: Path) -> str:
    return f": {path_text(path)}" if path else ""


def path_text(path: Path) -> str:
    """A path as it would be written in Python: ``findings[2].readings.crack_length``."""
    return "".join(f"[{part}]" if isinstance(part, int) else f".{part}" for part in path).lstrip(".")


def _refused(source: str, what: str, hint: str) -> Document:
    document = Document(source, "")
    document.breaks(0, 0, what, hint)
    return document


def _as_yaml(text: str) -> str:
    """JSON text as YAML would have it: no tabs, and a character beyond 16 bits as itself, not as a pair of escapes."""
    if text.lstrip()[:1] not in ("{", "["):
        return text
    whole = _JSON_PAIR.sub(lambda found: found[0] if found[0] == r"\\" else str(json.loads(f'"{found[0]}"')), text)
    return whole.replace("\t", " ")
