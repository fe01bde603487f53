"""From an answer as a person gives it to a reading: the levels that it may mean."""

from __future__ import annotations

import re

from triage.knowledge.model import Scale
from triage.parsing.quantities import NotAQuantity, UnknownUnit, in_unit, looks_measured, unit_names
from triage.parsing.text import did_you_mean, same
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
    """One answer: a level's name or number, a quantity with its unit, two of these with "to" between them, or that
    nobody could tell. Raises NotUnderstood.
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
        if looks_measured(first) and looks_measured(last) and scale.measure is not None:
            return _measured(scale, said, _same_unit(first, last), last)
    if looks_measured(said):
        return _measured(scale, said, said)
    raise NotUnderstood(f'“{scale.name}” cannot be "{said}"', accepted(scale))


def accepted(scale: Scale) -> str:
    """Every answer that the scale understands, in words."""
    steps = "; ".join(level.name for level in scale.levels)  # by name: choices elsewhere are counted from 1
    measured = f", or a measurement in {scale.measure.unit}" if scale.measure else ""
    return f"Answer with {steps}{measured}, or: {COULD_NOT_TELL}."


def without_unit(answer: str) -> bool:
    """Whether the answer, or one of its two ends, is a number and nothing else."""
    return any(_NUMBER.fullmatch(end.strip()) for end in _BETWEEN.split(answer))


def _level(scale: Scale, said: str) -> int | None:
    names = {same(level.name): number for number, level in enumerate(scale.levels)}
    if same(said) in names:
        return names[same(said)]
    return int(said) if re.fullmatch(r"\d{1,2}", said) and int(said) <= scale.top else None


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
