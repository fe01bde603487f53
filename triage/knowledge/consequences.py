"""Which marks a rule can hold on, and whether suspicions lead back to the mark they came from."""

from __future__ import annotations

from graphlib import CycleError, TopologicalSorter
from itertools import pairwise

from triage.knowledge.cause import Mark
from triage.knowledge.clauses import clauses_of
from triage.knowledge.model import NOTHING_SEEN, KnowledgeBase, Rule


def marks_of(kb: KnowledgeBase, rule: Rule) -> list[Mark]:
    """The marks on which the rule can hold."""
    clauses = clauses_of(kb, rule.when)
    return [
        (zone, sign)
        for zone, offered in kb.offers.items()
        for sign in offered
        if sign != NOTHING_SEEN and any(clause.fits(zone, sign) for clause in clauses)
    ]


def round_trip(kb: KnowledgeBase) -> list[tuple[Mark, Mark, Rule]]:
    """Suspicions that lead back to the mark they came from, with a rule for each step; empty when there are none."""
    suspected: dict[Mark, dict[Mark, Rule]] = {}
    for rule in kb.rules:
        if rule.suspects:
            for mark in marks_of(kb, rule):
                for suspect in rule.suspects:
                    suspected.setdefault((suspect.zone, suspect.sign), {}).setdefault(mark, rule)
    try:
        TopologicalSorter(suspected).prepare()
    except CycleError as error:
        return [(mark, next_, suspected[next_][mark]) for mark, next_ in pairwise(error.args[1])]
    return []
