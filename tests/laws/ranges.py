"""What the laws compare: for each finding the range of every derived scale, before and after something was changed."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace
from functools import cache

from tests.conftest import ROOT
from triage.inference.evaluate import evaluate
from triage.knowledge.model import KnowledgeBase
from triage.knowledge.store.load import load_knowledge
from triage.survey.model import Boat, Finding, Reading

Range = tuple[int, int]
Ranges = Mapping[str, Range]


@cache
def shipped() -> KnowledgeBase:
    """The shipped rules, read once. Not a fixture here: hypothesis would write out all of them for each broken law."""
    return load_knowledge(ROOT / "rules")


def ranges(kb: KnowledgeBase, boat: Boat, found: Sequence[Finding]) -> list[Ranges]:
    """For each finding the best and the worst that every derived scale may be."""
    derived = [scale.id for scale in kb.scales.values() if not scale.observed]
    return [{scale: judged.interval(scale) for scale in derived} for judged in evaluate(kb, boat, found)]


def with_answer(finding: Finding, scale: str, level: int) -> Finding:
    return replace(finding, readings={**finding.readings, scale: Reading.at(level)})


def without_answer(finding: Finding, scale: str) -> Finding:
    return replace(finding, readings={s: reading for s, reading in finding.readings.items() if s != scale})


def changed(found: Sequence[Finding], finding: Finding) -> list[Finding]:
    """The findings with the one of the same id replaced."""
    return [finding if other.id == finding.id else other for other in found]


def best_ends(before: Sequence[Ranges], after: Sequence[Ranges]) -> Iterator[tuple[str, int, int]]:
    """By scale the best that it may be, before and after, finding by finding."""
    for one, other in zip(before, after, strict=True):
        yield from ((scale, one[scale][0], other[scale][0]) for scale in one)


def worst_ends(before: Sequence[Ranges], after: Sequence[Ranges]) -> Iterator[tuple[str, int, int]]:
    for one, other in zip(before, after, strict=True):
        yield from ((scale, one[scale][1], other[scale][1]) for scale in one)


def fallen(ends: Iterator[tuple[str, int, int]]) -> list[tuple[str, int, int]]:
    return [end for end in ends if end[2] < end[1]]


def risen(ends: Iterator[tuple[str, int, int]]) -> list[tuple[str, int, int]]:
    return [end for end in ends if end[2] > end[1]]
