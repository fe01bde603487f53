"""Which mark makes rules suspect which other: the findings' side of the dependency graph."""

from __future__ import annotations

import networkx as nx

from triage.knowledge.compiled.reads import marks_of
from triage.knowledge.model import KnowledgeBase, Rule
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


def in_order(kb: KnowledgeBase) -> tuple[Mark, ...]:
    """The marks, each before all that follow from it."""
    return tuple(nx.topological_sort(consequences(kb)))


def suspicion_cycle(kb: KnowledgeBase) -> list[tuple[Mark, Mark, Rule]]:
    """Suspicions that lead back to the mark they came from, with a rule for each step; empty when there are none."""
    try:
        steps = nx.find_cycle(consequences(kb))
    except nx.NetworkXNoCycle:
        return []
    return [(mark, suspect, consequences(kb).edges[mark, suspect, key]["rule"]) for mark, suspect, key in steps]
