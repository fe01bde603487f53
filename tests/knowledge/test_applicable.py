"""By which scales a mark is judged, as its place, its sign and what has no meaning there have it."""

from __future__ import annotations

from dataclasses import replace

from triage.knowledge.model import KnowledgeBase

BACK_LIES_OPEN = ("inner_skin", "transom_inside", "chainplate_under", "bailer")


def test_nobody_is_asked_for_a_back_that_is_the_outside(kb: KnowledgeBase) -> None:
    asked = {zone: {scale for sign in kb.offers[zone] for scale in kb.applicable(zone, sign)} for zone in kb.zones}

    assert not [zone for zone in BACK_LIES_OPEN if "extent_access" in asked[zone]]
    assert all("extent_access" in asked[zone] for zone in ("bottom", "topside", "transom", "chainplate", "bulkhead"))


def test_what_is_not_asked_at_a_place_takes_nothing_else_away(kb: KnowledgeBase) -> None:
    bottom = replace(kb.zones["bottom"], not_asked=frozenset({"tap_dull"}))
    without = replace(kb, zones={**kb.zones, "bottom": bottom})

    for sign in kb.offers["bottom"]:
        left = tuple(scale for scale in kb.applicable("bottom", sign) if scale != "tap_dull")
        assert left == without.applicable("bottom", sign)
        assert kb.applicable("chine", sign) == without.applicable("chine", sign)
