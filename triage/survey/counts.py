"""How many, as a reading: "two of six spin", "a quarter turn on half the screws", "25 blisters, the biggest 6 mm"."""

from __future__ import annotations

import re
from dataclasses import dataclass
from fractions import Fraction

from triage.knowledge.model import Count, Crowd
from triage.parsing.amounts import Interval, amount

_OUT_OF = r"(?:out\s+)?(?:of|in)\s+(?:the\s+|all\s+)?(?P<all>\d{1,3})"
_MANY = re.compile(rf"\b(?:(?P<none>none|no)|(?:all\s+)?(?P<many>\d{{1,3}}))\b(?:\s+{_OUT_OF}\b)?", re.IGNORECASE)
_PART = re.compile(
    r"\b(?:(?P<both>both)|(?P<every>all|every)|(?P<part>[1-9]/[1-9]\d?)\s+(?:of\s+)?(?:the|them|its|all))\b",
    re.IGNORECASE,
)
_NOT_SO = re.compile(r"\b(?:not|but|except|several|some|few|others)\b|n't\b", re.IGNORECASE)
_TURNS = r"\d{1,2}\s+\d/[1-9]|\d{1,2}/[1-9]|\d{1,2}(?:\.\d{1,2})?"
_FOR_EVER = r"for ever|forever|free|round"
_TURN = re.compile(
    rf"(?<![\d/.])(?P<turn>{_TURNS})\s+(?:of\s+(?:a|1)\s+)?turns?\b(?!\s+(?:{_FOR_EVER}))", re.IGNORECASE
)
_AREA = re.compile(
    r"(?:in|on|over|per|to|for)\s+(?:the\s+|a\s+|each\s+)?(?P<area>\d+/[1-9]\d*|\d+(?:\.\d+)?)?\s*(?:of\s+)?(?:an?\s+)?"
    r"(?:square\s+met(?:re|er)s?|sq\.?\s*m|m²|m2)(?!\w)",
    re.IGNORECASE,
)
_ABOUT = "about|around|some|roughly"
_BIGGEST_ONE = "biggest|largest|widest"
_SO_MANY = re.compile(  # "about 25, the biggest 6 mm"
    rf"(?P<about>{_ABOUT})?\s*\b(?P<many>\d{{1,5}})\b(?!\s*(?:mm|cm|m|in|inch|inches|\"|[./%-]))(?=[^\d]*\b(?:{_BIGGEST_ONE})\b)",
    re.IGNORECASE,
)
_BIGGEST = re.compile(
    rf"(?:the\s+)?(?:{_BIGGEST_ONE})(?:\s+(?:is|being|of|one))*\s+(?P<size>.+)$"
    r"|\b(?:up to|of)\s+(?P<upto>.+)$",
    re.IGNORECASE,
)


class CannotCount(ValueError):
    """A count that cannot be, or says too little: what is wrong with it, and what can be said."""

    def __init__(self, what: str, hint: str) -> None:
        super().__init__(what)
        self.what, self.hint = what, hint


@dataclass(frozen=True)
class Levels:
    """The levels that a count may mean, and the size that was told with it."""

    low: int
    high: int
    size: Interval | None = None


def counted(text: str, count: Count) -> Levels | None:
    """The levels of "2 of 6 spin" or "1/4 turn on 4 of 6 screws"; None when the text counts nothing.

    Raises CannotCount.
    """
    turn = _TURN.search(text)
    rest = f"{text[: turn.start()]} {text[turn.end() :]}" if turn else text
    found = _MANY.search(rest)
    fails = any(re.search(rf"\b{re.escape(word)}\b", rest, re.IGNORECASE) for word in count.words)
    part = _PART.search(rest)
    if part and (turn or fails) and (found is None or part["part"]) and not _NOT_SO.search(rest):
        return _of_part(part, count, turn)
    if found is None or not (turn or fails or found["all"]):
        return None
    many, of_all = (0 if found["none"] else int(found["many"])), int(found["all"]) if found["all"] else None
    if of_all is not None and many > of_all:
        raise CannotCount(f"{many} of {of_all} are more than there are", f"Say it as: {count.say}.")
    if re.search(r"\d", rest[found.end() :]) or _NOT_SO.search(rest) or not (turn or fails):
        raise CannotCount("it is not said what they do", f"Say it as: {count.say}.")
    worst = _reached(many, count.limits)
    if of_all:
        worst = max(worst, _reached(100 * many / of_all, count.share) if many else 0)
    bites = _bites(count)
    if many == 0:
        return Levels(0, 0 if turn else bites)
    if fails or turn is None:
        return Levels(worst, worst)
    return _turned(turn, count, bites, worst)


def _of_part(part: re.Match[str], count: Count, turn: re.Match[str] | None) -> Levels:
    """Of all, both, or "half the screws": a part of all, however many these are."""
    share = float(100 * Fraction(part["part"])) if part["part"] else 100.0
    worst = max(_reached(share, count.share), _reached(2, count.limits) if part["both"] else 0)
    return Levels(worst, worst) if turn is None else _turned(turn, count, _bites(count), worst)


def _turned(turn: re.Match[str], count: Count, bites: int, worst: int) -> Levels:
    turns = sum(Fraction(part) for part in turn["turn"].split())
    if not turns:
        return Levels(0, 0)
    return Levels(bites, bites if turns <= Fraction(str(count.turn)) else max(bites, worst))


def _bites(count: Count) -> int:
    """The level of a fastening that turns and bites: the one before those at which it fails."""
    return next((level for level, limit in enumerate(count.limits) if limit is not None), 0)


def crowded(text: str, crowd: Crowd, unit: str) -> Levels | None:
    """The levels of so many to the square metre, and the size of the biggest; None when the text counts nothing.

    Without an area no square metre can hold more than all of them, and one may hold hardly any. Raises CannotCount,
    or NotAQuantity when the size is none.
    """
    words = "|".join(re.escape(word) for word in crowd.words)
    found = re.search(
        rf"(?P<about>{_ABOUT})?\s*\b(?P<many>\d{{1,5}})\s+(?:[a-z]+\s+)?(?:{words})\b", text, re.IGNORECASE
    )
    found = found or _SO_MANY.search(text)
    if found is None:
        return None
    rest = text[found.end() :]
    if area := _AREA.search(rest):
        rest = f"{rest[: area.start()]} {rest[area.end() :]}"
    square = float(Fraction(area["area"] or 1)) if area else 1.0
    if square <= 0:
        raise CannotCount("none fits on an area of nothing", f"Say it as: {crowd.say}.")
    size = _size(rest, crowd, unit)
    number = amount(f"{found['about'] or ''} {found['many']} %", "%")  # bounded as any quantity is
    low = _reached(number.low / square, crowd.limits, crowd.over) if area else 0
    return Levels(low, _reached(number.high / square, crowd.limits, crowd.over), size)


def _size(rest: str, crowd: Crowd, unit: str) -> Interval:
    sized = _BIGGEST.search(rest)
    said = (sized["size"] or sized["upto"]) if sized else rest
    if not re.search(r"\d", said):
        raise CannotCount("it is not said how large the biggest is", f"Say it as: {crowd.say}.")
    return amount(said.strip(" ,:"), unit)


def _reached(value: float, limits: tuple[float | None, ...], over: frozenset[float] = frozenset()) -> int:
    reached = (
        level
        for level, limit in enumerate(limits, start=1)
        if limit is not None and (value > limit if limit in over else value >= limit)
    )
    return max(reached, default=0)
