"""What a class made of its cases in plain counts, for which no statistics are needed."""

from __future__ import annotations

from dataclasses import dataclass

from triage.knowledge.model import VERDICT, KnowledgeBase
from triage.teaching.classes import Class


@dataclass(frozen=True)
class Counts:
    """First tries of a class, counted. ``grave`` are those on weakened marks, ``others`` those on all else.
    ``practised`` counts later tries, and ``practised_right`` those of them that were right.

    Of weakened marks, ``missed`` were called milder outright, and ``called_fine`` of them mere looks; ``false_alarms``
    are marks that are not weakened and were called so; ``held_open`` counts verdicts of "not cleared".
    """

    runs: int
    right: int
    grave: int
    missed: int
    called_fine: int
    others: int
    false_alarms: int
    held_open: int
    practised: int
    practised_right: int


def counts_of(kb: KnowledgeBase, one: Class) -> Counts:
    """Count the verdicts of a class."""
    results, weakened = one.first_tries, kb.level_of(VERDICT, "weakened")
    grave = [result for result in results if result.key >= weakened]
    others = [result for result in results if result.key < weakened]
    missed = [result for result in grave if result.verdict is not None and result.verdict < weakened]
    return Counts(
        runs=len(results),
        right=sum(result.right for result in results),
        grave=len(grave),
        missed=len(missed),
        called_fine=sum(result.verdict == 0 for result in missed),
        others=len(others),
        false_alarms=sum(result.verdict is not None and result.verdict >= weakened for result in others),
        held_open=sum(result.verdict is None for result in results),
        practised=len(one.results) - len(results),
        practised_right=sum(result.right for result in one.results) - sum(result.right for result in results),
    )
