"""What is said of hull numbers: what they tell, what does not match, and what to ask. Nobody is accused."""

from __future__ import annotations

import calendar
from collections.abc import Iterable, Iterator

from triage.buying.hull_number import HullNumber, Unreadable, differences, doubts, taken_for
from triage.phrases.words import capital, listed

LAYOUTS = {
    "current": "in use since August 1984",
    "straight year": "in use from November 1972 to July 1984, month and year in figures",
    "model year": "in use from November 1972 to July 1984, by model year",
}

ASK = "Does not match: ask, and wait for the answer in writing before any money changes hands."

GOOD_TO_KNOW = (
    "The number is on the transom, upper right, and again where it is hidden: compare both, and how they are fixed.",
    "Compare with the papers, and ask the class, the insurer, and the police or a register of stolen boats by number.",
    "A sail number may follow the sail: weak evidence. Older, home-built and race boats may have no hull number.",
)


def told(number: HullNumber) -> Iterator[str]:
    """What a number says, a line each."""
    yield f"{_spaced(number)}: layout {LAYOUTS[number.layout]}."
    if number.country:
        yield f"Country {number.country}."
    yield f"Maker {number.maker}, serial {number.serial}."
    when = " or ".join(map(str, number.built)) or "a year that does not fit"
    yield f"Built in {calendar.month_name[number.month]} of {when}, model year {number.model_year}."


def _spaced(number: HullNumber) -> str:
    core = f"{number.maker} {number.serial} {number.text[-4:]}"
    return f"{number.country}-{core}" if number.country else core


def does_not_match(number: HullNumber, this_year: int, claimed: int | None) -> Iterator[str]:
    """Each contradiction of a number with itself, with the calendar and with the year that was claimed."""
    yield from (f"{capital(doubt)}." for doubt in doubts(number, this_year))
    if claimed is not None and claimed not in (*number.built, number.model_year):
        years = listed([str(year) for year in dict.fromkeys((*number.built, number.model_year))])
        yield f"She is said to be of {claimed}, and the number says {years}."


def two_plates(one: HullNumber, other: HullNumber) -> str:
    """What two plates of one boat say together; empty when they agree."""
    differing = differences(one, other)
    if not differing:
        return ""
    misread = " They differ only in what is easily misread: read both again." if taken_for(one, other) else ""
    return f"The two numbers differ in {listed(differing)}.{misread}"


def unreadable(one: Unreadable) -> Iterator[str]:
    """Why it is no number, and what it may have been."""
    yield f"{one.text or 'Nothing'} is no hull number: {'; '.join(one.why)}."
    if one.perhaps:
        yield f"Look again: some characters look alike, and it may be {_or(one.perhaps[:4])}."


def _or(parts: Iterable[str]) -> str:
    *first, last = parts
    return f"{', '.join(first)} or {last}" if first else last
