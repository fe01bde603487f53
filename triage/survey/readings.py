"""From an answer as a person gives it to a reading: the levels that it may mean."""

from __future__ import annotations

import contextlib
import math
import re
from collections.abc import Iterator
from dataclasses import dataclass

from triage.knowledge.model import Measure, Scale
from triage.parsing.amounts import Interval, amount
from triage.parsing.number_words import in_figures
from triage.parsing.quantities import NotAQuantity, UnknownUnit, looks_measured, unit_names
from triage.parsing.text import did_you_mean, nearest, same
from triage.survey.counts import CannotCount, Levels, counted, crowded
from triage.survey.model import COULD_NOT_TELL, Reading
from triage.survey.pairs import CannotBe, are_two, pair_in

_NO_ANSWER = {COULD_NOT_TELL, "couldn't tell", "cannot tell", "can't tell", "not tried", "unknown", "don't know", "?"}
_BETWEEN = re.compile(r"\bto\b|[–—]")
_NUMBER = re.compile(r"[-−]?\d+([.,/]\d+)?")

LONGEST_SPAN = 120
"""Characters of an answer in which more than one quantity is looked for."""


class NotUnderstood(ValueError):
    """An answer that means no level: what is wrong with it, and what can be answered."""

    def __init__(self, what: str, hint: str) -> None:
        super().__init__(what)
        self.what, self.hint = what, hint


def none_given(said: str) -> bool:
    """Whether this says that nobody could tell."""
    return same(said) in {same(word) for word in _NO_ANSWER}


def reading_of(scale: Scale, answer: int | float | str) -> Reading:
    """One answer: a level's name or number, an observation, two of these with "to" between, a quantity as people bound
    it, two quantities or a count where the scale knows them, or that nobody could tell. Raises NotUnderstood.
    """
    said = str(answer).strip()
    if none_given(said):
        return Reading.attempted()
    if (one := _answer(scale, said)) is not None:
        return Reading.at(one.level, one.said)
    if (ends := _two_answers(scale, said)) is not None:
        low, high = sorted(end.level for end in ends)
        return Reading(low, high, said)
    text = in_figures(said) if len(said) <= LONGEST_SPAN else said
    if len(said) <= LONGEST_SPAN and (reading := _counted(scale, said, text)) is not None:
        return reading
    if looks_measured(said) or re.search(r"\d|[½¼¾]", text):
        return _measured(scale, said, text)
    words = [way for level in scale.levels for way in (level.name, *(one.say for one in level.observations))]
    hint = f"{did_you_mean(said, words)} {accepted(scale)}" if nearest(said, words) else accepted(scale)
    raise NotUnderstood(f'“{scale.name}” cannot be "{said}"', hint)


def quoted(scale: Scale, reading: Reading) -> str:
    """A reading in words that stand after "you found that": the observation that was said, the measurement, or the
    level, in no more words than were said. Empty for "could not tell".
    """
    if reading.low is None or reading.high is None:
        return ""
    one = _answer(scale, reading.said)
    ends = _two_answers(scale, reading.said) if one is None else (one,)
    if reading.measured is not None or (ends is None and scale.ways.count):
        return f"“{scale.name}” came out at {reading.said}"
    told = [end.words for end in ends] if ends else [scale.words(reading.low), scale.words(reading.high)]
    return ", or ".join(dict.fromkeys(told))


def accepted(scale: Scale) -> str:
    """Every answer that the scale understands, in words."""
    steps = "; ".join(level.name for level in scale.levels)  # by name: choices elsewhere are counted from 1
    measured = f", or a measurement in {scale.measure.unit}" if scale.measure else ""
    told = "".join(f", or as “{example}”" for example in scale.ways.examples)
    return f"Answer with {steps}{measured}{told}, or: {COULD_NOT_TELL}."


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


def _counted(scale: Scale, said: str, text: str) -> Reading | None:
    """The reading of a count; None where the scale knows none or nothing is counted."""
    ways, measure = scale.ways, scale.measure
    try:
        if ways.count and (levels := counted(text, ways.count)):
            return Reading(levels.low, levels.high, said)
        if ways.crowd and measure and (levels := crowded(text, ways.crowd, measure.unit)):
            return _crowd(measure, levels, said)
    except CannotCount as error:
        raise NotUnderstood(f"“{scale.name}”: {error.what}", error.hint) from None
    except NotAQuantity as error:
        raise NotUnderstood(f"“{scale.name}”: {error}", accepted(scale)) from None
    return None


def _crowd(measure: Measure, levels: Levels, said: str) -> Reading:
    """The worse of size and number; what is too small for the first level is not counted."""
    sized = _of_interval(measure, levels.size or Interval(0.0, 0.0), said)
    low, high = sized.low or 0, sized.high or 0
    return Reading(max(low, levels.low) if low else 0, max(high, levels.high) if high else 0, said, sized.measured)


def _measured(scale: Scale, said: str, text: str) -> Reading:
    """The reading of one quantity, or of two that make one."""
    measure, short = scale.measure, len(said) <= LONGEST_SPAN
    if measure is None:
        what = "is not measured in figures" if looks_measured(said) else f'cannot be "{said}"'
        raise NotUnderstood(f"“{scale.name}” {what}", accepted(scale))
    single = NotAQuantity("")
    for one in dict.fromkeys([text.replace(" per 1 ", "/"), said]):  # as it was said last, for what is told of it
        try:
            return _of_interval(measure, amount(one, measure.unit), said)
        except NotAQuantity as error:
            single = error
    try:
        made = pair_in(text, scale.ways.pairs, measure.unit) if short else None
    except CannotBe as error:
        raise NotUnderstood(f"“{scale.name}”: {error}", accepted(scale)) from None
    except NotAQuantity as error:
        made, single = None, error
    if made is not None:
        return _of_interval(measure, made, said)
    if short and are_two(text) and not scale.ways.pairs:
        what = f"“{scale.name}” is told by one quantity, not by two"
        raise NotUnderstood(what, accepted(scale))
    raise _not_measured(scale, measure, said, text, single)


def _not_measured(scale: Scale, measure: Measure, said: str, text: str, error: NotAQuantity) -> NotUnderstood:
    """Why this is no quantity of the scale."""
    if isinstance(error, UnknownUnit) and (looks_measured(said) or text == said):
        return NotUnderstood(str(error), did_you_mean(error.unit, unit_names()) or accepted(scale))
    with contextlib.suppress(NotAQuantity):
        amount(text, measure.unit, lent=measure.unit)
        return NotUnderstood(f"{said} of what?", accepted(scale))
    if text == said:
        return NotUnderstood(f"“{scale.name}”: {error}", accepted(scale))
    return NotUnderstood(f'“{scale.name}” cannot be "{said}"', accepted(scale))


def _of_interval(measure: Measure, interval: Interval, said: str) -> Reading:
    """All levels from one end to the other; what has no upper end goes as far as can be believed."""
    low, high = interval.low, interval.high
    if math.isinf(high) and measure.most is not None:
        high = max(low, measure.most)
    ends = [
        math.nextafter(low, math.inf) if interval.above and low < high else low,
        math.nextafter(high, -math.inf) if interval.below and low < high else high,
    ]
    levels = sorted(measure.level(end) for end in ends)
    return Reading(levels[0], levels[-1], said, (low, high))
