"""The dependency graph: causes, marks that they leave, checks that they demand, suspicions, and what lies beside what.

Nodes are named ``cause:grounding``, ``mark:board/foil_split``, ``check:case_root/flex_watch`` and ``zone:board``; each
has a ``kind`` and a ``name`` to show. Edges have a ``kind``:

    leaves     cause → mark     strength
    sends      cause → check    strength, because, side
    suspects   mark → mark      because, rule; from a zone where any mark there will do
    at         mark or check → zone
    beside     zone → zone
"""

from __future__ import annotations

from collections.abc import Iterator

import networkx as nx

from triage.errors import BadInput, Place, Problem
from triage.knowledge.compiled.consequences import marks_of
from triage.knowledge.model import NOTHING_SEEN, KnowledgeBase, Rule, Suspect
from triage.knowledge.model.cause import ANYWHERE, Mark
from triage.knowledge.per_knowledge import per_knowledge
from triage.survey.names import Names

Graph = nx.MultiDiGraph


def cause_node(cause: str) -> str:
    """The node of a cause, by its id."""
    return f"cause:{cause}"


def mark_node(zone: str, sign: str) -> str:
    """The node of a sign in a zone, by their ids."""
    return f"mark:{zone}/{sign}"


def check_node(zone: str, check: str) -> str:
    """The node of a check in a zone, by their ids."""
    return f"check:{zone}/{check}"


def zone_node(zone: str) -> str:
    """The node of a zone, by its id."""
    return f"zone:{zone}"


@per_knowledge
def graph_of(kb: KnowledgeBase) -> Graph[str]:
    """The whole graph."""
    graph: Graph[str] = nx.MultiDiGraph()
    for zone in kb.zones.values():
        graph.add_node(zone_node(zone.id), kind="zone", name=zone.name, trade=zone.trade, zone=zone.id)
    for zone in kb.zones.values():
        graph.add_edges_from((zone_node(zone.id), zone_node(other), {"kind": "beside"}) for other in zone.neighbours)
    for cause in kb.causation.causes.values():
        graph.add_node(cause_node(cause.id), kind="cause", name=cause.name, says=cause.happens)
        for left in cause.leaves:
            mark = _add(graph, kb, left.zone, sign=left.sign)
            graph.add_edge(cause_node(cause.id), mark, kind="leaves", strength=left.strength)
        for sent in cause.follow_ups:
            check = _add(graph, kb, sent.zone, check=sent.check)
            about = {"strength": sent.strength, "because": sent.because, "side": sent.side}
            graph.add_edge(cause_node(cause.id), check, kind="sends", **about)
    for rule in kb.rules:
        if rule.suspects:
            for source in _sources(graph, kb, rule):
                for suspect in rule.suspects:
                    suspected = _add(graph, kb, suspect.zone, sign=suspect.sign)
                    graph.add_edge(source, suspected, kind="suspects", because=rule.because, rule=rule.id)
    return graph


def _sources(graph: Graph[str], kb: KnowledgeBase, rule: Rule) -> Iterator[str]:
    """The marks on which a rule can hold; the zone itself where any mark there will do."""
    signs: dict[str, list[str]] = {}
    for zone, sign in marks_of(kb, rule):
        signs.setdefault(zone, []).append(sign)
    for zone, some in signs.items():
        if len(some) == len([sign for sign in kb.offers[zone] if sign != NOTHING_SEEN]):
            yield zone_node(zone)
        else:
            yield from (_add(graph, kb, zone, sign=sign) for sign in some)


def source_and_suspect(kb: KnowledgeBase, mark: Mark, rule: Rule, suspect: Suspect) -> tuple[str, str]:
    """The two ends of the edge by which a rule that holds for a mark suspects something."""
    suspected = mark_node(suspect.zone, suspect.sign)
    links = graph_of(kb).get_edge_data(mark_node(*mark), suspected) or {}
    by_mark = any(link.get("rule") == rule.id for link in links.values())
    return (mark_node(*mark) if by_mark else zone_node(mark[0])), suspected


def _add(graph: Graph[str], kb: KnowledgeBase, zone: str, *, sign: str = "", check: str = "") -> str:
    """A mark or a check, with its place."""
    kind, node = ("mark", mark_node(zone, sign)) if sign else ("check", check_node(zone, check))
    if node not in graph:
        place = kb.zones[zone].name if zone != ANYWHERE else "Anywhere on the boat"
        name = kb.signs[sign].name if sign else kb.checks[check].name
        graph.add_node(node, kind=kind, name=name, place=place, zone=zone)
        if zone != ANYWHERE:
            graph.add_edge(node, zone_node(zone), kind="at")
    return node


def around(graph: Graph[str], word: str, steps: int = 1) -> Graph[str]:
    """What lies within ``steps`` links of a cause, or of the marks and checks of a zone; ``word`` is a name or an id.

    Raises BadInput when there is no such cause or zone.
    """
    centre = centre_of(graph, word)
    links: Graph[str] = nx.MultiDiGraph()
    links.add_edges_from((one, other) for one, other, data in graph.edges(data=True) if data["kind"] in LINKS)
    here = [node for node, _, data in graph.in_edges(centre, data=True) if data["kind"] == "at"]
    sources = [node for node in (centre, *here) if node in links]
    paths = links.to_undirected(as_view=True)
    near = {node for source in sources for node in nx.ego_graph(paths, source, radius=steps)}
    places = {zone_node(zone) for node in near if (zone := graph.nodes[node].get("zone", ANYWHERE)) != ANYWHERE}
    wanted = {centre, *near, *places}
    part: Graph[str] = nx.MultiDiGraph()
    part.add_nodes_from((node, data) for node, data in graph.nodes(data=True) if node in wanted)
    part.add_edges_from((u, v, data) for u, v, data in graph.edges(data=True) if u in wanted and v in wanted)
    return part


LINKS = ("leaves", "sends", "suspects")
"""The kinds of edge that reasons run along."""


def centre_of(graph: Graph[str], word: str) -> str:
    """The node of the cause or zone that is called so (plain name, trade name or id). Raises BadInput without one."""
    named = [node for node, data in graph.nodes(data=True) if data["kind"] in ("zone", "cause")]
    nodes = {node.partition(":")[2]: node for node in named}
    known = {id_: graph.nodes[node] for id_, node in nodes.items()}
    entries = ((id_, (data["name"], *data.get("trade", "").split(","))) for id_, data in known.items())
    names = Names("cause and no zone", entries)
    found = names.find(word)
    if found is None:
        what = f'no cause and no zone is called "{word}"'
        raise BadInput([Problem(Place("the graph"), what, names.hint(word))])
    return nodes[found]
