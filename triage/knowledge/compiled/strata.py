"""Which derived scale feeds which, and the order in which they become final."""

from __future__ import annotations

import networkx as nx

from triage.knowledge.compiled.reads import derived_read
from triage.knowledge.model import KnowledgeBase, Rule


def scale_graph(kb: KnowledgeBase) -> nx.DiGraph[str]:
    """Derived scales, with an edge from each to those that are raised because of it; ``rules`` names the rules."""
    graph: nx.DiGraph[str] = nx.DiGraph()
    graph.add_nodes_from(scale.id for scale in kb.scales.values() if not scale.observed)
    for rule in kb.rules:
        for read in derived_read(kb, rule):
            for scale, _ in rule.raises:
                graph.add_edge(read, scale)
                graph.edges[read, scale].setdefault("rules", []).append(rule)
    return graph


def scale_cycle(kb: KnowledgeBase) -> list[tuple[str, str, Rule]]:
    """A scale_cycle of derived scales that feed each other, with a rule for each step; empty when there is none."""
    graph = scale_graph(kb)
    try:
        steps = nx.find_cycle(graph)
    except nx.NetworkXNoCycle:
        return []
    return [(read, raised, graph.edges[read, raised]["rules"][0]) for read, raised in steps]


def strata_of_scales(kb: KnowledgeBase) -> dict[str, int]:
    """For each derived scale the stratum after which it is final, from 1. The base must be without circles."""
    generations = nx.topological_generations(scale_graph(kb))
    return {scale: index for index, generation in enumerate(generations, start=1) for scale in generation}
