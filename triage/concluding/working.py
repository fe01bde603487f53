"""How measured answers of a finding were judged: where they lie on their scales, and which sums they suffice for."""

from __future__ import annotations

from collections.abc import Iterator
from math import isfinite

from triage.conclusions.working import Number, SumDone, Working
from triage.knowledge.model import KnowledgeBase, Measure, Scale
from triage.knowledge.model.sums import Asked, Sum
from triage.mechanics.interval import Interval
from triage.mechanics.units import IN_SI
from triage.mechanics.worked import Worked, reckoned
from triage.survey.model import Finding


def workings(kb: KnowledgeBase, finding: Finding) -> tuple[Working, ...]:
    """One for each measured answer, in the order of the scales."""
    return tuple(
        _working(kb, finding, scale, scale.measure)
        for id_, scale in kb.scales.items()
        if id_ in finding.readings and finding.readings[id_].measured is not None and scale.measure is not None
    )


def _working(kb: KnowledgeBase, finding: Finding, scale: Scale, measure: Measure) -> Working:
    reading = finding.readings[scale.id]
    low, high = reading.measured or (0.0, 0.0)
    judged = reading.high or 0
    least, most = _limits(measure, judged)
    sums = [(one, _asks(one, scale)) for one in kb.sums.values() if scale.id in one.scales]
    perhaps = max((_perhaps(measure, asked, low, high) for _, asked in sums), default=0)
    return Working(
        scale=scale.id,
        name=scale.name,
        unit=measure.unit,
        low=_finite(low),
        high=None if high == measure.most else _finite(high),
        level=scale.levels[judged].name,
        least=least,
        most=most,
        perhaps=scale.levels[perhaps].name if perhaps > judged else "",
        sums=tuple(told for one, _ in sums if _stands_by(one, scale) for told in _done(kb, one, finding)),
    )


def _asks(one: Sum, scale: Scale) -> Asked:
    return next(asked for asked in one.asks.values() if asked.scale == scale.id)


def _stands_by(one: Sum, scale: Scale) -> bool:
    """A sum of several answers is told once, beside the first that it asks for."""
    return next(iter(one.asks.values())).scale == scale.id


def _finite(value: float | None) -> float | None:
    return value if value is not None and isfinite(value) else None


def _limits(measure: Measure, level: int) -> tuple[float | None, float | None]:
    """From the least to the most of a level; None for an end that no measurement marks."""
    begins = measure.limits[level - 1] if level else None
    worse = (limit for limit in measure.limits[level:] if limit is not None and isfinite(limit))
    ends = next(worse, None)
    return (ends, _finite(begins)) if measure.smaller_is_worse else (_finite(begins), ends)


def _perhaps(measure: Measure, asked: Asked, low: float, high: float) -> int:
    """The gravest level that a reading may be, which is off as far as such readings usually are."""
    if low != high:
        return 0
    off = asked.error * IN_SI[asked.unit] / IN_SI[measure.unit]
    return measure.level(max(0.0, low - off) if measure.smaller_is_worse else high + off)


def _done(kb: KnowledgeBase, one: Sum, finding: Finding) -> Iterator[SumDone]:
    """The sum, if every answer that it asks for was measured, lies in its range, and goes with the others."""
    took = {name: _taken(kb, finding, asked) for name, asked in one.asks.items()}
    measured = {name: value for name, value in took.items() if value is not None}
    if measured.keys() != took.keys():
        return
    try:
        done = reckoned(one, measured)
    except (ValueError, ZeroDivisionError):  # answers that no sum can be made of are told without one
        return
    yield _told(done)


def _taken(kb: KnowledgeBase, finding: Finding, asked: Asked) -> Interval | None:
    reading, measure = finding.readings.get(asked.scale), kb.scales[asked.scale].measure
    if reading is None or reading.measured is None or measure is None or not all(map(isfinite, reading.measured)):
        return None
    low, high = (end * IN_SI[measure.unit] / IN_SI[asked.unit] for end in reading.measured)
    if low == high:
        low, high = max(asked.least, low - asked.error), min(asked.most, high + asked.error)
    return Interval(low, high) if asked.least <= low <= high <= asked.most else None


def _told(done: Worked) -> SumDone:
    one = done.sum
    return SumDone(
        sum=one.id,
        name=one.name,
        taken=tuple(Number(given.what, given.low, given.high, given.unit, "") for given in one.given.values()),
        told=tuple(
            Number(told.say, done.told[name].low, done.told[name].high, told.unit, told.how)
            for name, told in one.tells.items()
        ),
        mind=one.mind,
    )
