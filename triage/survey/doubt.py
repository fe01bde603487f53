"""A doubt: something about a survey that cannot be; and the doubts that any text or date may raise."""

from __future__ import annotations

import datetime
import re
from collections.abc import Iterator
from dataclasses import dataclass

from triage.parsing.documents import Path

_UNPRINTABLE = re.compile(r"[\x00-\x08\x0b-\x1f\x7f-\x9f\ud800-\udfff]")


@dataclass(frozen=True)
class Doubt:
    """Something that cannot be: where in the survey, what, and what to do. ``beside``: what it contradicts."""

    path: Path
    what: str
    hint: str = ""
    beside: Path = ()


def text_doubts(path: Path, text: str, most: int, *, lines: bool = False) -> Iterator[Doubt]:
    """Texts that are too long, or hold what would drive a terminal or turn a line round."""
    if len(text) > most:
        yield Doubt(path, f"this is too long ({len(text)} characters)", f"It may have {most} characters at most.")
    found = _UNPRINTABLE.search(text)
    if found or (not lines and re.search(r"[\n\r\u2028\u2029]", text)):
        what = f"a character that cannot stand in text (code {ord(found[0])})" if found else "more than one line"
        yield Doubt(path, what, "Delete it and type the line again.")


def date_doubts(path: Path, date: datetime.date | None) -> Iterator[Doubt]:
    """A date that has not come yet."""
    tomorrow = datetime.date.today() + datetime.timedelta(days=1)  # it is already tomorrow somewhere
    if date is not None and date > tomorrow:
        yield Doubt(path, f"{date} has not come yet", "Check the date.")
