"""Measured quantities as people write them ("9 cm", "1/2 inch", "1,5 L"), turned into a scale's own unit."""

from __future__ import annotations

import re
from fractions import Fraction
from functools import cache

_NUMBER = r"(?P<number>(?:\d{1,9}\s+)?\d{1,3}/[1-9]\d{0,2}|\d{1,9}(?:[.,]\d{1,9})?|[.,]\d{1,9})"
_UNIT = r"(?P<unit>[a-zA-Z°%\"'′″]+(?:\s?/\s?[a-zA-Z]+)?)"
_QUANTITY = re.compile(rf"(?P<sign>[-−]?)\s*{_NUMBER}\s*{_UNIT}")
_FEET_AND_INCHES = re.compile(
    r"(?P<feet>\d{1,4})\s*(?:feet|foot|ft|['′])\s*(?:and\s+)?(?P<inches>\d[\d ./]*?)\s*(?:inches|inch|ins|in|[\"″])?",
    re.IGNORECASE,
)
_SPOKEN = {"½": " 1/2", "¼": " 1/4", "¾": " 3/4", "⁄": "/", "per cent": "%", " per ": "/"}

_UNITS = {
    "length": {  # in millimetres
        "millimetre mm millimetres millimeter millimeters": "1",
        "centimetre cm centimetres centimeter centimeters": "10",
        "metre m metres meter meters": "1000",
        "inch in inches ins": "25.4",
        "foot ft feet": "304.8",
    },
    "volume": {  # in litres
        "litre L l litres liter liters ltr": "1",
        "millilitre ml mL millilitres milliliters": "0.001",
        "cup cups cupful cupfuls": "0.25",
        "bucket buckets bucketful": "10",
        "gallon gal gallons": "4.54609",
        "pint pt pints": "0.56826125",
    },
    "mass": {  # in kilograms
        "kilogram kg kilo kilos kilograms": "1",
        "gram g grams": "0.001",
        "pound lb lbs pounds": "0.45359237",
    },
    "time": {"hour h hr hours hrs": "60", "minute min minutes": "1"},
    "span": {"year yr years yrs": "12", "month months mo": "1"},
    "angle": {"degree deg degrees": "1"},
    "share": {"percent pct": "1"},
}
"""By what they measure: the units that somebody measures with beside a boat, and exactly how many of its smallest or
most usual one each is. A table, because what a library of units would add to it is a multiplication and a tenth of a
second; the tests hold it against one."""

_SYMBOLS = {'"': "inch", "″": "inch", "'": "foot", "′": "foot", "°": "degree", "%": "percent"}


class NotAQuantity(ValueError):
    """The text is no number with a unit; the message says what is wrong with it."""


class UnknownUnit(NotAQuantity):
    """The unit is not one people measure with here. ``unit`` is what was written."""

    def __init__(self, unit: str) -> None:
        super().__init__(f'the unit "{unit}" is not known here')
        self.unit = unit


def unit_names() -> list[str]:
    """Every unit that is understood, short forms and plurals included."""
    return sorted(_known())


def is_unit(text: str) -> bool:
    """Whether ``text`` is a unit that is understood, such as "mm" or "L/h"."""
    parts = text.split("/")
    return len(parts) <= 2 and all(_spelt(part) for part in parts)


def looks_measured(text: str) -> bool:
    """Whether the text starts like a number, so that it is meant as a quantity and not as the name of a level."""
    return re.match(r"\s*[-−]?\s*[\d.,]*[\d½¼¾]", text) is not None


def in_unit(text: str, unit: str) -> float:
    """The quantity written in ``text``, in ``unit``. It may be negative.

    Raises UnknownUnit, or NotAQuantity when it is no quantity or measures something else.
    """
    said = text
    for spoken, written in _SPOKEN.items():
        said = said.replace(spoken, written)
    if both := _FEET_AND_INCHES.fullmatch(said.strip()):
        return round(in_unit(f"{both['feet']} ft", unit) + in_unit(f"{both['inches']} in", unit), 9)
    found = _QUANTITY.fullmatch(said.strip())
    if found is None:
        raise NotAQuantity(f'"{text}" is not a number with a unit')
    if re.fullmatch(r"\d{1,3},\d{3}", found["number"]):
        raise NotAQuantity(f'"{text}" may be thousands or a fraction: write it without the comma')
    number = sum(Fraction(part.replace(",", ".")) for part in found["number"].split())
    measured, factor = _unit(found["unit"])
    wanted, divisor = _unit(unit)
    if measured != wanted:
        raise NotAQuantity(f'"{text}" is not measured in {unit}')
    value = float(number * factor / divisor)
    return round(-value if found["sign"] else value, 9)  # no more digits than the longest number that is understood


def _unit(text: str) -> tuple[tuple[str, ...], Fraction]:
    """What the unit measures ("L/h": a volume by a time), and how many of the units of the table it is."""
    kinds, factors = [], []
    for part in (part.strip() for part in text.split("/")):
        name = _spelt(part)
        if name is None:
            raise UnknownUnit(part)
        kind, factor = _known()[name]
        kinds.append(kind)
        factors.append(factor)
    return tuple(kinds), factors[0] if len(factors) == 1 else factors[0] / factors[1]


def _spelt(part: str) -> str | None:
    name = _SYMBOLS.get(part, part)
    return _spellings().get(name, _spellings().get(name.lower()))


@cache
def _known() -> dict[str, tuple[str, Fraction]]:
    """Every name of every unit: what it measures, and how many of the units of the table it is."""
    return {
        name: (kind, Fraction(factor))
        for kind, units in _UNITS.items()
        for names, factor in units.items()
        for name in names.split()
    }


@cache
def _spellings() -> dict[str, str]:
    """Every accepted spelling, in small letters too, and the unit it stands for."""
    return {word.lower(): word for word in unit_names()} | {word: word for word in unit_names()}
