"""A calendar by the rules of RFC 5545, sections 3.1 (lines), 3.3.11 (text), 3.6 and 3.6.1 (what must stand)."""

from __future__ import annotations

import datetime
import re

from hypothesis import given
from hypothesis import strategies as st

from triage.log.calendar import Due, calendar

NOW = datetime.datetime(2026, 5, 3, 14, 30, tzinfo=datetime.timezone(datetime.timedelta(hours=2)))
DAY = datetime.date(2026, 11, 1)


def unfolded(text: str) -> list[str]:
    """The content lines of a calendar, as 3.1 has them joined again."""
    return text.replace("\r\n ", "").removesuffix("\r\n").split("\r\n")


def value(text: str, name: str) -> str:
    (found,) = [line.partition(":")[2] for line in unfolded(text) if re.match(f"{name}[:;]", line)]
    return found


def unescaped(text: str) -> str:
    return re.sub(r"\\(.)", lambda found: "\n" if found[1] in "nN" else found[1], text)


def test_an_entry_has_everything_that_it_must() -> None:
    lines = unfolded(calendar([Due(DAY, "Look again", "Measure it.", "a")], NOW))

    assert ["BEGIN:VCALENDAR", "VERSION:2.0"] == lines[:2]
    assert ("BEGIN:VEVENT", "END:VEVENT", "END:VCALENDAR") == (lines[5], *lines[-2:])
    assert "DTSTAMP:20260503T123000Z" in lines
    assert "DTSTART;VALUE=DATE:20261101" in lines
    assert {"UID", "SUMMARY", "DESCRIPTION", "PRODID"} <= {line.partition(":")[0] for line in lines}


def test_an_entry_is_known_again_by_its_id() -> None:
    first, later, other = (
        value(calendar([Due(day, what, key=key)], NOW), "UID")
        for day, what, key in ((DAY, "a", "k"), (DAY + datetime.timedelta(days=1), "b", "k"), (DAY, "a", "other"))
    )

    assert first == later != other


def test_nothing_due_is_a_calendar_without_entries() -> None:
    assert "VEVENT" not in calendar([], NOW)


@given(st.text(st.characters(codec="utf-8"), max_size=400), st.text(max_size=400))
def test_no_line_is_too_long_and_no_text_gets_out_of_its_line(what: str, more: str) -> None:
    text = calendar([Due(DAY, what, more)], NOW)

    assert text.endswith("\r\n")
    raw = text.encode("utf-8").split(b"\r\n")
    assert all(len(line) <= 75 for line in raw)
    assert all(b"\n" not in line and b"\r" not in line for line in raw)
    assert all(line.decode("utf-8") for line in raw[:-1])
    assert {"BEGIN", "END", "UID", "DTSTAMP", "DTSTART;VALUE=DATE", "SUMMARY", "DESCRIPTION", "TRANSP"} >= {
        line.partition(":")[0] for line in unfolded(text)[5:-1]
    }
    plain = "".join(one for one in what.replace("\r\n", "\n") if one.isprintable() or one == "\n")
    assert plain == unescaped(value(text, "SUMMARY"))
