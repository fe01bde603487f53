"""What rules make of each other, as far as their conditions show."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.mistakes import small_base
from tests.strategies import boats_with_findings, knowledge_bases
from triage.inference.evaluate import evaluate
from triage.knowledge.model import KnowledgeBase, Rule
from triage.lint.relations import neighbours, presumptions_about, repairs_for, rules_raising, statements_reading

RULE = """
rules:
  - id: a/rule
    when: {when}
    raises: {raises}
    because: It shows.
    basis: estimate
    cases:
      - {{given: {{zone: stem}}, expect: fires}}
      - {{given: {{zone: tank}}, expect: silent}}
"""


def rule_of(kb: KnowledgeBase, id_: str) -> Rule:
    return next(rule for rule in kb.rules if rule.id == id_)


def related(when: str, raises: str) -> tuple[str, bool, bool]:
    kb = small_base(rule=RULE.format(when=when, raises=raises))
    first = neighbours(kb, rule_of(kb, "a/rule"))[0]
    return first.rule.id, first.subsumes, first.subsumed


@pytest.mark.parametrize(
    ("when", "raises", "expected"),
    [
        ("{zone: stem, panel_give: {at_least: 1}}", "{laminate: 1}", ("panel/gives", True, False)),
        ("{zone: [stem, side_deck], panel_give: {at_least: 1}}", "{laminate: 1}", ("panel/gives", True, True)),
        ("{zone: stem, panel_give: {at_least: 1}}", "{laminate: 2}", ("panel/gives", False, False)),
        ("{zone: [stem, side_deck, tank], panel_give: {at_least: 1}}", "{laminate: 2}", ("panel/gives", False, True)),
        ("{zone: tank, leak_rate: {at_least: 2}}", "{afloat: 1}", ("tank/leaks", True, False)),
        ("{zone: stem, deck: single, panel_give: {at_least: 1}}", "{laminate: 1}", ("panel/gives", True, False)),
        ("{zone: stem}", "{laminate: 1}", ("panel/gives", False, False)),
    ],
)
def test_a_rule_that_another_makes_idle_is_seen_on_either_side(
    when: str, raises: str, expected: tuple[str, bool, bool]
) -> None:
    assert expected == related(when, raises)


@settings(max_examples=20)
@given(data=st.data())
def test_whatever_subsumes_a_rule_fires_whenever_it_does(data: st.DataObject) -> None:
    kb = data.draw(knowledge_bases())
    boat, found = data.draw(boats_with_findings(kb, most=2))
    wider = {rule: [one.rule for one in neighbours(kb, rule) if one.subsumes] for rule in kb.rules}

    for judged in evaluate(kb, boat, found):
        for end in (judged.lower, judged.upper):
            fired = {firing.rule for firing in end.firings}
            for rule in fired:
                assert set(wider[rule]) <= fired


def test_presumptions_repairs_and_readers_of_a_scale_are_found() -> None:
    mend = """
repairs:
  - id: mend/glass
    name: Glass
    when: {laminate: {at_least: 1}}
    who: repairer
    outline: [It is mended.]
    meanwhile: No.
    basis: estimate
"""
    kb = small_base(mend=mend)

    assert ["mend/glass"] == [repair.id for repair in repairs_for(kb, rule_of(kb, "panel/gives"))]
    assert [] == list(repairs_for(kb, rule_of(kb, "tank/leaks")))
    assert ["presume/firm-deck"] == [
        one.id for one in presumptions_about(kb, ["crack_length"], [("side_deck", "hairline")])
    ]
    assert () == presumptions_about(kb, ["crack_length"], [("stem", "hairline")])
    assert ["tank/runs", "verdict/glass-broken"] == [rule.id for rule in rules_raising(kb, "verdict", 2)]
    assert ["tank/leaks", "tank/runs"] == [one.id for one in statements_reading(kb, "leak_rate")]
