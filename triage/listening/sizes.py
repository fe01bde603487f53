"""Sizes as people say them in a sentence: "about an inch", "two litres an hour", "as long as my hand"."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace

from triage.parsing.amounts import bound_of, widened
from triage.parsing.quantities import NotAQuantity, in_unit, unit_names

_DIGITS = ["one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve"]
_NUMBERS = {word: str(number) for number, word in enumerate(_DIGITS, start=1)}
_NUMBERS |= {"a": "1", "an": "1", "a couple of": "2", "fifteen": "15", "twenty": "20", "thirty": "30", "fifty": "50"}
_NUMBERS |= {"half a": "1/2", "half an": "1/2", "a quarter of a": "1/4", "a quarter of an": "1/4", "a hundred": "100"}
_SPOKEN = "|".join(sorted(map(re.escape, _NUMBERS), key=len, reverse=True))
_LONG_UNITS = "|".join(sorted((name for name in unit_names() if len(name) > 3), key=len, reverse=True))
_ANY_UNIT = "|".join(sorted(map(re.escape, [*unit_names(), '"', "″", "′"]), key=len, reverse=True))
# Spaces are taken whole (*+, ++): giving them back one by one takes minutes over a long row of them.
_FIGURE = r"\d{1,5}\s++\d/\d|\d{1,3}/\d{1,2}|\d{1,5}(?:[.,]\d{1,3})?(?:\s*+[½¼¾])?|[½¼¾]"
_RATE = r"(?P<rate>\s*+(?:an|per|a|/|every|each)\s*+(?:hour|hr|h)\b)?"
_MEASURED = re.compile(rf"(?<![\w.])(?P<number>{_FIGURE})[\s-]*+(?P<unit>{_ANY_UNIT})(?!\w){_RATE}", re.IGNORECASE)
_IN_WORDS = re.compile(
    rf"\b(?P<number>{_SPOKEN})[\s-]++(?P<unit>{_LONG_UNITS})\b(?P<half>\s++and\s++a\s++half\b)?{_RATE}",
    re.IGNORECASE,
)
_ONE = r"(?:a|an|one|my|your|the)"
_BEFORE = r"(?:about|around|roughly|nearly|almost|maybe|as (?:long|wide|big|deep) as|size of|length of)"
_AFTER = r"(?:long|wide|across|deep|big|high|in length|of water|full)"

_TELLS_WHICH = re.compile(r"\b(?:wide|width)$")


@dataclass(frozen=True)
class Size:
    """A size in a sentence: the words, the quantity they stand for, whether that is an estimate of ours, and the words
    that bound it ("about", "less than").
    """

    said: str
    quantity: str
    estimated: bool
    bound: str = ""


def sizes_in(text: str, taken_as: Mapping[str, str]) -> tuple[list[Size], str]:
    """The sizes in a sentence, and the sentence without them.

    ``taken_as`` turns things people measure by ("hand") into quantities; they count only where a size is meant.
    """
    found: list[tuple[int, Size]] = []
    rest = text
    for match, size in _matches(text, taken_as):
        if rest[match.start() : match.end()].strip():
            start, end = widened(text, match.start(), match.end())
            bound = bound_of(text, match.start(), match.end())
            found.append((start, replace(size, said=" ".join(text[start:end].split()), bound=bound)))
            rest = rest[:start] + " " * (end - start) + rest[end:]
    return [size for _, size in sorted(found, key=lambda pair: pair[0])], rest


def _matches(text: str, taken_as: Mapping[str, str]) -> Iterator[tuple[re.Match[str], Size]]:
    for match in _MEASURED.finditer(text):
        yield from _if_sound(match, f"{match['number'].strip()} {match['unit']}{_per_hour(match)}")
    for match in _IN_WORDS.finditer(text):
        number = _NUMBERS[" ".join(match["number"].lower().split())]
        if match["half"]:
            number = f"{number} 1/2"
        yield from _if_sound(match, f"{number} {match['unit']}{_per_hour(match)}")
    for name, quantity in sorted(taken_as.items(), key=lambda item: -len(item[0])):
        thing = rf"{_ONE}\s+{re.escape(name)}s?\b"
        meant = rf"\b(?:{_BEFORE}\s+{thing}(?:\s+{_AFTER}\b)?|{thing}\s+{_AFTER}\b)"
        if _TELLS_WHICH.search(name):  # "a finger wide" is no finger long
            meant = rf"\b{thing}"
        for match in re.finditer(meant, text, re.IGNORECASE):
            yield match, Size(match[0].strip(), quantity, True)


def _per_hour(match: re.Match[str]) -> str:
    return "/hour" if match["rate"] else ""


def _if_sound(match: re.Match[str], quantity: str) -> Iterator[tuple[re.Match[str], Size]]:
    if any(_fits(quantity, unit) for unit in ("mm", "L", "L/h", "deg", "%", "kg")):
        yield match, Size(match[0].strip(), quantity, False)


def _fits(quantity: str, unit: str) -> bool:
    try:
        in_unit(quantity, unit)
    except NotAQuantity:
        return False
    return True
