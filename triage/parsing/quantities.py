"""Measured quantities as people write them ("9 cm", "1/2 inch", "1,5 L"), turned into a scale's own unit."""

from __future__ import annotations

import re
from fractions import Fraction
from functools import cache
from typing import Any

_NUMBER = r"(?P<number>(?:\d{1,9}\s+)?\d{1,3}/[1-9]\d{0,2}|\d{1,9}(?:[.,]\d{1,9})?|[.,]\d{1,9})"
_UNIT = r"(?P<unit>[a-zA-Z°%\"'′″]+(?:\s?/\s?[a-zA-Z]+)?)"
_QUANTITY = re.compile(rf"(?P<sign>[-−]?)\s*{_NUMBER}\s*{_UNIT}")
_SPOKEN = {"½": " 1/2", "¼": " 1/4", "¾": " 3/4", "⁄": "/", "per cent": "%", " per ": "/"}

# The units somebody measures with beside a boat. pint does the arithmetic and refuses to mix lengths with litres;
# its own list of several hundred units would take a quarter of a second to load and accept "9 lightyears".
_UNITS = """
millimetre = [length] = mm = millimetres = millimeter = millimeters
centimetre = 10 * millimetre = cm = centimetres = centimeter = centimeters
metre = 1000 * millimetre = m = metres = meter = meters
inch = 25.4 * millimetre = in = inches = ins
foot = 12 * inch = ft = feet
litre = [volume] = L = l = litres = liter = liters = ltr
millilitre = 0.001 * litre = ml = mL = millilitres = milliliters
cup = 0.25 * litre = cups = cupful = cupfuls
bucket = 10 * litre = buckets = bucketful
gallon = 4.54609 * litre = gal = gallons
pint = 0.56826125 * litre = pt = pints
hour = [time] = h = hr = hours = hrs
minute = hour / 60 = min = minutes
degree = [angle] = deg = degrees
percent = [share] = pct
kilogram = [mass] = kg = kilo = kilos = kilograms
gram = 0.001 * kilogram = g = grams
pound = 0.45359237 * kilogram = lb = lbs = pounds
year = [span] = yr = years = yrs
month = year / 12 = months = mo
"""
_SYMBOLS = {'"': "inch", "″": "inch", "'": "foot", "′": "foot", "°": "degree", "%": "percent"}


class NotAQuantity(ValueError):
    """The text is no number with a unit; the message says what is wrong with it."""


class UnknownUnit(NotAQuantity):
    """The unit is not one people measure with here. ``unit`` is what was written."""

    def __init__(self, unit: str) -> None:
        super().__init__(f'the unit "{unit}" is not known here')
        self.unit = unit


@cache
def _registry() -> Any:
    import pint

    registry: Any = pint.UnitRegistry(None, autoconvert_offset_to_baseunit=False)
    registry.load_definitions(_UNITS.strip().splitlines())
    return registry


def unit_names() -> list[str]:
    """Every unit that is understood, short forms and plurals included."""
    return sorted({word for line in _UNITS.strip().splitlines() for word in re.findall(r"[A-Za-z_]+", line)} - _KINDS)


def is_unit(text: str) -> bool:
    """Whether ``text`` is a unit that is understood, such as "mm" or "L/h"."""
    parts = text.split("/")
    return len(parts) <= 2 and all(_spelt(part) for part in parts)


_KINDS = {"length", "volume", "time", "angle", "share", "mass", "span"}


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
    found = _QUANTITY.fullmatch(said.strip())
    if found is None:
        raise NotAQuantity(f'"{text}" is not a number with a unit')
    if re.fullmatch(r"\d{1,3},\d{3}", found["number"]):
        raise NotAQuantity(f'"{text}" may be thousands or a fraction: write it without the comma')
    number = sum(Fraction(part.replace(",", ".")) for part in found["number"].split())
    sign = -1 if found["sign"] else 1
    given = _unit(found["unit"])
    try:
        value = _registry().Quantity(sign * float(number), given).to(_unit(unit)).magnitude
    except Exception as error:
        if type(error).__name__ != "DimensionalityError":
            raise
        raise NotAQuantity(f'"{text}" is not measured in {unit}') from None
    return round(float(value), 9)  # 1.5 cm and 15 mm must come out at the same side of a limit


def _unit(text: str) -> Any:
    units = []
    for part in (part.strip() for part in text.split("/")):
        name = _spelt(part)
        if name is None:
            raise UnknownUnit(part)
        units.append(getattr(_registry(), name))
    return units[0] if len(units) == 1 else units[0] / units[1]


def _spelt(part: str) -> str | None:
    name = _SYMBOLS.get(part, part)
    return _spellings().get(name, _spellings().get(name.lower()))


@cache
def _spellings() -> dict[str, str]:
    """Every accepted spelling, in small letters too, and the unit it stands for."""
    return {word.lower(): word for word in unit_names()} | {word: word for word in unit_names()}
