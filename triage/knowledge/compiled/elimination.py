"""In which order the causes of a noisy-OR network are summed out: fewest new ties first."""

from __future__ import annotations

import itertools
from collections.abc import Collection, Iterable

import networkx as nx


def fewest_ties_first(causes: Iterable[str], effects: Iterable[Collection[str]]) -> tuple[tuple[str, ...], int]:
    """The order, and the most causes in one table, when each effect ties together the causes that bring it about."""
    graph: nx.Graph[str] = nx.Graph()
    graph.add_nodes_from(causes)
    for tied in effects:
        graph.add_edges_from(itertools.combinations(tied, 2))
    order, width = [], 0
    while graph:
        cause = min(graph, key=lambda node: (_fill(graph, node), graph.degree(node)))
        width = max(width, graph.degree(cause) + 1)
        graph.add_edges_from(itertools.combinations(list(graph[cause]), 2))
        graph.remove_node(cause)
        order.append(cause)
    return tuple(order), width


def _fill(graph: nx.Graph[str], node: str) -> int:
    """How many pairs of its neighbours are not neighbours yet."""
    return sum(not graph.has_edge(one, other) for one, other in itertools.combinations(graph[node], 2))
