"""A quantity as people bound it: "about 9 mm", "under 3 mm", "2 or 3 mm", "3 mm ± 1", as an interval in a unit."""

from __future__ import annotations

import math
import re
from dataclasses import dataclass

from triage.parsing.quantities import NotAQuantity, in_unit

ABOUT = 0.15
"""How far, as a part of it, a quantity may be off that is said to be "about" so much. Basis: estimate."""

DIGITS = 9
"""Decimals that are kept; no more than `in_unit` keeps, so that a sum in floating point meets a limit exactly."""

_REACH = 40
"""Characters before a quantity among which the words that bound it stand."""

_LEADING = {
    "at most": r"at (?:the )?most|no more than|not more than|not over|no bigger than|up to|max(?:imum)?|<=|≤",
    "near below": r"nearly|almost|just under|just below|not quite",
    "near above": r"just over|just above|a (?:bit|little) (?:over|more than)",
    "under": r"under|less than|below|smaller than|shorter than|<",
    "at least": r"at (?:the )?least|no less than|not less than|not under|min(?:imum)?|>=|≥",
    "over": r"(?:well )?over|more than|above|longer than|bigger than|>",
    "about": r"about|around|roughly|approximately|approx\.?|some|circa|ca\.?|maybe|perhaps|something like|~|≈",
    "exactly": r"exactly|precisely|just|right on",
}
_TRAILING = {
    "at most": r"at (?:the )?most|or less|or under|max(?:imum)?",
    "at least": r"at (?:the )?least|or more|or over|min(?:imum)?",
    "about": r"or so|or thereabouts|approximately|roughly|more or less|give or take",
}
_BEFORE = [(how, re.compile(rf"(?:{words})(?![a-z])\s*", re.IGNORECASE)) for how, words in _LEADING.items()]
_AFTER = [(how, re.compile(rf"[\s,]+(?:{words})$", re.IGNORECASE)) for how, words in _TRAILING.items()]
_SIZED = re.compile(
    r"\s+(?:long|wide|deep|across|high|thick|in all|in total|in length|all told|of water|of play"
    r"|(?:in|over) (?:an?|one|1|the) season|since (?:the |last )?[a-z]+)$",
    re.IGNORECASE,
)
_PLUS_MINUS = re.compile(r"\s*(?:±|\+\s*/\s*[-−]|\+-|\bplus or minus\b|\bgive or take\b)\s*", re.IGNORECASE)
_TWO = re.compile(r"^(?:between\s+|from\s+)?(?P<first>\S.*?)\s*(?:\bto\b|\band\b|\bor\b|[–—])\s*(?P<last>\S.*)$")
_HYPHEN = re.compile(r"^(?P<first>[\d.,/½¼¾]+)\s*[a-z\"%°]*\s*[-−]\s*(?P<last>[\d.½¼¾].*)$", re.IGNORECASE)
_BARE = re.compile(r"[-−]?\s*[\d.,/½¼¾⁄ ]+")
_MIXED = re.compile(r"^(\d+)\s*[-−]\s*([1-9]\d?/[1-9]\d?\b)")


@dataclass(frozen=True)
class Interval:
    """All from ``low`` to ``high``, which may be infinite; ``above`` and ``below``: without that end itself."""

    low: float
    high: float
    above: bool = False
    below: bool = False


def amount(text: str, unit: str, *, lent: str = "") -> Interval:
    """The quantity in ``text``, in ``unit``; ``lent`` is the unit of a number that has none of its own.

    Raises NotAQuantity (UnknownUnit) when it is no quantity or measures something else.
    """
    how, rest = _bounded(" ".join(text.split()))
    if len(parts := _PLUS_MINUS.split(rest)) == 2:
        middle, spread = _values(parts, unit, lent)
        if spread < 0:
            raise NotAQuantity(f'"{text}" has a spread of less than nothing')
        least = middle - spread if middle < 0 else max(0.0, middle - spread)  # nothing is less than nothing
        return _as_bounded(how, _to_the_digit(least), _to_the_digit(middle + spread))
    values = _values(_ends(rest), unit, lent)
    return _as_bounded(how, min(values), max(values))


def widened(text: str, start: int, end: int) -> tuple[int, int]:
    """From where to where the quantity at ``text[start:end]`` stands with the words that bound it ("less than")."""
    for words in _LEADING.values():
        if found := re.search(rf"(?<![a-z])(?:{words})\s*$", text[max(0, start - _REACH) : start], re.IGNORECASE):
            start += found.start() - min(start, _REACH)
            break
    for words in _TRAILING.values():
        if found := re.match(rf"[\s,]+(?:{words})(?![a-z])", text[end:], re.IGNORECASE):
            end += found.end()
            break
    return start, end


def bound_of(text: str, start: int, end: int) -> str:
    """The words that bound the quantity at ``text[start:end]``, as `amount` takes them before it; empty without any."""
    first, last = widened(text, start, end)
    after = (
        name for name, words in _TRAILING.items() if re.fullmatch(rf"[\s,]+(?:{words})", text[end:last], re.IGNORECASE)
    )
    return text[first:start].strip() or next(after, "")


def unit_in(text: str) -> str:
    """The unit that ends the text, with whatever bounds it taken off; empty where there is none."""
    _, rest = _bounded(text)
    found = re.search(r"[^\d.,/½¼¾⁄\s−±-][^\d]*$", _ends(rest)[-1])
    return found[0].strip() if found else ""


def _bounded(text: str) -> tuple[str, str]:
    """How the text bounds its quantity ("at most"), and the quantity without that."""
    said, how = _SIZED.sub("", text.strip().rstrip(".!")), ""
    for name, words in _AFTER:
        if found := words.search(said):
            how, said = name, said[: found.start()]
    said = _SIZED.sub("", said)
    for name, words in _BEFORE:
        if not how and (found := words.match(said)):
            how, said = name, said[found.end() :]
            break
    if how in ("at most", "under", "at least", "over") and (found := dict(_BEFORE)["about"].match(said)):
        said = said[found.end() :]  # "at most about 3 mm" is bounded by what was said
    return how, said


def _ends(text: str) -> list[str]:
    """The two ends of "2 to 3 mm", "2 or 3 mm", "2-3 mm"; one where there are no two."""
    if mixed := _MIXED.match(text):
        return [f"{mixed[1]} {mixed[2]}{text[mixed.end() :]}"]
    found = _TWO.match(text) or _HYPHEN.match(text)
    if found and re.search(r"\d|[½¼¾]", found["first"]) and re.search(r"\d|[½¼¾]", found["last"]):
        first = text[: found.start("last")].rstrip(" -−") if found.re is _HYPHEN else found["first"]
        return [first, found["last"]]
    return [text]


def _values(parts: list[str], unit: str, lent: str) -> list[float]:
    """The parts in the unit; a number without one takes that of another part."""
    units = [unit_in(part) if len(parts) > 1 else "" for part in parts]
    for index in range(len(parts)):
        others = [*units[index + 1 :], *units[:index]]
        borrowed = next((one for one in others if one), lent)
        if _BARE.fullmatch(parts[index]) and borrowed:
            parts = [*parts[:index], f"{parts[index]} {borrowed}", *parts[index + 1 :]]
    return [in_unit(part, unit) for part in parts]


def _as_bounded(how: str, low: float, high: float) -> Interval:
    match how:
        case "at most":
            return Interval(0.0, high) if high >= 0 else Interval(high, high)
        case "under":
            return Interval(0.0, high, below=True) if high >= 0 else Interval(high, high)
        case "at least":
            return Interval(low, math.inf)
        case "over":
            return Interval(low, math.inf, above=True)
        case "about":
            return Interval(_to_the_digit(low * (1 - ABOUT)), _to_the_digit(high * (1 + ABOUT)))
        case "near below":
            return Interval(_to_the_digit(low * (1 - ABOUT)), high, below=True)
        case "near above":
            return Interval(low, _to_the_digit(high * (1 + ABOUT)), above=True)
    return Interval(low, high)


def _to_the_digit(value: float) -> float:
    return round(value, DIGITS)
