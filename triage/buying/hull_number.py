"""Hull identification numbers: what one says, where it contradicts itself, and how two compare.

Sources: United States, 33 CFR 181.25 (twelve characters since August 1984; no I, O or Q in the serial), read in
copies; the layouts of November 1972 to July 1984 and their letters for months as the Australian register of personal
property prints them; the form of ISO 10087 (a country before the twelve), known from its abstract. That a model year
runs from June of the year before to July (33 CFR 181.3) is from memory.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass
from itertools import combinations
from typing import Literal

Layout = Literal["current", "straight year", "model year"]

LENGTH, WITH_COUNTRY = 12, 14
FIRST_YEAR = 1972
"""Numbers were first asked for in November of this year, so two figures of a year tell the century."""

OLD_LAYOUTS_END = 1984
"""The last year of both older layouts, in July."""

CALENDAR = "ABCDEFGHIJKL"
"""Letters of the months in the current layout, from January."""

SEASON = "ABCDEFGHIJKL"
"""Letters of the months in the model-year layout, from August."""

FORBIDDEN = "IOQ"
"""Letters that no serial has, because they are taken for 1 and 0."""

_ENDINGS: dict[Layout, re.Pattern[str]] = {
    "current": re.compile(r"(?P<month>[A-L])(?P<digit>\d)(?P<year>\d\d)"),
    "model year": re.compile(r"M(?P<year>\d\d)(?P<month>[A-L])"),
    "straight year": re.compile(r"(?P<month>0[1-9]|1[0-2])(?P<year>\d\d)"),
}

_ALIKE = {"O": "0", "Q": "0", "D": "0", "I": "1", "L": "1", "Z": "2", "S": "5", "G": "6", "B": "8"}
_LOOKS_LIKE = {**_ALIKE, **{figure: letter for letter, figure in reversed(_ALIKE.items())}}
_MOST_MISREAD = 2


@dataclass(frozen=True)
class HullNumber:
    """A number that can be read. ``built`` are the calendar years it may mean, ``month`` counts from 1.

    ``country`` is empty where there is none before the twelve characters. ``current`` is the layout since August 1984.
    """

    text: str
    layout: Layout
    country: str
    maker: str
    serial: str
    month: int
    model_year: int
    built: tuple[int, ...]


@dataclass(frozen=True)
class Unreadable:
    """Why it is no hull number, and the numbers that it may be if characters that look alike were taken for others."""

    text: str
    why: tuple[str, ...]
    perhaps: tuple[str, ...]


def read_hull_number(said: str, this_year: int) -> HullNumber | Unreadable:
    """What a number says. Spaces, hyphens, dots and slashes between its parts do not count."""
    text = re.sub(r"[\s./_-]+", "", said).upper()
    why = tuple(_wrong(text))
    if not why:
        return _read(text, this_year)
    return Unreadable(text, why, tuple(_perhaps(text)))


def _wrong(text: str) -> Iterator[str]:
    """Each reason why a text cannot be a number."""
    if len(text) not in (LENGTH, WITH_COUNTRY):
        yield f"it has {len(text)} characters; a number has {LENGTH}, or {WITH_COUNTRY} with a country before them"
        return
    country, core = text[:-LENGTH], text[-LENGTH:]
    if not re.fullmatch("[A-Z]*", country):
        yield f"“{country}” is no country of two letters"
    if not re.fullmatch(r"[A-Z0-9]{3}", core[:3]):
        yield f"“{core[:3]}” is no code of a maker"
    serial = core[3:8]
    if bad := sorted(set(FORBIDDEN) & set(serial)):
        yield f"its serial “{serial}” has {' and '.join(bad)}, which no serial has"
    elif not re.fullmatch(r"[A-Z0-9]{5}", serial):
        yield f"“{serial}” is no serial of letters and figures"
    if not any(ending.fullmatch(core[8:]) for ending in _ENDINGS.values()):
        yield f"“{core[8:]}” is no date: a month letter A to L and three figures, or one of the layouts before 1984"


def _perhaps(text: str) -> Iterator[str]:
    """The numbers that differ in at most two characters that are taken for each other."""
    if len(text) not in (LENGTH, WITH_COUNTRY):
        return
    doubtful = [place for place, character in enumerate(text) if character in _LOOKS_LIKE]
    for many in range(1, _MOST_MISREAD + 1):
        found = False
        for places in combinations(doubtful, many):
            characters = list(text)
            for place in places:
                characters[place] = _LOOKS_LIKE[text[place]]
            other = "".join(characters)
            if not any(_wrong(other)):
                found = True
                yield other
        if found:
            return


def _read(text: str, this_year: int) -> HullNumber:
    country, core = text[:-LENGTH], text[-LENGTH:]
    layout, ending = next((name, m) for name, one in _ENDINGS.items() if (m := one.fullmatch(core[8:])))
    model_year = _century(int(ending["year"]), this_year)
    month, built = _built(layout, ending, model_year)
    return HullNumber(text, layout, country, core[:3], core[3:8], month, model_year, built)


def _century(figures: int, this_year: int) -> int:
    """The last year that ends so and can be: none before numbers began, and none after the next model year."""
    years = range(FIRST_YEAR, this_year + 2)
    return next((year for year in reversed(years) if year % 100 == figures), FIRST_YEAR // 100 * 100 + figures)


def _built(layout: Layout, ending: re.Match[str], model_year: int) -> tuple[int, tuple[int, ...]]:
    """The month, and the calendar years that it may be of; none where the figures contradict each other."""
    match layout:
        case "current":
            years = [year for year in (model_year - 1, model_year) if year % 10 == int(ending["digit"])]
            return CALENDAR.index(ending["month"]) + 1, tuple(years)
        case "straight year":
            return int(ending["month"]), (model_year,)
        case "model year":
            month = (SEASON.index(ending["month"]) + 7) % 12 + 1
            return month, (model_year,) if month < 8 else (model_year - 1, model_year)


def doubts(number: HullNumber, this_year: int) -> Iterator[str]:
    """Where a number contradicts itself or the calendar; nothing that is merely unusual."""
    if not number.built:
        yield f"its year of building does not fit model year {number.model_year}"
    elif number.layout == "current" and not _season_fits(number):
        yield (
            f"built in month {number.month} of {number.built[0]} is unusual for model year {number.model_year}; "
            "makers outside the United States often do not keep to it"
        )
    if number.layout != "current" and number.model_year > OLD_LAYOUTS_END:
        yield f"its layout ended in July {OLD_LAYOUTS_END}, before {number.model_year}"
    if number.layout == "current" and number.model_year < OLD_LAYOUTS_END:
        yield f"its layout began in August {OLD_LAYOUTS_END}, after {number.model_year}"
    if number.built and min(number.built) > this_year:
        yield f"it was built in {number.built[0]}, which has not come yet"


def _season_fits(number: HullNumber) -> bool:
    """A model year runs from June of the year before to the end of July (33 CFR 181.3, from memory)."""
    year = number.built[0]
    if number.month <= 5:
        return number.model_year == year
    return number.model_year == year + 1 if number.month >= 8 else number.model_year in (year, year + 1)


PARTS = {"country": "the country", "maker": "the maker", "serial": "the serial", "model_year": "the model year"}


def differences(one: HullNumber, other: HullNumber) -> tuple[str, ...]:
    """What differs between two numbers of one boat; a country on one of them alone is no difference."""
    found = [
        words
        for part, words in PARTS.items()
        if getattr(one, part) != getattr(other, part) and (part != "country" or (one.country and other.country))
    ]
    if (one.month, one.built) != (other.month, other.built) and "the model year" not in found:
        found.append("the date")
    return tuple(found)


def taken_for(one: HullNumber, other: HullNumber) -> bool:
    """Whether they differ only in characters that are easily taken for each other."""
    a, b = one.text[-LENGTH:], other.text[-LENGTH:]
    return a != b and all(
        x == y or _LOOKS_LIKE.get(x) == y or _LOOKS_LIKE.get(y) == x for x, y in zip(a, b, strict=True)
    )
