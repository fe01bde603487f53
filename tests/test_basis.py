"""Where the knowledge comes from: counted, told in DEVELOPERS.md, and published only where the text was read."""

from __future__ import annotations

from tests.conftest import ROOT
from triage.knowledge.basis import BASES, basis_counts, basis_table
from triage.knowledge.model import Basis, KnowledgeBase


def bases(kb: KnowledgeBase) -> list[Basis]:
    return [
        *(rule.basis for rule in kb.all_rules),
        *(scale.basis for scale in kb.scales.values() if scale.basis),
        *(check.basis for check in kb.checks.values()),
        *(cause.basis for cause in kb.causation.causes.values()),
        *(repair.basis for repair in kb.mending.repairs),
    ]


def test_every_statement_is_counted_once(kb: KnowledgeBase) -> None:
    counted = sum(sum(counts.values()) for counts in basis_counts(kb).values())

    assert len(bases(kb)) == counted
    assert {kind for counts in basis_counts(kb).values() for kind in counts} <= set(BASES)


def test_what_is_called_published_names_a_source_that_was_read_and_the_place_in_it(kb: KnowledgeBase) -> None:
    published = [basis for basis in bases(kb) if basis.kind == "published"]

    assert len(published) >= 5
    for basis in published:
        assert kb.sources[basis.source].seen in ("text", "excerpt")
        assert basis.where


def test_the_table_in_the_developers_guide_is_true(kb: KnowledgeBase) -> None:
    told = (ROOT / "DEVELOPERS.md").read_text(encoding="utf-8")

    assert basis_table(kb) in told
