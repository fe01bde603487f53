"""What is said of how a measured answer was judged."""

from __future__ import annotations

from collections.abc import Iterator

from triage.conclusions.assessment import FindingAssessment
from triage.conclusions.working import Number, SumDone, Working
from triage.mechanics.interval import Interval
from triage.phrases.sums import FIGURES_MEASURED, NOT_MEASURED
from triage.phrases.sums import between as in_figures

UNITS = {"deg": "degrees"}
"""Units that are spelt out in sentences."""

ONE_SIDED = "A sum may add concern and never takes any away."


def judged(finding: FindingAssessment) -> list[tuple[str, list[str]]]:
    """Each measured answer in a sentence, with a line for each number that a sum makes of it. Empty without any."""
    return [(_place(one), [line for done in one.sums for line in _lines(done)]) for one in finding.workings]


def _place(one: Working) -> str:
    """Where it lies on its scale, and what it may be besides."""
    told = f"“{one.name}” came out at {_span(one.low, one.high, one.unit)}. That is “{one.level}”{_reach(one)}."
    if one.perhaps:
        told += f" Such a reading is often off by enough to make it “{one.perhaps}”: measure it once more."
    return told


def _reach(one: Working) -> str:
    holds = _span(one.least, one.most, one.unit)
    return f", which is {holds}" if holds else ""


def _span(low: float | None, high: float | None, unit: str) -> str:
    """From one end to the other, either of which may be open; empty where both are."""
    unit = UNITS.get(unit, unit)
    if low is not None and high is not None:
        return in_figures(Interval(low, high), unit, FIGURES_MEASURED)
    ends = (("from {} {} on", low), ("up to {} {}", high))
    return next((said.format(f"{end:g}", unit) for said, end in ends if end is not None), "")


def _lines(done: SumDone) -> Iterator[str]:
    for one in done.told:
        yield f"{one.say}: {_number(one)} (= {one.how})"
    for one in done.taken:
        yield f"{one.say}: {_number(one)} ({NOT_MEASURED})"
    yield done.mind


def _number(one: Number) -> str:
    return in_figures(Interval(one.low, one.high), one.unit)
