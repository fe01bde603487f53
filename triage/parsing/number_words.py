"""Numbers as people say them, turned into figures: "half a litre", "an inch and a half", "two of six"."""

from __future__ import annotations

import re

from triage.parsing.quantities import unit_names

_ONES = "one two three four five six seven eight nine ten eleven twelve thirteen fourteen fifteen sixteen seventeen"
_NUMBERS = {word: number for number, word in enumerate([*_ONES.split(), "eighteen", "nineteen"], start=1)}
_NUMBERS |= {word: 10 * tens for tens, word in enumerate(["twenty", "thirty", "forty", "fifty", "sixty"], start=2)}
_NUMBERS |= {"a dozen": 12, "dozen": 12, "a hundred": 100, "hundred": 100, "a couple of": 2, "a couple": 2}
_PARTS = {"three quarters": "3/4", "two thirds": "2/3", "a quarter": "1/4", "a third": "1/3", "a half": "1/2"}
_PARTS |= {"quarter": "1/4", "half": "1/2", "an eighth": "1/8", "a tenth": "1/10", "a fifth": "1/5"}

_UNIT = "|".join(sorted((re.escape(name) for name in [*unit_names(), "turn", "turns"]), key=len, reverse=True))
_A_PART = re.compile(rf"\b({'|'.join(_PARTS)})\b(?:\s+(?:of\s+)?an?(?=\s+(?:{_UNIT})\b))?", re.IGNORECASE)
_A_NUMBER = re.compile(rf"\b({'|'.join(sorted(_NUMBERS, key=len, reverse=True))})\b", re.IGNORECASE)
_ONE_OF_A_UNIT = re.compile(rf"\ban?(?:\s+(?:full|whole))?(?=\s+(?:{_UNIT})\b)", re.IGNORECASE)
_EACH = re.compile(rf"\b({_UNIT})\s*(?:/|\b(?:an?|per|each|every)\b)\s*(?=(?:{_UNIT})\b)", re.IGNORECASE)
_AND_A_PART = re.compile(r"(\d)\s+and\s+(\d/\d)")
_UNIT_AND_A_PART = re.compile(rf"(\d)\s+((?:{_UNIT})\s+)and\s+(\d/\d)\b(?!\s*(?:{_UNIT})\b)", re.IGNORECASE)


def in_figures(text: str) -> str:
    """The text with its number words as figures: "1/2 litre", "1 1/2 inch", "2 of 6"; "an hour" after a unit is
    "per 1 hour".
    """
    said = re.sub(r"\b(three)-(quarters)\b|\b(two)-(thirds)\b", lambda found: found[0].replace("-", " "), text)
    said = _A_PART.sub(lambda found: _PARTS[found[1].lower()], said)
    said = re.sub(r"\b(?:twice|double)\b", "2 times", said, flags=re.IGNORECASE)
    said = _EACH.sub(r"\1 per 1 ", said)
    said = _A_NUMBER.sub(lambda found: str(_NUMBERS[found[1].lower()]), said)
    said = _ONE_OF_A_UNIT.sub("1", said)
    said = _UNIT_AND_A_PART.sub(r"\1 \3 \2", said)
    return " ".join(_AND_A_PART.sub(r"\1 \2", said).split())
