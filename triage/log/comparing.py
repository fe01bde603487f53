"""A mark's lengths from visit to visit, and what they come to: proposed as an answer, never given."""

from __future__ import annotations

import datetime
from collections.abc import Sequence
from dataclasses import dataclass
from math import isinf

from triage.knowledge.model import KnowledgeBase
from triage.log.again import GROWTH, STILL, Thread
from triage.mechanics.growth import SEASON, Growth, Measured, growth, look_again_in
from triage.survey.model import Finding

A_SEASON = 180
"""Days after which a line that has not grown is called still for a season."""

LAST_DAY = datetime.date.max.toordinal()


@dataclass(frozen=True)
class Compared:
    """The lengths of a mark in the unit of its scale, by day, and what they come to.

    ``proposed``: an answer to the scale of growth, empty where measuring is too coarse or too little time has gone by.
    ``again``: the day from which another look tells something. ``reaches``: the next length that matters and between
    which days it comes to that at this pace, the last one None for perhaps never; None where it does not grow.
    """

    lengths: tuple[tuple[datetime.date, float, float], ...]
    unit: str
    growth: Growth
    proposed: str
    again: datetime.date
    reaches: tuple[float, datetime.date, datetime.date | None] | None = None

    @property
    def season(self) -> tuple[float, float]:
        """The least and the most that it grows in a season."""
        return self.growth.in_days(SEASON)


def compared(kb: KnowledgeBase, thread: Thread) -> Compared | None:
    """What the measured lengths of a mark come to; None where there are no two of different days."""
    sum_, scale = kb.sums.get(GROWTH), kb.scales.get(GROWTH)
    asked = next((ask for ask in sum_.asks.values() if ask.scale), None) if sum_ else None
    matters = (scale.measure.limits[-1] or 0.0) if scale and scale.measure else 0.0
    if asked is None or scale is None or matters <= 0:
        return None
    found = [(seen.day, _length(seen.finding, asked.scale, asked.error)) for seen in thread.seen]
    lengths = [(day, *length) for day, length in found if day is not None and length is not None]
    if len({day for day, *_ in lengths}) < 2:
        return None
    line = growth([Measured(day.toordinal(), length, error) for day, length, error in lengths])
    days = line.day - min(day.toordinal() for day, *_ in lengths)
    return Compared(
        lengths=tuple(lengths),
        unit=asked.unit,
        growth=line,
        proposed=_proposed(line, days, matters, [level.name for level in scale.levels], asked.unit),
        again=_day(line.day + look_again_in(line.length_error, asked.error, matters)),
        reaches=_reaches(kb, asked.scale, line),
    )


def _length(finding: Finding, scale: str, usual: float) -> tuple[float, float] | None:
    """A length and how far it may be off; None where it was not measured, or its end was left open."""
    reading = finding.readings.get(scale)
    if reading is None or reading.measured is None or isinf(reading.measured[1]):
        return None
    low, high = reading.measured
    return (low + high) / 2, max(usual, (high - low) / 2)


def _proposed(line: Growth, days: float, matters: float, levels: Sequence[str], unit: str) -> str:
    """What may be answered. Still is only what was measured so well that a growth that matters would have shown."""
    low, high = line.in_days(SEASON)
    if line.shows:
        return f"{_round(low)} to {_round(high)} {unit}"
    if high >= matters or days < A_SEASON:
        return ""
    return levels[STILL]


def _round(value: float) -> str:
    return f"{float(f'{value:.2g}'):.10g}"


def _reaches(kb: KnowledgeBase, scale: str, line: Growth) -> tuple[float, datetime.date, datetime.date | None] | None:
    measure = kb.scales[scale].measure
    limits = [limit for limit in measure.limits if limit is not None and limit > line.length] if measure else []
    if not (line.shows and limits):
        return None
    first, last = line.reaches(limits[0])
    return limits[0], _day(first), None if last > LAST_DAY else _day(last)


def _day(number: float) -> datetime.date:
    return datetime.date.fromordinal(int(min(number, LAST_DAY)))
