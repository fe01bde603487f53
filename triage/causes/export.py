"""The dependency graph for other programs: DOT, GraphML and JSON, with everything that nodes and edges hold."""

from __future__ import annotations

import json

import networkx as nx

from triage.causes.graph import Graph


def as_dot(graph: Graph[str]) -> str:
    """The graph in the DOT language of Graphviz."""
    lines = ["digraph causes {", "  rankdir=LR;", "  node [shape=box];"]
    for node, data in graph.nodes(data=True):
        place = data.get("place", "")
        label = f"{place}\n{data['name']}" if place else data["name"]
        lines.append(f"  {_quoted(node)} [label={_quoted(label)}, class={_quoted(data['kind'])}];")
    for one, other, data in graph.edges(data=True):
        tip = data.get("because", data.get("strength", ""))
        about = f"class={_quoted(data['kind'])}, tooltip={_quoted(tip)}"
        lines.append(f"  {_quoted(one)} -> {_quoted(other)} [{about}];")
    return "\n".join([*lines, "}", ""])


def _quoted(text: str) -> str:
    escaped = text.replace("\\", "\\\\").replace('"', '\\"').replace("\n", "\\n")
    return f'"{escaped}"'


def as_graphml(graph: Graph[str]) -> str:
    """The graph as GraphML."""
    return "\n".join(['<?xml version="1.0" encoding="utf-8"?>', *nx.generate_graphml(graph), ""])


def as_json(graph: Graph[str]) -> str:
    """The graph as JSON: nodes and edges, each with what it holds (networkx calls it node-link)."""
    return json.dumps(nx.node_link_data(graph, edges="edges"), ensure_ascii=False, indent=1) + "\n"
