"""Causes that cannot be weighed, that nothing can tell apart, or whose follow-ups are never shown."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from triage.causes.evidence import network_of
from triage.causes.gravity import worst_verdict
from triage.errors import BadRules, Problem
from triage.knowledge.model import KnowledgeBase
from triage.survey.model import Boat


def cause_problems(kb: KnowledgeBase) -> Iterator[Problem]:
    """All of them, cause by cause."""
    weights = kb.causation.weights
    if weights is None:
        return
    try:
        network_of(kb, weights)
    except BadRules as error:
        yield from (replace(problem, place=weights.place) for problem in error.problems)
    seen: dict[frozenset[object], str] = {}
    for cause in kb.causation.causes.values():
        leaves: frozenset[object] = frozenset(cause.leaves)
        if leaves in seen:
            what = f"{cause.id} leaves the same as {seen[leaves]}, as often"
            yield Problem(cause.place, what, "Make them one, or say what tells them apart.")
        seen.setdefault(leaves, cause.id)
        for follow_up in cause.follow_ups:
            worst = worst_verdict(kb, Boat("any"), follow_up.zone, follow_up.check)
            if weights.gravity[worst] == 0:
                what = f"{cause.id} sends to {follow_up.check} at {follow_up.zone}, which finds nothing that matters"
                yield Problem(follow_up.place, what, "Send to a check that does, or take it out.")
