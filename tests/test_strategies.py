"""The random examples are what they claim to be: every construct comes up, and nothing that the door refuses."""

from __future__ import annotations

from collections.abc import Callable

import networkx as nx
import pytest
from hypothesis import Phase, find, given, settings
from hypothesis import strategies as st

from tests.strategies import boats, boats_with_findings, knowledge_bases, shown
from triage.knowledge.compiled.consequences import consequences
from triage.knowledge.model import KnowledgeBase, Rule
from triage.survey.validity import admit

UNSHRUNK = settings(phases=[Phase.generate], database=None)
"""One example is enough; the smallest takes half a minute."""


@pytest.mark.parametrize(
    "has", [lambda rule: rule.suspects, lambda rule: rule.advises, lambda rule: len(rule.raises) == 2]
)
def test_rules_that_do_everything_a_rule_can_do_come_up(has: Callable[[Rule], object]) -> None:
    assert find(knowledge_bases(), lambda kb: any(has(rule) for rule in kb.rules), settings=UNSHRUNK)


@pytest.mark.parametrize("zone", ["", "tank"])
def test_facts_sought_in_vain_come_up_and_are_not_known_as_well(kb: KnowledgeBase, zone: str) -> None:
    wagtail = find(
        boats(kb), lambda boat: any(bool(where) == bool(zone) for _, where in boat.attempted), settings=UNSHRUNK
    )

    assert not {fact for fact, where in wagtail.attempted if not where} & wagtail.facts.keys()


@settings(max_examples=50)
@given(data=st.data())
def test_suspicions_never_lead_back_to_themselves_and_surveys_pass_the_door(data: st.DataObject) -> None:
    kb = data.draw(knowledge_bases())
    suspicions = consequences(kb)

    assert nx.is_directed_acyclic_graph(suspicions)
    admit(kb, *data.draw(boats_with_findings(kb)))


def test_a_knowledge_base_prints_small(kb: KnowledgeBase) -> None:
    small = find(knowledge_bases(rules=2), lambda kb: len(kb.rules) == 2, settings=UNSHRUNK)

    assert len(repr(kb)) < 120
    assert f"{len(kb.rules)} rules" in repr(kb)
    assert 2 + len(small.presumptions) == len(shown(small).splitlines())
