"""What a class made of its cases, as figures: what was missed, false alarms, agreement, calibration, cases, before and
after. All of it is a function of the results that `triage.teaching.classes` keeps.

    from pathlib import Path
    from triage.teaching.classes import read_class
    from triage.teaching.marking import marked_class

    print(marked_class(kb, read_class("AUTUMN-3", Path())).structural_found)
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from triage.knowledge.model import VERDICT, KnowledgeBase
from triage.teaching.agreement import Estimate, alpha_of, difference, kappa, kappa_among, mean, share
from triage.teaching.classes import Class, Result, first_tries, of_when
from triage.teaching.counts import counts_of

BINS = ((0, 50), (50, 70), (70, 85), (85, 95), (95, 101))
"""Bands of confidence in percent, from and to below; narrower where people usually are."""

FEW, SURE_AND_WRONG = 3, 70
"""Learners from which on something is said of a case; percent from which on somebody was sure (estimates)."""


@dataclass(frozen=True)
class Bin:
    """A band of confidence: how sure learners were on average, and how often they were right."""

    low: int
    high: int
    confidence: float
    right: Estimate


@dataclass(frozen=True)
class CaseItem:
    """How a class did on one case. ``kind``: too easy (all were right), too hard (nobody was), misleading (most were
    wrong, and sure of it), or empty.
    """

    case: str
    right: Estimate
    kind: str


@dataclass(frozen=True)
class Change:
    """Before a lesson and after it: the share of right verdicts, and by how much it grew."""

    before: Estimate
    after: Estimate
    grew: Estimate


@dataclass(frozen=True)
class MarkedClass:
    """A class in figures, of first tries; None where there is nothing to work one out from.

    ``structural_found``: of weakened marks, those that were called so or held open; ``missed`` counts those that were
    called milder outright, and ``called_fine`` those of them that were called mere looks. ``false_alarms``: of marks
    that are not weakened, those that were called so. ``held_open`` counts verdicts of "not cleared". ``with_key`` is
    weighted kappa, ``among`` ordinal alpha, and ``fleiss`` Fleiss' kappa on the cases that everybody judged.
    ``practised`` counts later tries, of which ``practised_right`` were right.
    """

    runs: int
    learners: int
    right: Estimate | None
    structural_found: Estimate | None
    missed: int
    called_fine: int
    false_alarms: Estimate | None
    held_open: int
    with_key: Estimate | None
    among: Estimate | None
    fleiss: float | None
    brier: Estimate | None
    bins: tuple[Bin, ...]
    items: tuple[CaseItem, ...]
    points: Estimate | None
    change: Change | None
    practised: int
    practised_right: int


def marked_class(kb: KnowledgeBase, one: Class) -> MarkedClass:
    """Mark a class. Raises MissingExtra where the statistics are not installed."""
    results, counts = one.first_tries, counts_of(kb, one)
    return MarkedClass(
        runs=counts.runs,
        learners=len(one.names),
        right=share(counts.right, counts.runs),
        structural_found=share(counts.grave - counts.missed, counts.grave),
        missed=counts.missed,
        called_fine=counts.called_fine,
        false_alarms=share(counts.false_alarms, counts.others),
        held_open=counts.held_open,
        with_key=with_key(results, len(kb.scales[VERDICT].levels)),
        among=alpha_of(_ratings(one)) if len(one.names) > 1 else None,
        fleiss=_fleiss(one, len(kb.scales[VERDICT].levels)),
        brier=mean([_off(result) for result in results]),
        bins=tuple(bins(results)),
        items=tuple(_item(case, [result for result in results if result.case == case]) for case in one.cases),
        points=mean([result.points / result.of for result in results if result.of]),
        change=_change(one.results),
        practised=counts.practised,
        practised_right=counts.practised_right,
    )


def with_key(results: Sequence[Result], levels: int) -> Estimate | None:
    """Weighted kappa between verdicts and key; what was held open is left out."""
    table = [[0] * levels for _ in range(levels)]
    for result in results:
        if result.verdict is not None:
            table[result.verdict][result.key] += 1
    return kappa(table, "linear")


def bins(results: Sequence[Result]) -> Iterator[Bin]:
    """The bands of confidence in which somebody was."""
    for low, high in BINS:
        here = [result for result in results if low <= result.confidence < high]
        right = share(sum(result.right for result in here), len(here))
        if right is not None:
            yield Bin(low, min(high, 100), sum(result.confidence for result in here) / len(here) / 100, right)


def _off(result: Result) -> float:
    """The square of how far the confidence was from what came true: of one verdict, what Brier's score averages."""
    return (result.confidence / 100 - result.right) ** 2


def _ratings(one: Class) -> list[list[float | None]]:
    verdicts = {(result.name, result.case): result.verdict for result in one.first_tries}
    return [[verdicts.get((name, case)) for case in one.cases] for name in one.names]


def _fleiss(one: Class, levels: int) -> float | None:
    """Fleiss' kappa on the cases that every learner judged outright."""
    if len(one.names) < 2:
        return None
    judged = [column for column in zip(*_ratings(one), strict=True) if None not in column]
    return kappa_among([[column.count(level) for level in range(levels)] for column in judged])


def _item(case: str, results: Sequence[Result]) -> CaseItem:
    wrong = [result for result in results if not result.right]
    right = share(len(results) - len(wrong), len(results))
    assert right is not None
    return CaseItem(case, right, _kind(len(results), wrong))


def _kind(count: int, wrong: Sequence[Result]) -> str:
    if count < FEW:
        return ""
    if not wrong:
        return "too easy"
    sure = sum(result.confidence for result in wrong) / len(wrong) >= SURE_AND_WRONG
    if sure and 2 * len(wrong) > count:
        return "misleading"
    return "too hard" if len(wrong) == count else ""


def _change(results: Sequence[Result]) -> Change | None:
    before, after = first_tries(of_when(results, "before")), first_tries(of_when(results, "after"))
    counts = [(sum(result.right for result in some), len(some)) for some in (before, after)]
    first, second, grew = share(*counts[0]), share(*counts[1]), difference(counts[0], counts[1])
    return Change(first, second, grew) if first and second and grew else None
