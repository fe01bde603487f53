"""Figures in a text as people say them: "6 to 8 inches", "half a gallon", "as long as my thumb", "about 2 mil".

Every figure comes out in millimetres, litres, degrees, kilograms or percent, with the words that it was. Which of them
is the size of what is not decided here (see `measuring`); a figure that can be none is left out.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass

from triage.knowledge.model import KnowledgeBase
from triage.knowledge.model.speech import Sizing
from triage.knowledge.per_knowledge import per_knowledge
from triage.listening.numbers import UNITS, WORDS, value_of
from triage.parsing.quantities import NotAQuantity, in_unit

_FIGURE = r"\d{1,5}(?:\.\d{1,3})?(?:[ -]\d{1,2}/\d{1,2})?|\d{1,2}/\d{1,2}|[½¼¾]"
_SPOKEN = "|".join(sorted(map(re.escape, WORDS), key=len, reverse=True))
_HALF = r"(?:\s+and\s+a\s+(?:half|quarter))?"
_NUMBER = rf"(?:(?:{_FIGURE})\s?[½¼¾]?|(?:{_SPOKEN})\b){_HALF}"
_TO = r"\s*(?P<by>by|x|×)?(?(by)|(?:-|–|to|or|and))\s*"
_RATE = (
    r"(?P<rate>\s+(?:an?|per|every|each)\s+(?:hour|hr|day|week|sail)\b"
    r"|\s+(?:in|after)\s+(?P<hours>\d{1,2}|an?|one|two|three|four)\s+(?:hours?|hrs?)\b)?"
)
_ASIDE = 5
"""Words before and after a figure that may say that it is no size."""


@dataclass(frozen=True)
class Figure:
    """A figure: where it stands, from what to what in ``unit``, and whether it is an estimate of ours."""

    start: int
    end: int
    low: float
    high: float
    unit: str
    estimated: bool = False
    hint: str = ""


def figures_in(text: str, kb: KnowledgeBase, country: str = "") -> tuple[Figure, ...]:
    """The figures that may be sizes, in their order. ``country`` ("uk", "us", "au") tells whose gallon is meant."""
    sizing = kb.lexicon.speech.sizing
    country = country or country_of(text, sizing)
    found: list[Figure] = []
    for figure in (*_measured(text, kb, country), *_things(text, kb, country), *_full(text, kb)):
        apart = all(figure.end <= other.start or figure.start >= other.end for other in found)
        if apart and (figure.estimated or not _is_no_size(text, figure, kb)):
            found.append(figure)
    return tuple(sorted(found, key=lambda one: one.start))


def country_of(text: str, sizing: Sizing) -> str:
    """The country whose words the text uses; Britain where nothing tells."""
    words = re.findall(r"[a-z]+", text.casefold())
    votes = {name: sum(word in said for word in words) for name, said in sizing.countries.items()}
    best = max(votes, key=lambda name: votes[name], default="uk")
    return best if votes.get(best, 0) > votes.get("uk", 0) else "uk"


def _measured(text: str, kb: KnowledgeBase, country: str) -> Iterator[Figure]:
    units = _units(kb, country)
    for found in _pattern(kb, country).finditer(text):
        unit, factor = units[_one(found["unit"], units)]
        if found["unit"].casefold() == "in" and not found["number"][-1].isdigit():
            continue  # "the one in the hull"
        other = found["other"]
        values = [value_of(found["number"])] + ([value_of(other)] if other else [])
        if found["half"]:
            values = [value + 0.5 for value in values]
        low, high = min(values) * factor, max(values) * factor
        if found["by"]:  # "8 by 10 inches" reaches ten
            low = high
        if found["rate"] and unit == "L":
            hours = _hours(found)
            yield (
                Figure(found.start(), found.end(), low / hours, high / hours, "L/h")
                if hours
                else Figure(found.start(), found.start("rate"), low, high, unit)
            )
        else:
            end = found.start("rate") if found["rate"] else found.end()
            yield Figure(found.start(), end, _round(low), _round(high), unit)


def _hours(found: re.Match[str]) -> float:
    said = found["hours"]
    if said:
        return value_of(said)
    return {"hour": 1.0, "hr": 1.0, "day": 24.0, "week": 168.0}.get(found["rate"].split()[-1], 0.0)


def _round(value: float) -> float:
    return round(value, 4)


@per_knowledge
def _units(kb: KnowledgeBase, country: str) -> Mapping[str, tuple[str, float]]:
    sizing = kb.lexicon.speech.sizing
    found = dict(UNITS)
    wet = {"gallon": sizing.gallons, "gal": sizing.gallons, "pint": sizing.pints, "quart": sizing.quarts}
    for name, sizes in wet.items():
        if country in sizes:
            found[name] = ("L", in_unit(sizes[country], "L"))
    found |= {vessel: ("L", in_unit(size, "L")) for vessel, size in sizing.vessels.items()}
    return found


def _one(unit: str, units: Mapping[str, object]) -> str:
    plain = " ".join(unit.casefold().split())
    return plain if plain in units else plain.removesuffix("s")


@per_knowledge
def _pattern(kb: KnowledgeBase, country: str) -> re.Pattern[str]:
    names = sorted((re.escape(name) for name in _units(kb, country)), key=len, reverse=True)
    unit = rf"(?P<unit>(?:{'|'.join(names)})s?)(?![a-z])"
    between = rf"(?:\s*(?:{'|'.join(names)})s?(?![a-z]))?"
    return re.compile(
        rf"(?<![\w./])(?:(?P<other>{_NUMBER}){between}{_TO})?(?<![\d.])(?P<number>{_NUMBER})[\s-]*{unit}"
        rf"(?P<half>\s+and\s+a\s+half)?{_RATE}",
        re.IGNORECASE,
    )


_LIKE = (
    r"(?:(?P<how>size|width|length|diameter|breadth|depth|thickness)\s+of|"
    r"(?:biggest|largest|widest|smallest|size)(?:\s+(?:one|ones|of\s+them|is|being))*\s+like|"
    r"(?P<as>as|bigger than|smaller than|wider than|longer than)"
    r"(?:\s+(?P<which>long|wide|big|deep|large|thick|broad)\s+as)?|"
    r"(?P<lead>long|wide|big|deep|large|thick)\s+as|than)"
)


def _things(text: str, kb: KnowledgeBase, country: str) -> Iterator[Figure]:
    """Sizes by things: "size of a 50p", "penny sized", "two fingers wide", "you can get a credit card in"."""
    sizing = kb.lexicon.speech.sizing
    for found in _thing_pattern(kb, country).finditer(text):
        groups = found.groupdict()
        thing = next(filter(None, (groups[name] for name in ("thing", "sized", "length", "let_in"))))
        thing = " ".join(thing.casefold().replace("-", " ").split())
        manner = " ".join(groups[name] or "" for name in ("which", "lead", "dim", "how")).split()
        hint = next((kind for word, kind in _MANNERS.items() if word in manner), "patch")
        hint = "gap" if groups["let_in"] else hint
        size = _size_of(sizing, thing, country, hint)
        if size is None or (groups["let_in"] and _DENIED.search(found[0])):
            continue
        value = size * (value_of(groups["many"]) if groups["many"] in _COUNTS else 1.0)
        yield Figure(found.start(), found.end(), value, value, "mm", estimated=True, hint=hint)


def _size_of(sizing: Sizing, thing: str, country: str, hint: str) -> float | None:
    """How long, wide, thick or big a thing is in mm; a coin of another country where ours has none so called."""
    sizes: dict[str, str] = {}
    for coins in (*sizing.coins.values(), sizing.coins.get(country, {})):
        sizes |= coins
    sizes |= sizing.things
    if hint == "length":
        sizes |= sizing.long_things
    if hint == "width":
        sizes |= sizing.wide_things
    if hint == "depth":
        sizes |= sizing.thin_things
    if hint == "gap":
        sizes = dict(sizing.thin_things)
    size = sizes.get(thing) or sizes.get(thing.rstrip("s"))
    try:
        return in_unit(size, "mm") if size else None
    except NotAQuantity:
        return None


def _full(text: str, kb: KnowledgeBase) -> Iterator[Figure]:
    """A vessel without a number: "eggcup of water", "a cup or two of water"."""
    vessels = kb.lexicon.speech.sizing.vessels
    named = "|".join(sorted((re.escape(one.removesuffix(" of")) for one in vessels), key=len, reverse=True))
    for found in re.finditer(rf"\b(?P<vessel>{named})(?P<two>\s+or\s+two)?\s+of\s+water\b", text, re.IGNORECASE):
        name = found["vessel"].casefold()
        value = in_unit(vessels.get(name, vessels.get(f"{name} of", "1 L")), "L")
        yield Figure(found.start(), found.end(), value, value * (2 if found["two"] else 1), "L", estimated=True)


_MANNERS = {"long": "length", "length": "length", "deep": "depth", "thick": "depth", "wide": "width", "width": "width"}
_MANNERS |= {"depth": "depth", "thickness": "depth", "broad": "width", "breadth": "width", "high": "length"}
_COUNTS = ("two", "three", "four", "half a")
_DENIED = re.compile(r"n['’]?t\b|\b(?:cannot|not|no|hardly|barely|never)\b", re.IGNORECASE)
"""In "a gap that a card does not go in": it is not that wide."""


@per_knowledge
def _thing_pattern(kb: KnowledgeBase, country: str) -> re.Pattern[str]:
    del country
    sizing = kb.lexicon.speech.sizing
    coins = (coin for coins in sizing.coins.values() for coin in coins)
    things = {*sizing.things, *sizing.long_things, *sizing.wide_things, *coins}
    named, thin = _any_of(things), _any_of({*sizing.thin_things} - {"coin"})
    owner = r"(?:\s+(?:a|an|my|your|the|one|two|half\s+a|his|her))?"
    coin = r"(?:[\s-]+(?:piece|coin)s?)?"
    many = r"(?P<many>a|an|my|your|one|two|three|four|half\s+a|about\s+a)"
    return re.compile(
        rf"\b(?:{_LIKE}{owner}\s+(?P<thing>{named})s?\b{coin}"
        rf"|(?P<sized>{named})s?{coin}[\s-]+(?:sized?|size)\b"
        rf"|{many}\s+(?P<length>{named})(?:s|'s|s')?\s+(?:in\s+)?(?P<dim>long|wide|across|deep|thick|width|length|breadth)\b"
        rf"|gap\b[^.;!?]{{0,60}}?(?:get|fit|slide|slip|put|push|poke|slid|fitted)\s+(?:a|an|my|your|the)\s+(?P<let_in>{thin})\s+(?:right\s+)?{_INTO}"
        rf")",
        re.IGNORECASE,
    )


_INTO = r"(?:in|into|under|between|through|inside)\b"


def _any_of(names: Iterable[str]) -> str:
    """A pattern of any of the names, the longest first; parts may be joined by a hyphen: "two-pound coin"."""
    return "|".join(re.escape(name).replace(r"\ ", r"[\s-]+") for name in sorted(names, key=len, reverse=True))


def _is_no_size(text: str, figure: Figure, kb: KnowledgeBase) -> bool:
    sizing = kb.lexicon.speech.sizing
    before = _nearby(text[max(0, figure.start - 40) : figure.start], last=True)
    after = _nearby(text[figure.end : figure.end + 40], last=False)
    if re.search(r"[£$€]\s*$", text[: figure.start]):
        return True
    ahead = f" {' '.join(before[-3:])} "
    behind = f"{' '.join(after[:3])} "
    if any(ahead.endswith(f" {one} ") for one in sizing.before_no_size):
        return True
    wet = figure.unit in ("L", "L/h")  # so much is from somewhere, and no distance
    return not wet and any(behind.startswith(f"{one} ") for one in sizing.after_no_size)


def _nearby(text: str, *, last: bool) -> list[str]:
    """The words on this side of the figure, up to a stop."""
    parts = re.split(r"[.,;:!?()]", text)
    words = re.findall(r"[a-z]+", (parts[-1] if last else parts[0]).casefold())
    return words[-_ASIDE:] if last else words[:_ASIDE]
