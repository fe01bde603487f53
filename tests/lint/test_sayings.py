"""Repairs that say otherwise than the rules."""

from __future__ import annotations

from dataclasses import replace

from triage.knowledge.model import KnowledgeBase
from triage.lint.repairs import repair_problems
from triage.lint.sayings import contradicted_repairs


def changed(kb: KnowledgeBase, repair: str, **what: object) -> KnowledgeBase:
    """The knowledge with one repair that says something else."""
    repairs = tuple(replace(one, **what) if one.id == repair else one for one in kb.mending.repairs)  # type: ignore[arg-type]
    return replace(kb, mending=replace(kb.mending, repairs=repairs))


def only(kb: KnowledgeBase, *zones: str) -> KnowledgeBase:
    """The knowledge for marks in a few places: enough for what is wrong with one repair, and done in a moment."""
    return replace(kb, offers={zone: kb.offers[zone] for zone in zones})


def test_a_holding_that_a_rule_forbids_is_told_with_both_sentences(kb: KnowledgeBase) -> None:
    holding = "Grease it, and then move it slowly over a short way."

    spoilt = changed(only(kb, "trailer_run"), "mend/trailer-gear", holding=holding)

    told = {one.what for one in contradicted_repairs(spoilt)}

    assert [
        f"mend/trailer-gear says “{holding}”, and where it is shown trailer/not-fit-for-the-road says "
        "“Never tow on it, not even slowly or a short way, however good the boat is.”"
    ] == list(told)


def test_a_repair_in_hands_that_are_never_enough_is_told(kb: KnowledgeBase) -> None:
    told = {one.what for one in contradicted_repairs(changed(only(kb, "mast_step"), "mend/core", who=1))}

    assert ["mend/core says owner, and wherever it is shown the rules say handy owner"] == list(told)


def test_a_repairers_repair_in_an_owners_hands_is_told_because_it_is_never_shown(kb: KnowledgeBase) -> None:
    told = {one.what for one in repair_problems(changed(only(kb, "bottom"), "mend/hole", who=1))}

    assert "mend/hole is never shown: nothing fits it, or an earlier repair always does" in told
