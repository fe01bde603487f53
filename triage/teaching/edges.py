"""Where the answer to a case turns: the readings of which one step more or less makes another verdict."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from triage.inference.whatif import WhatIf
from triage.knowledge.model import VERDICT, KnowledgeBase
from triage.teaching.cases import DIFFICULTIES, Case, first_visit
from triage.teaching.confusions import taken_for

MANY_TURNS, MANY_ALIKE, MANY_CHECKS = 3, 2, 3
"""From how many on they make a case harder: readings at which it turns, marks it is taken for, checks it takes
(estimates).
"""


@dataclass(frozen=True)
class Edge:
    """A scale of which one step takes a mark from the one verdict to the other, milder first."""

    scale: str
    verdicts: tuple[int, int]


def edges_of(kb: KnowledgeBase, case: Case) -> tuple[Edge, ...]:
    """Every reading at which the verdict turns, in the order of the scales."""
    whatif = WhatIf(kb, case.truth.boat, case.mark, case.truth.marks)
    return tuple(_edges(kb, whatif))


def _edges(kb: KnowledgeBase, whatif: WhatIf) -> Iterator[Edge]:
    finding, now = whatif.finding, whatif.judged({}).upper.level(VERDICT)
    for scale in first_visit(kb, finding.zone, finding.sign):
        level = finding.upper.get(scale)
        for other in () if level is None else (level - 1, level + 1):
            if other in whatif.levels(scale):
                then = whatif.judged({scale: other}).upper.level(VERDICT)
                if then != now:
                    yield Edge(scale, (min(now, then), max(now, then)))


def difficulty_of(kb: KnowledgeBase, case: Case, checks: int) -> str:
    """How hard it is: the more readings it turns on, the more it is taken for, the more ``checks`` it takes."""
    finding = case.mark
    near = [sign for sign in taken_for(kb)[finding.sign] if sign in kb.offers[finding.zone]]
    harder = (len(edges_of(kb, case)) >= MANY_TURNS, len(near) >= MANY_ALIKE, checks >= MANY_CHECKS)
    return DIFFICULTIES[min(sum(harder), len(DIFFICULTIES) - 1)]
