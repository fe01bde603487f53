"""The cheapest way to the answer of a case: the checks that settle it, with the least trouble, as things truly are."""

from __future__ import annotations

import heapq
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace

from triage.asking.effort import trouble
from triage.conclusions.ranges import intervals
from triage.inference.compiled import compiled
from triage.inference.whatif import WhatIf
from triage.knowledge.model import Check, KnowledgeBase
from triage.survey.model import Finding
from triage.teaching.cases import A_VISIT, Case, with_readings

MOST_TRIED = 4096
"""Sets of checks that are tried: all there are of a dozen."""


@dataclass(frozen=True)
class Tried:
    """A check at a mark, with the scales that it reads there."""

    check: Check
    finding: str
    scales: tuple[str, ...]

    @property
    def minutes(self) -> float:
        """Minutes of work alone."""
        return self.check.minutes

    @property
    def trouble(self) -> float:
        """Minutes of trouble, with what has to come off and what goes by in waiting."""
        return trouble(self.check, self.check.minutes)


def checks_at(kb: KnowledgeBase, finding: Finding) -> tuple[Tried, ...]:
    """Every check that can be made at a mark within a visit, in the order of the scales."""
    here: dict[str, list[str]] = {}
    for scale in kb.applicable(finding.zone, finding.sign):
        for check in kb.checks_for(scale, finding.zone):
            if not check.wait or check.wait.hours <= A_VISIT:
                here.setdefault(check.id, []).append(scale)
    return tuple(Tried(kb.checks[check], finding.id, tuple(scales)) for check, scales in here.items())


def every_check(kb: KnowledgeBase, finding: Finding) -> tuple[Tried, ...]:
    """The checks that tell all that is known of a mark, each the least trouble for what it tells, in the order of the
    scales.
    """
    checks = _cheapest_for_each(checks_at(kb, finding), finding.upper)
    place = {scale: number for number, scale in enumerate(finding.readings)}
    told = [replace(one, scales=tuple(scale for scale in one.scales if scale in place)) for one in checks]
    return tuple(sorted((one for one in told if one.scales), key=lambda one: place[one.scales[0]]))


@dataclass(order=True)
class _Way:
    cost: float
    numbers: tuple[int, ...] = field(compare=True)


def cheapest_way(kb: KnowledgeBase, case: Case) -> tuple[Tried, ...] | None:
    """The checks at the mark that settle verdict, afloat and tow with the least trouble; None when none do.

    Where other marks decide as well, checks at them too: then it is a cheap way, and not always the cheapest.
    """
    known = next(finding for finding in case.shown.findings if finding.id == case.focus)
    whatif = WhatIf(kb, case.shown.boat, known, case.shown.marks)
    wanted = intervals(WhatIf(kb, case.truth.boat, case.mark, case.truth.marks).judged({}))
    levels = case.mark.upper
    tried = [one for one in _cheapest_for_each(checks_at(kb, known), levels) if set(one.scales) & levels.keys()]
    ways = [_Way(0.0, ())]
    for _ in range(MOST_TRIED):
        if not ways:
            break
        way = heapq.heappop(ways)
        chosen = [tried[number] for number in way.numbers]
        if _settles(whatif, chosen, levels, wanted):
            return tuple(chosen)
        for number in range(way.numbers[-1] + 1 if way.numbers else 0, len(tried)):
            heapq.heappush(ways, _Way(way.cost + tried[number].trouble, (*way.numbers, number)))
    return _with_the_others(kb, case, wanted)


def _with_the_others(kb: KnowledgeBase, case: Case, wanted: tuple[tuple[int, int], ...]) -> tuple[Tried, ...] | None:
    """Every check at every mark, without those that are not needed, the dearest first."""
    kept = [one for mark in case.truth.marks for one in _cheapest_for_each(checks_at(kb, mark), mark.upper)]
    if not _comes_to(kb, case, kept, wanted):
        return None
    for one in sorted(kept, key=lambda one: -one.trouble):
        others = [other for other in kept if other is not one]
        if _comes_to(kb, case, others, wanted):
            kept = others
    return tuple(kept)


def _comes_to(kb: KnowledgeBase, case: Case, tried: Sequence[Tried], wanted: tuple[tuple[int, int], ...]) -> bool:
    found = {
        (one.finding, scale): reading
        for one in tried
        for scale in one.scales
        if (reading := case.finding(one.finding).readings.get(scale)) is not None
    }
    survey = with_readings(case.shown, found)
    judged = compiled(kb, survey.boat, survey.findings)
    return intervals(next(one for one in judged if one.finding.id == case.focus)) == wanted


def _cheapest_for_each(tried: Sequence[Tried], levels: Mapping[str, int]) -> list[Tried]:
    """Of checks that read nothing else than a cheaper one does, only the cheaper."""
    kept: list[Tried] = []
    for one in sorted(tried, key=lambda one: (one.trouble, one.check.id)):
        reads = set(one.scales) & levels.keys()
        if not any(reads <= set(other.scales) for other in kept):
            kept.append(one)
    return kept


def _settles(
    whatif: WhatIf, chosen: Sequence[Tried], levels: Mapping[str, int], wanted: tuple[tuple[int, int], ...]
) -> bool:
    answers = {scale: levels[scale] for one in chosen for scale in one.scales if scale in levels}
    if whatif.outlook.answering(answers).ranges != wanted:
        return False
    return intervals(whatif.judged(answers)) == wanted
