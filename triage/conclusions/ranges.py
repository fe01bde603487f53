"""From what inference found to the ranges and levels that conclusions are told by."""

from __future__ import annotations

from collections.abc import Collection

from triage.conclusions.values import EstimatedScale, Range, Reached, ReportedReading
from triage.inference.evaluation import Evaluation
from triage.knowledge.model import AFLOAT, TOW, VERDICT, KnowledgeBase
from triage.survey.model import Finding
from triage.survey.readings import quoted


def range_between(kb: KnowledgeBase, scale: str, best: int, worst: int) -> Range:
    """A range of a derived scale, by the numbers of its ends."""
    ends = (kb.scales[scale].levels[best], kb.scales[scale].levels[worst])
    return Range(ends[0].name, ends[1].name, best == worst, (best, worst), (ends[0].role, ends[1].role))


def range_of(kb: KnowledgeBase, judged: Evaluation, scale: str) -> Range:
    """The range of a derived scale of a finding."""
    return range_between(kb, scale, *judged.interval(scale))


def reached(kb: KnowledgeBase, scale: str, level: int) -> Reached:
    """A level of a scale that was concluded."""
    return _reached(kb, scale, level, kb.scales[scale].words(level))


def supposed(kb: KnowledgeBase, scale: str, level: int) -> Reached:
    """A level of a scale that somebody may yet find."""
    return _reached(kb, scale, level, kb.scales[scale].example(level))


def not_looked_at(kb: KnowledgeBase, scale: str, level: int) -> Reached:
    """A level of a scale that holds although nobody has looked: by its name, so that no look is claimed."""
    return _reached(kb, scale, level, kb.scales[scale].named(level))


def answered(kb: KnowledgeBase, finding: Finding, scale: str) -> Reached:
    """The graver end of what was answered, in the words that it was answered with."""
    reading = finding.readings[scale]
    return _reached(kb, scale, finding.upper[scale], quoted(kb.scales[scale], reading))


def _reached(kb: KnowledgeBase, scale: str, level: int, phrase: str) -> Reached:
    return Reached(scale, level, kb.scales[scale].levels[level].name, phrase)


def reported(kb: KnowledgeBase, finding: Finding) -> tuple[ReportedReading, ...]:
    """The readings of a finding as they were understood, in the order of the scales."""
    found = []
    for id_, scale in kb.scales.items():
        reading = finding.readings.get(id_)
        if reading is not None:
            name = None if reading.high is None else scale.levels[reading.high].name
            phrase = quoted(scale, reading)
            measured = "" if reading.measured is None else reading.said
            found.append(
                ReportedReading(id_, scale.name, reading.said, reading.low, reading.high, name, phrase, measured)
            )
    return tuple(found)


def estimated(kb: KnowledgeBase, scales: Collection[str]) -> tuple[EstimatedScale, ...]:
    """Those of the scales whose limits are our own estimate, in the order of the scales."""
    return tuple(
        EstimatedScale(id_, scale.name)
        for id_, scale in kb.scales.items()
        if id_ in scales and scale.measure and scale.basis and scale.basis.kind == "estimate"
    )


def intervals(judged: Evaluation) -> tuple[tuple[int, int], ...]:
    """Both ends of verdict, afloat and tow: what a check can change for the person with the boat."""
    return tuple(judged.interval(scale) for scale in (VERDICT, AFLOAT, TOW))


def is_open(judged: Evaluation) -> bool:
    """Whether verdict, afloat or tow is not settled."""
    return any(best != worst for best, worst in intervals(judged))
