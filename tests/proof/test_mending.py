"""The law about hands and repairs holds of the shipped rules in a place, and notices a repair that is spoilt."""

from __future__ import annotations

from dataclasses import replace

import pytest

from triage.knowledge.model import KnowledgeBase
from triage.proof.mending import mending_claims
from triage.proof.run import Answer, Asker, claims_of

ZONE = "toe_strap"


def answers(kb: KnowledgeBase) -> list[Answer]:
    (number,) = (number for number, claim in enumerate(claims_of(kb)) if claim.id == "law/hands-and-repair")
    return Asker(kb, {}).do((ZONE, (number,)))


def without(kb: KnowledgeBase, *ids: str) -> KnowledgeBase:
    kept = tuple(one for one in kb.mending.repairs if one.id not in ids)
    return replace(kb, mending=replace(kb.mending, repairs=kept))


def test_hands_and_repairs_say_the_same_of_every_mark_in_a_place(kb: KnowledgeBase) -> None:
    told = answers(kb)

    assert len(kb.offers[ZONE]) == len(told)
    assert not [one for one in told if one.found or one.undecided]


def test_where_a_repairer_is_asked_for_and_no_repair_is_theirs_an_example_is_shown(kb: KnowledgeBase) -> None:
    theirs = [one.id for one in kb.mending.repairs if one.who == kb.level_of("hands", "professional")]
    broken = [one for one in answers(without(kb, *theirs)) if one.found]

    assert broken
    assert all(ZONE in one.examples[0] for one in broken)
    assert any(one.confirmed for one in broken)


def test_hands_below_the_repair_would_break_it(kb: KnowledgeBase, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("triage.proof.mending._hands", lambda state, told, level: state.level("hands", level))
    monkeypatch.setattr(
        "triage.proof.mending.hands_for", lambda judged, repair, bound: judged.end(bound).level("hands")
    )

    broken = [one for one in answers(kb) if one.found]

    assert broken
    assert all(one.confirmed for one in broken)


def test_nothing_is_claimed_where_there_are_no_repairs(kb: KnowledgeBase) -> None:
    assert not list(mending_claims(without(kb, *(one.id for one in kb.mending.repairs))))
