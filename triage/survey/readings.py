"""From an answer as a person gives it to a reading: the levels that it may mean."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass

from triage.knowledge.model import Scale
from triage.parsing.quantities import NotAQuantity, UnknownUnit, in_unit, looks_measured, unit_names
from triage.parsing.text import did_you_mean, nearest, same
from triage.survey.model import COULD_NOT_TELL, Reading

_NO_ANSWER = {COULD_NOT_TELL, "couldn't tell", "cannot tell", "can't tell", "not tried", "unknown", "don't know", "?"}
_BETWEEN = re.compile(r"\bto\b|[–—]")
_NUMBER = re.compile(r"[-−]?\d+([.,/]\d+)?")

LONGEST_SPAN = 120
"""Characters of an answer in which two ends are looked for."""


class NotUnderstood(ValueError):
    """An answer that means no level: what is wrong with it, and what can be answered."""

    def __init__(self, what: str, hint: str) -> None:
        super().__init__(what)
        self.what, self.hint = what, hint


def none_given(said: str) -> bool:
    """Whether this says that nobody could tell."""
    return same(said) in {same(word) for word in _NO_ANSWER}


def reading_of(scale: Scale, answer: int | float | str) -> Reading:
    """One answer: a level's name or number, an observation, a quantity with its unit, two of these with "to" between
    them, or that nobody could tell. Raises NotUnderstood.
    """
    said = str(answer).strip()
    if none_given(said):
        return Reading.attempted()
    if (one := _answer(scale, said)) is not None:
        return Reading.at(one.level, one.said)
    if (ends := _two_answers(scale, said)) is not None:
        low, high = sorted(end.level for end in ends)
        return Reading(low, high, said)
    for first, last in _halves(said):
        if looks_measured(first) and looks_measured(last) and scale.measure is not None:
            return _measured(scale, said, _same_unit(first, last), last)
    if looks_measured(said):
        return _measured(scale, said, said)
    words = [way for level in scale.levels for way in (level.name, *(one.say for one in level.observations))]
    hint = f"{did_you_mean(said, words)} {accepted(scale)}" if nearest(said, words) else accepted(scale)
    raise NotUnderstood(f'“{scale.name}” cannot be "{said}"', hint)


def quoted(scale: Scale, reading: Reading) -> str:
    """A reading in words that stand after "you found that": the observation that was said, the measurement, or the
    level, in no more words than were said. Empty for "could not tell".
    """
    if reading.low is None or reading.high is None:
        return ""
    if reading.measured is not None:
        return f"“{scale.name}” came out at {reading.said}"
    one = _answer(scale, reading.said)
    ends = _two_answers(scale, reading.said) if one is None else (one,)
    told = [end.words for end in ends] if ends else [scale.words(reading.low), scale.words(reading.high)]
    return ", or ".join(dict.fromkeys(told))


def accepted(scale: Scale) -> str:
    """Every answer that the scale understands, in words."""
    steps = "; ".join(level.name for level in scale.levels)  # by name: choices elsewhere are counted from 1
    measured = f", or a measurement in {scale.measure.unit}" if scale.measure else ""
    return f"Answer with {steps}{measured}, or: {COULD_NOT_TELL}."


def without_unit(answer: str) -> bool:
    """Whether the answer, or one of its two ends, is a number and nothing else."""
    return any(_NUMBER.fullmatch(end.strip()) for end in _BETWEEN.split(answer))


@dataclass(frozen=True)
class _Answer:
    """One level, as it is written down and in the words that may be told of it."""

    level: int
    said: str
    words: str


def _answer(scale: Scale, said: str) -> _Answer | None:
    """What was said as a level's name, as an observation in any of its words, or as a level's number."""
    for number, level in enumerate(scale.levels):
        if same(level.name) == same(said):
            return _Answer(number, said, scale.words(number))
    for number, level in enumerate(scale.levels):
        for one in level.observations:
            if _alike(said) in map(_alike, (one.say, *one.heard)):
                return _Answer(number, one.say, one.say)
    if re.fullmatch(r"\d{1,2}", said) and int(said) <= scale.top:
        return _Answer(int(said), said, scale.words(int(said)))
    return None


def _alike(said: str) -> str:
    return same(said).rstrip(".!")


def _two_answers(scale: Scale, said: str) -> tuple[_Answer, _Answer] | None:
    for first, last in _halves(said):
        low, high = _answer(scale, first), _answer(scale, last)
        if low is not None and high is not None:
            return low, high
    return None


def _halves(said: str) -> Iterator[tuple[str, str]]:
    """Every way of taking what was said as two ends."""
    for between in _BETWEEN.finditer(said[:LONGEST_SPAN]):
        yield said[: between.start()].strip(), said[between.end() :].strip()


def _same_unit(first: str, last: str) -> str:
    """The first of two quantities, with the unit of the last where it has none of its own ("20 to 30 mm")."""
    bare = re.fullmatch(r"[-−]?[\d.,/½¼¾ ]+", first.strip())
    unit = re.search(r"[^\d.,/½¼¾\s−-].*$", last)
    return f"{first} {unit[0]}" if bare and unit else first


def _measured(scale: Scale, said: str, *quantities: str) -> Reading:
    if scale.measure is None:
        raise NotUnderstood(f"“{scale.name}” is not measured in figures", accepted(scale))
    try:
        values = sorted(in_unit(quantity, scale.measure.unit) for quantity in quantities)
    except UnknownUnit as error:
        hint = did_you_mean(error.unit, unit_names()) or accepted(scale)
        raise NotUnderstood(str(error), hint) from None
    except NotAQuantity as error:
        bare = re.fullmatch(r"[-−]?[\d.,]+", said)
        what = f"{said} of what?" if bare else f"“{scale.name}”: {error}"
        raise NotUnderstood(what, accepted(scale)) from None
    levels = sorted(scale.measure.level(value) for value in values)
    return Reading(levels[0], levels[-1], said, (values[0], values[-1]))
