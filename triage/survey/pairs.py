"""Two quantities that make one reading: "14 mm over 1.7 m", "0.2 of 1.9 mm", "half a litre in 20 minutes"."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from fractions import Fraction

from triage.knowledge.model import Pair, PairKind
from triage.parsing import geometry
from triage.parsing.amounts import DIGITS, Interval, amount, unit_in
from triage.parsing.quantities import NotAQuantity, in_unit

_OVER = "over|in|at|on|across|along|per|from|for|of|under"
_AGAINST = r"against|instead of|rather than|compared (?:with|to)|where|beside|versus|vs\.?|and"
_JOINERS: Mapping[PairKind, str] = {
    "angle": _OVER,
    "bend": _OVER,
    "arc": _OVER,
    "part": rf"out of|left of|of|from|in|{_AGAINST}",
    "added": "on|over|in|for|to",
    "excess": _AGAINST,
    "oval": rf"by|x|×|{_AGAINST}",
    "across": "by|x|×",
    "rate": "in|per|every|over|within|for",
    "left": "out of|left of|of",
}
_LENDS: tuple[PairKind, ...] = ("part", "added", "excess", "oval", "across", "left")
"""Where a number without a unit may take that of the other: both are of one size."""

_BOUNDS = "not|no|never|each|either|without|most|least|more|less|under|below|above|nearly|almost|max|min|half|minus"
_NOT_IDLE = re.compile(rf"\d|[½¼¾]|n't\b|\b(?:{_BOUNDS})\b", re.IGNORECASE)
_SHARE = re.compile(
    r"(?P<how>\D*?)(?P<share>\d{1,2}/[1-9]\d?)\s+(?:of (?:the|it|its)\b|gone\b|eaten\b|has\b)\D*", re.IGNORECASE
)
_MORE = re.compile(
    r"(?P<how>\D*?)(?:(?P<part>\d{1,2}/[1-9]\d?)\s+(?:more|again|heavier|extra|as much again|too (?:much|heavy))"
    r"|(?P<times>[2-9]) times(?:\s+(?:as|what)\b.*)?)\b\D*",
    re.IGNORECASE,
)
_MORE_OF: tuple[PairKind, ...] = ("added", "excess")
_NO_TWIN = 0.5
"""Below which part of the second the first is no twin of it but what came on top. Basis: estimate."""

_SHORT = "minute"
"""What a time is counted in until the end: a part of an hour would be cut short."""

_SAME = 0.02
"""How far, as a part of it, a whole may be off the standard. Basis: estimate, a ruler read to 2 mm in 127."""


class CannotBe(ValueError):
    """Two quantities that cannot be what they are said to be: why."""


@dataclass(frozen=True)
class _Said:
    """Two quantities; ``left``: the first is said to be what is left of the second, or to stand against it."""

    first: Interval
    second: Interval
    left: bool


def pair_in(text: str, pairs: Mapping[PairKind, Pair], unit: str) -> Interval | None:
    """What the two quantities in the text make in ``unit``; None when there are no two that the pairs know.

    Raises CannotBe, or NotAQuantity when one of them measures something else.
    """
    wrong: NotAQuantity | None = None
    for pair in pairs.values():
        if pair.kind == "part" and (found := _SHARE.fullmatch(text)):
            return amount(f"{found['how']}{float(100 * Fraction(found['share'])):.{DIGITS}f} %", unit)
        if pair.kind in _MORE_OF and (more := _MORE.fullmatch(text)):
            return amount(f"{more['how']}{_on_top(more):.{DIGITS}f} %", unit)
        units = [unit.split("/")[0], _SHORT] if pair.kind == "rate" else [pair.unit, pair.unit]
        for said in _splits(text, pair.kind):
            try:
                both = _both(pair.kind, said, units)
            except NotAQuantity as error:
                wrong = wrong or error
            else:
                return _rounded(_made(pair, both, unit))
    if wrong:
        raise wrong
    return None


def _on_top(more: re.Match[str]) -> float:
    """The percent that "a third more" or "twice as much" are more than what it should be."""
    if more["part"]:
        return float(100 * Fraction(more["part"]))
    return 100.0 * (int(more["times"]) - 1)


def are_two(text: str) -> bool:
    """Whether the text holds two quantities, one over, of or against the other."""
    return any(True for kind in ("angle", "excess", "oval") for _ in _splits(text, kind))


def _splits(text: str, kind: PairKind) -> Iterator[tuple[str, str, str]]:
    """Every way to take the text as a quantity, a word that joins, and another quantity."""
    for found in re.finditer(rf"(?<![\w.])(?:{_JOINERS[kind]})(?![\w.])", text, re.IGNORECASE):
        first, last = text[: found.start()].strip(" ,"), text[found.end() :].strip(" ,")
        if re.search(r"\d", first) and re.search(r"\d", last) and (_core(first) and _core(last)):
            yield first, found[0].lower(), last


def _core(text: str) -> str:
    """The quantity in the text without idle words round it ("a drop of 12 mm" → "12 mm"); empty if there is none."""
    words = text.split()
    for start in range(len(words)):
        if _NOT_IDLE.search(" ".join(words[:start])):
            break
        for end in range(len(words), start, -1):
            if _NOT_IDLE.search(" ".join(words[end:])):
                break
            if _is_amount(core := " ".join(words[start:end])):
                return core
    return ""


def _is_amount(text: str) -> bool:
    unit = unit_in(text) or "mm"
    try:
        amount(text, unit, lent=unit)
    except NotAQuantity:
        return False
    return True


def _both(kind: PairKind, said: tuple[str, str, str], units: list[str]) -> _Said:
    first, joiner, last = said
    one, other = _core(first), _core(last)
    lends = kind in _LENDS
    left = bool(re.search(r"\bleft\b", f"{first} {joiner}")) or re.fullmatch(_AGAINST, joiner) is not None
    return _Said(
        amount(one, units[0], lent=unit_in(other) if lends else ""),
        amount(other, units[1], lent=unit_in(one) if lends else ""),
        left,
    )


def _made(pair: Pair, said: _Said, unit: str) -> Interval:
    one, other = said.first, said.second
    if one.low < 0:
        raise CannotBe("what is measured cannot be less than nothing")
    if other.low <= 0:
        raise CannotBe("what it is measured over, or against, must be more than nothing")
    match pair.kind:
        case "angle":
            return _ratio(geometry.angle, one, other)
        case "bend" | "added":
            return _ratio(geometry.share, one, other)
        case "rate":
            long = in_unit(f"1 {unit.split('/')[1]}", _SHORT)
            return _ratio(lambda much, time: long * geometry.rate(much, time), one, other)
        case "excess":
            if one.high < _NO_TWIN * other.low:
                raise CannotBe("say how much it is here, then how much it should be; the first is far too little")
            return _ratio(geometry.excess, one, other)
        case "oval":
            return _oval(one, other)
        case "across":
            return Interval(max(one.low, other.low), max(one.high, other.high))
        case "arc":
            return _arc(one, other, pair.standard or other.low)
    if one.low > other.high:
        raise CannotBe("a part cannot be more than the whole")
    if pair.kind == "left":
        return _of_the_standard(one, other, pair.standard or other.low)
    part = Interval(one.low, min(one.high, other.high), one.above, one.below and one.high <= other.high)
    return _gone(part, other) if said.left else _share(part, other)


def _ratio(make: geometry.Sum, one: Interval, other: Interval) -> Interval:
    """The sum at both ends: it rises with the first and falls with the second."""
    above, below = one.above or other.below, one.below or other.above
    return Interval(make(one.low, other.high), make(one.high, other.low), above, below)


def _share(part: Interval, whole: Interval) -> Interval:
    share = _ratio(geometry.share, part, whole)
    return Interval(share.low, min(100.0, share.high), share.above, share.below)


def _gone(left: Interval, whole: Interval) -> Interval:
    """What has gone where so much is left: it falls with the first and rises with the second."""
    low, high = geometry.shortfall(left.high, whole.low), geometry.shortfall(left.low, whole.high)
    return Interval(max(0.0, low), high, left.below or whole.above, left.above or whole.below)


def _oval(one: Interval, other: Interval) -> Interval:
    """Whichever is the longer over the other; where they may be alike, from nothing on."""
    if one.low <= 0:
        raise CannotBe("a hole cannot be nothing wide")
    if one.low > other.high:
        return _ratio(geometry.excess, one, other)
    if other.low > one.high:
        return _ratio(geometry.excess, other, one)
    return Interval(0.0, max(geometry.excess(one.high, other.low), geometry.excess(other.high, one.low)))


def _arc(rise: Interval, chord: Interval, standard: float) -> Interval:
    """From a dent of the standard length or less, which is the same under any straightedge, to one even curve."""
    low, high = rise.low, rise.high
    curved = geometry.rise_over(low, chord.high, standard), geometry.rise_over(high, chord.low, standard)
    return Interval(min(low, *curved), max(high, *curved), rise.above, rise.below)


def _of_the_standard(one: Interval, other: Interval, standard: float) -> Interval:
    if abs(other.low - standard) > _SAME * standard or abs(other.high - standard) > _SAME * standard:
        raise CannotBe(f"it is told of a whole of {standard:g}, not of {other.high:g}")
    return one


def _rounded(made: Interval) -> Interval:
    return Interval(round(made.low, DIGITS), round(made.high, DIGITS), made.above, made.below)
