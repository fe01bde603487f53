"""Where the knowledge comes from: every statement is counted once, and published only where the text was read."""

from __future__ import annotations

from collections import Counter

import pytest

from tests.mistakes import small_base
from triage.knowledge.basis import BASES, basis_counts, basis_name
from triage.knowledge.model import Basis, KnowledgeBase
from triage.phrases.words import basis_words


def bases(kb: KnowledgeBase) -> list[Basis]:
    return [
        *(rule.basis for rule in kb.all_rules),
        *(scale.basis for scale in kb.scales.values() if scale.basis),
        *(check.basis for check in kb.checks.values()),
        *(cause.basis for cause in kb.causation.causes.values()),
        *(event.basis for event in kb.happenings.events.values()),
        *(rule.basis for rule in kb.happenings.rules),
        *(repair.basis for repair in kb.mending.repairs),
        *kb.purchase.bases(),
    ]


def test_every_statement_is_counted_once(kb: KnowledgeBase) -> None:
    counts = basis_counts(kb)

    assert Counter(basis_name(basis) for basis in bases(kb)) == sum(counts.values(), Counter())
    assert set(BASES) >= {kind for counted in counts.values() for kind in counted}


@pytest.mark.parametrize("basis", ["estimate", "common practice"])
def test_a_new_rule_is_counted_under_its_basis_and_nothing_else_changes(basis: str) -> None:
    rule = f"""
rules:
  - id: a/rule
    when: {{zone: stem}}
    raises: {{laminate: 1}}
    because: It shows.
    basis: {basis}
    cases:
      - {{given: {{zone: stem}}, expect: fires}}
      - {{given: {{zone: tank}}, expect: silent}}
"""
    before, after = basis_counts(small_base()), basis_counts(small_base(rule=rule))

    assert Counter({basis: 1}) == after.pop("rules") - before.pop("rules")
    assert before == after


def test_what_is_called_published_names_a_source_that_was_read_and_the_place_in_it(kb: KnowledgeBase) -> None:
    published = [basis for basis in bases(kb) if basis.kind == "published"]

    assert published
    for basis in published:
        assert kb.sources[basis.source].seen in ("text", "excerpt")
        assert basis.where


def test_what_an_aircraft_text_says_is_never_told_as_if_it_spoke_of_boats(kb: KnowledgeBase) -> None:
    for basis in bases(kb):
        if basis.source and kb.sources[basis.source].about == "aircraft":
            assert basis.analogy == "aircraft"


def test_a_figure_of_another_trade_names_that_trade_and_is_counted_by_itself() -> None:
    said = "    source: {}\n    where: page 3\n    by_analogy: {}"

    kb = small_base((said.format("LEAFLET", "no"), said.format("ROPEWAY", "yes")))

    (rule,) = (rule for rule in kb.rules if rule.id == "anchor/moves")
    assert Basis("published", "ROPEWAY", "page 3", "ropeways") == rule.basis
    assert "published by analogy with ropeways: ROPEWAY, page 3" == basis_words(rule.basis)
    assert (0, 1) == tuple(basis_counts(kb)["rules"][of] for of in ("published", "by analogy"))
