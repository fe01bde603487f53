"""Money in a text as people write and say it: "£1,450 ono", "1.2k euros", "two grand", "$900 to $1,100"."""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import dataclass

from triage.parsing.number_words import in_figures

_SIGNS = {"A$": "AUD", "NZ$": "NZD", "C$": "CAD", "US$": "USD", "€": "EUR", "£": "GBP", "$": "USD"}
_CODES = ("EUR", "GBP", "USD", "AUD", "NZD", "CAD", "CHF", "SEK", "NOK", "DKK", "PLN", "CZK", "ZAR")
_NAMES = {"euro": "EUR", "pound": "GBP", "quid": "GBP", "dollar": "USD", "buck": "USD"}
_CALLED = {**_SIGNS, **{code: code for code in _CODES}, **_NAMES, **{f"{one}s": code for one, code in _NAMES.items()}}
"""By what a currency is called; a bare dollar is taken for that of the United States, and shown so."""

DOLLARS = ("USD", "AUD", "NZD", "CAD")
"""What a bare dollar may be."""

_UNCLEAR = ("$", "dollar", "dollars", "buck", "bucks")

_TIMES = {"k": 1000.0, "grand": 1000.0, "thousand": 1000.0, "hundred": 100.0}
_SAYS_MONEY = ("k", "grand")
"""Of these, what nobody says of anything but money where no unit follows."""


def _any(words: Iterable[str]) -> str:
    return "|".join(sorted(map(re.escape, words), key=len, reverse=True))


_FIGURE = r"\d{1,3}(?:[,.'’ ]\d{3})+(?!\d)(?:[.,]\d{2}(?!\d))?|\d{1,8}(?:[.,]\d{1,2})?(?!\d)"
_SPOKEN = r"a couple of|a|one|two|three|four|five|six|seven|eight|nine|ten|eleven|twelve|\w+teen|twenty"
_TO = r"\s*(?:-|–|to|and|or)\s*"
_ENDS = rf"(?:(?=\s?(?:{_any(_CALLED)})(?![a-z]))|(?![\w/]))"


def _end(name: str, else_after_a_word: str) -> str:
    """One end: a figure, or a word that is a number; each with what it is times, which a word needs."""
    times = rf"(?:{_any(_TIMES)})(?![a-z])"
    figure = rf"(?P<{name}>{_FIGURE})\s?(?P<{name}_times>{times})?"
    return rf"(?:{figure}|(?P<{name}_said>{_SPOKEN})(?:\s(?P<{name}_said_times>{times}){else_after_a_word})){_ENDS}"


_MONEY = re.compile(
    rf"(?:(?P<before>{_any([*_SIGNS, *_CODES])})\s?|(?<![\w.,/–-])){_end('low', '|(?=' + _TO + ')')}"
    rf"(?:{_TO}(?:(?:{_any(_SIGNS)})\s?)?{_end('high', '')})?"
    rf"(?:[^\S\n]?(?P<after>{_any(_CALLED)})(?![a-z\d]))?",
    re.IGNORECASE,
)


@dataclass(frozen=True)
class Money:
    """``text[start:end]``: from ``low`` to ``high``, alike where one figure is named. ``currency`` is empty where none
    is; ``plain``: a bare number, which only the words beside it can make money.
    """

    start: int
    end: int
    low: float
    high: float
    currency: str
    plain: bool


def currency_called(text: str) -> str:
    """The letters of a currency for what people write of it: a sign, a name, the letters themselves. A bare dollar
    stays as it is, because it may be of several countries; so does what is no currency.
    """
    said = text.strip()
    if said.casefold() in _UNCLEAR:
        return "$"
    return next((code for name, code in _CALLED.items() if name.casefold() == said.casefold()), said.upper())


def sign_in(text: str) -> str:
    """What stands for a currency in the words of one amount; empty where nothing does."""
    found = re.search(_any([*_SIGNS, *_CODES]), text, re.IGNORECASE)
    return currency_called(found[0]) if found else ""


def money_in(text: str) -> tuple[Money, ...]:
    """Every amount in a text, in its order, bare numbers too."""
    return tuple(map(_read, _MONEY.finditer(text)))


def _read(found: re.Match[str]) -> Money:
    said = (found["before"] or found["after"] or "").casefold()
    currency = next((code for name, code in _CALLED.items() if name.casefold() == said), "")
    low, low_times = _said(found, "low")
    high, high_times = _said(found, "high")
    if high and not low_times and low <= high:
        low_times = high_times
    ends = [low * _TIMES.get(low_times, 1.0)]
    ends += [high * _TIMES.get(high_times, 1.0)] if high else []
    plain = not currency and not {low_times, high_times} & set(_SAYS_MONEY)
    return Money(found.start(), found.end(), min(ends), max(ends), currency, plain)


def _said(found: re.Match[str], end: str) -> tuple[float, str]:
    """The number of an end, 0 where there is none, and what it is times."""
    times = found[f"{end}_times"] or found[f"{end}_said_times"] or ""
    figure = found[end] or in_figures(found[f"{end}_said"] or "")
    bare = re.sub(r"[,.'’ ](?=\d{3}(?!\d))", "", figure).replace(",", ".")
    is_figure = re.fullmatch(r"[\d.]+", bare)
    return (float(bare) if is_figure else float(bool(figure))), times.casefold()  # "a grand"
