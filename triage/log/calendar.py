"""What is due as entries for a calendar: text in the form of RFC 5545 (iCalendar), in lines of our own."""

from __future__ import annotations

import datetime
import hashlib
from collections.abc import Iterable, Iterator
from dataclasses import dataclass

PRODUCT = "-//Dinghy triage//Looking again//EN"
LONGEST_LINE = 75
"""Octets, without the end of the line (RFC 5545, 3.1)."""


@dataclass(frozen=True)
class Due:
    """Something to do on a day: ``what`` in a line, ``more`` in sentences. ``key`` stays the same from one list to the
    next, so that a calendar knows the entry again.
    """

    day: datetime.date
    what: str
    more: str = ""
    key: str = ""


def calendar(dues: Iterable[Due], now: datetime.datetime) -> str:
    """The text of a calendar of whole days; ``now`` is when it was made, with its time zone."""
    made = now.astimezone(datetime.UTC).strftime("%Y%m%dT%H%M%SZ")
    lines = ["BEGIN:VCALENDAR", "VERSION:2.0", f"PRODID:{PRODUCT}", "CALSCALE:GREGORIAN", "METHOD:PUBLISH"]
    for due in dues:
        lines += _event(due, made)
    return "".join(f"{_folded(line)}\r\n" for line in [*lines, "END:VCALENDAR"])


def _event(due: Due, made: str) -> Iterator[str]:
    yield "BEGIN:VEVENT"
    yield f"UID:{hashlib.sha256(f'{due.key or due.what}'.encode()).hexdigest()[:32]}@dinghy-triage.invalid"
    yield f"DTSTAMP:{made}"
    yield f"DTSTART;VALUE=DATE:{due.day:%Y%m%d}"
    yield f"SUMMARY:{_text(due.what)}"
    if due.more:
        yield f"DESCRIPTION:{_text(due.more)}"
    yield "TRANSP:TRANSPARENT"
    yield "END:VEVENT"


def _text(said: str) -> str:
    """A TEXT value (3.3.11): what would end or split it is escaped, and what does not print is left out."""
    kept = "".join(one for one in said.replace("\r\n", "\n") if one.isprintable() or one == "\n")
    for sign in ("\\", ";", ","):
        kept = kept.replace(sign, f"\\{sign}")
    return kept.replace("\n", "\\n")


def _folded(line: str) -> str:
    """The line in parts that are not too long, the later ones after a space (3.1); no letter is split."""
    parts, part = [], b""
    for letter in line:
        more = letter.encode("utf-8", "replace")
        if len(part) + len(more) > LONGEST_LINE:
            parts.append(part)
            part = b" "
        part += more
    return b"\r\n".join([*parts, part]).decode("utf-8")
