"""From what inference found to the ranges, places and bases that conclusions are told by."""

from __future__ import annotations

from triage.conclusions.assessment import Range
from triage.inference.evaluation import Evaluation
from triage.knowledge.model import AFLOAT, TOW, VERDICT, Basis, KnowledgeBase
from triage.survey.model import Finding


def range_of(kb: KnowledgeBase, judged: Evaluation, scale: str) -> Range:
    """Both ends of a derived scale, by name."""
    best, worst = judged.interval(scale)
    return Range(kb.level_name(scale, best), kb.level_name(scale, worst), best == worst)


def basis_words(basis: Basis) -> str:
    return f"published: {basis.source}, {basis.where}" if basis.kind == "published" else basis.kind


def place_of(kb: KnowledgeBase, finding: Finding) -> str:
    """The place in plain words, with its side."""
    name = kb.zones[finding.zone].name
    return f"{name}, {finding.side}" if finding.side else name


def outcome(judged: Evaluation) -> tuple[tuple[int, int], ...]:
    """Both ends of verdict, afloat and tow: what a check can change for the person with the boat."""
    return tuple(judged.interval(scale) for scale in (VERDICT, AFLOAT, TOW))


def is_open(judged: Evaluation) -> bool:
    """Whether verdict, afloat or tow is not settled."""
    return any(best != worst for best, worst in outcome(judged))
