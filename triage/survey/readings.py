"""From an answer as a person gives it to a reading: the levels that it may mean."""

from __future__ import annotations

import contextlib
import math
import re

from triage.knowledge.model import Measure, Scale
from triage.parsing.amounts import Interval, amount
from triage.parsing.number_words import in_figures
from triage.parsing.quantities import NotAQuantity, UnknownUnit, looks_measured, unit_names
from triage.parsing.text import did_you_mean, same
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
    """One answer: a level's name or number, two of these with "to" between, a quantity as people bound it, two
    quantities or a count where the scale knows them, or that nobody could tell. Raises NotUnderstood.
    """
    said = str(answer).strip()
    if none_given(said):
        return Reading.attempted()
    if (level := _level(scale, said)) is not None:
        return Reading.at(level, said)
    for between in _BETWEEN.finditer(said[:LONGEST_SPAN]):
        first, last = said[: between.start()].strip(), said[between.end() :].strip()
        if (low := _level(scale, first)) is not None and (high := _level(scale, last)) is not None:
            return Reading(min(low, high), max(low, high), said)
    text = in_figures(said) if len(said) <= LONGEST_SPAN else said
    if len(said) <= LONGEST_SPAN and (reading := _counted(scale, said, text)) is not None:
        return reading
    if looks_measured(said) or re.search(r"\d|[½¼¾]", text):
        return _measured(scale, said, text)
    raise NotUnderstood(f'“{scale.name}” cannot be "{said}"', accepted(scale))


def accepted(scale: Scale) -> str:
    """Every answer that the scale understands, in words."""
    steps = "; ".join(level.name for level in scale.levels)  # by name: choices elsewhere are counted from 1
    measured = f", or a measurement in {scale.measure.unit}" if scale.measure else ""
    told = "".join(f", or as “{example}”" for example in scale.ways.examples)
    return f"Answer with {steps}{measured}{told}, or: {COULD_NOT_TELL}."


def without_unit(answer: str) -> bool:
    """Whether the answer, or one of its two ends, is a number and nothing else."""
    return any(_NUMBER.fullmatch(end.strip()) for end in _BETWEEN.split(answer))


def _level(scale: Scale, said: str) -> int | None:
    names = {same(level.name): number for number, level in enumerate(scale.levels)}
    if same(said) in names:
        return names[same(said)]
    return int(said) if re.fullmatch(r"\d{1,2}", said) and int(said) <= scale.top else None


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
