"""Which mark makes rules suspect which other: the findings' side of the dependency graph."""

from __future__ import annotations

import networkx as nx

from triage.knowledge.compiled.conjuncts import conjuncts_of
from triage.knowledge.model import NOTHING_SEEN, KnowledgeBase, Rule
from triage.knowledge.model.cause import Mark
from triage.knowledge.per_knowledge import per_knowledge


@per_knowledge
def consequences(kb: KnowledgeBase) -> nx.MultiDiGraph[Mark]:
    """Marks, with an edge from each to those that some rule suspects because of it; the edge holds its ``rule``."""
    graph: nx.MultiDiGraph[Mark] = nx.MultiDiGraph()
    for rule in kb.rules:
        if rule.suspects:
            for mark in marks_of(kb, rule):
                for suspect in rule.suspects:
                    graph.add_edge(mark, (suspect.zone, suspect.sign), rule=rule)
    return graph


def marks_of(kb: KnowledgeBase, rule: Rule) -> list[Mark]:
    """The marks on which the rule can hold."""
    conjuncts = conjuncts_of(kb, rule.when)
    return [
        (zone, sign)
        for zone, offered in kb.offers.items()
        for sign in offered
        if sign != NOTHING_SEEN and any(conjunct.fits(zone, sign) for conjunct in conjuncts)
    ]


def suspicion_cycle(kb: KnowledgeBase) -> list[tuple[Mark, Mark, Rule]]:
    """Suspicions that lead back to the mark they came from, with a rule for each step; empty when there are none."""
    try:
        steps = nx.find_cycle(consequences(kb))
    except nx.NetworkXNoCycle:
        return []
    return [(mark, suspect, consequences(kb).edges[mark, suspect, key]["rule"]) for mark, suspect, key in steps]
