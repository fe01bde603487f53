"""The dependency graph: what it holds, what lies around a cause or a place, and what other programs get of it."""

from __future__ import annotations

import json

import networkx as nx
import pytest

from tests.mistakes import small_base
from triage.causes.export import as_dot, as_graphml, as_json
from triage.causes.graph import around, graph_of
from triage.errors import BadInput
from triage.knowledge.model import KnowledgeBase


def links(kb: KnowledgeBase, kind: str) -> set[tuple[str, str]]:
    return {(one, other) for one, other, data in graph_of(kb).edges(data=True) if data["kind"] == kind}


def test_the_graph_holds_every_cause_mark_check_suspicion_and_neighbour() -> None:
    kb = small_base()

    assert {("cause:hard_landing", "mark:stem/long_crack"), ("cause:hard_landing", "mark:side_deck/hairline")} == links(
        kb, "leaves"
    )
    assert {("cause:hard_landing", "check:side_deck/press")} == links(kb, "sends")
    assert {("zone:chainplate", "mark:side_deck/hairline")} == links(kb, "suspects")  # any mark at the anchor will do
    assert ("zone:stem", "zone:side_deck") in links(kb, "beside")
    assert ("mark:stem/long_crack", "zone:stem") in links(kb, "at")


def test_a_rule_about_some_marks_suspects_from_these_marks(kb: KnowledgeBase) -> None:
    suspected = links(kb, "suspects")

    assert ("mark:mast_high/spar_bend", "mark:mast_gate/corner_crack") in suspected
    assert ("zone:mast_high", "mark:mast_gate/corner_crack") not in suspected


@pytest.mark.parametrize("word", ["grounding", "Running aground", "running-aground"])
def test_one_step_around_a_cause_are_its_marks_and_its_checks(kb: KnowledgeBase, word: str) -> None:
    near = around(graph_of(kb), word)

    cause = kb.causation.causes["grounding"]
    kinds = nx.get_node_attributes(near, "kind")
    assert {"cause:grounding"} == {node for node, kind in kinds.items() if kind == "cause"}
    assert {f"mark:{left.zone}/{left.sign}" for left in cause.leaves} == {
        n for n, kind in kinds.items() if kind == "mark"
    }
    assert {f"check:{f.zone}/{f.check}" for f in cause.follow_ups} == {
        n for n, kind in kinds.items() if kind == "check"
    }


def test_one_step_around_a_place_are_the_causes_that_speak_of_it(kb: KnowledgeBase) -> None:
    near = around(graph_of(kb), "case_root")

    causes = {node for node, data in near.nodes(data=True) if data["kind"] == "cause"}
    assert {f"cause:{cause}" for cause in ("grounding", "capsize_board", "poor_bond", "blown_over")} == causes


def test_a_place_is_known_by_its_plain_and_its_trade_name(kb: KnowledgeBase) -> None:
    by_id, plain, trade = (around(graph_of(kb), name) for name in ("stem", "Nose of the hull", "bow knuckle"))

    assert set(by_id) == set(plain) == set(trade)


def test_further_steps_show_more(kb: KnowledgeBase) -> None:
    sizes = [len(around(graph_of(kb), "grounding", steps)) for steps in (1, 2, 3)]

    assert sizes == sorted(set(sizes))


def test_a_name_that_nothing_has_is_asked_about(kb: KnowledgeBase) -> None:
    with pytest.raises(BadInput, match=r'no cause and no zone is called "groundin"') as caught:
        around(graph_of(kb), "groundin")

    assert 'Did you mean "grounding"?' == caught.value.problems[0].hint


def everything(graph: nx.Graph[str]) -> list[str]:
    """All nodes and edges with all that they hold."""
    nodes = [f"{node} {sorted(data.items())}" for node, data in graph.nodes(data=True)]
    return sorted(nodes) + sorted(f"{u} {v} {sorted(data.items())}" for u, v, data in graph.edges(data=True))


def test_graphml_and_json_hold_the_whole_graph(kb: KnowledgeBase) -> None:
    graph = graph_of(kb)

    read = [
        nx.parse_graphml(as_graphml(graph), force_multigraph=True),
        nx.node_link_graph(json.loads(as_json(graph)), edges="edges"),
    ]

    assert [everything(graph)] * 2 == [everything(again) for again in read]


def test_dot_names_every_node_and_quotes_what_must_be_quoted() -> None:
    graph: nx.MultiDiGraph[str] = nx.MultiDiGraph()
    graph.add_node("cause:a", kind="cause", name='A "blow"\\')
    graph.add_edge("cause:a", "cause:a", kind="leaves", strength="strong")

    assert '  "cause:a" [label="A \\"blow\\"\\\\", class="cause"];' in as_dot(graph).splitlines()
    assert '  "cause:a" -> "cause:a" [class="leaves", tooltip="strong"];' in as_dot(graph).splitlines()
