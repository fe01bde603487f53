"""Published figures that bear on the rules. Each check carries its source, and what of it was read."""

from __future__ import annotations

import json

import pytest

from triage.inference.evaluate import evaluate
from triage.inference.evaluation import Evaluation
from triage.knowledge.model import AFLOAT, VERDICT, KnowledgeBase
from triage.survey.read import survey_from_text

COSMETIC, MONITOR, STRUCTURAL = 0, 1, 2
ASHORE = 3

PANELS = ("topside", "bottom", "foredeck", "side_deck", "cockpit_floor", "stem", "chine", "forefoot")


def judged(
    kb: KnowledgeBase, zone: str, sign: str, *, facts: dict[str, str] | None = None, **readings: str
) -> Evaluation:
    """The mark with these readings, as measured, on an ordinary boat."""
    boat = {"name": "Wagtail", "facts": {"deck": "single", "hull": "single", **(facts or {})}}
    found = [{"zone": zone, "sign": sign, "readings": readings}]
    survey = survey_from_text(json.dumps({"boat": boat, "findings": found}), kb)
    return evaluate(kb, survey.boat, survey.findings)[0]


def offered(kb: KnowledgeBase, sign: str) -> list[str]:
    return [zone for zone in PANELS if sign in kb.offers[zone]]


# Marine Composites (E. Greene), chapter 5, "Repair", after naval work by Kadala and Gregory; excerpt read in a copy.
# Surface damage: cracks, crazing, abrasion and blisters, typically less than 1/16 in (about 2 mm) deep and not into the
# main reinforcement, have no structural meaning of their own, but let water in if they are left; crazing may point to
# high stress or to damage below. Laminate damage reaches into the reinforcement. (1/16 in is 1.59 mm: it rounds.)

SURFACE = ("1/16 in", "1.9 mm")
LAMINATE = ("2 mm", "3 mm")


@pytest.mark.parametrize("depth", SURFACE)
def test_surface_damage_that_rings_is_not_structural_but_lets_water_in(kb: KnowledgeBase, depth: str) -> None:
    zones = offered(kb, "gouge_fibre")

    found = [judged(kb, zone, "gouge_fibre", depth=depth, tap_dull="rings", crack_length="20 mm") for zone in zones]

    assert len(zones) >= 5
    assert {(MONITOR, MONITOR)} == {one.interval(VERDICT) for one in found}
    assert all(one.interval("waterpath")[0] > 0 for one in found)


@pytest.mark.parametrize("depth", LAMINATE)
def test_damage_of_2_mm_and_more_is_in_the_laminate_and_structural(kb: KnowledgeBase, depth: str) -> None:
    found = [judged(kb, zone, "gouge_fibre", depth=depth) for zone in offered(kb, "gouge_fibre")]

    assert {(STRUCTURAL, STRUCTURAL)} == {one.interval(VERDICT) for one in found}


def test_crazing_means_nothing_by_itself_and_more_over_a_dull_sound(kb: KnowledgeBase) -> None:
    firm = judged(kb, "topside", "crazing", panel_give="firm")
    dull = judged(kb, "topside", "crazing", panel_give="firm", tap_dull="40 mm")

    assert firm.interval(VERDICT) == (COSMETIC, COSMETIC)
    assert dull.interval(VERDICT)[0] >= MONITOR


def test_abrasion_within_the_coat_means_nothing_by_itself(kb: KnowledgeBase) -> None:
    found = [judged(kb, zone, "flat_worn", depth="0.5 mm") for zone in offered(kb, "flat_worn")]

    assert {(COSMETIC, COSMETIC)} == {one.interval(VERDICT) for one in found}


# Air test of closed spaces: class rule 34.7 of one dinghy class, as a fleet describes it; the page was read
# (parkstonewayfarers.org.uk). 5 in (127 mm) of water at the start, at least 2 in left after 30 seconds.

TANKS = ("side_tank", "end_tank")


@pytest.mark.parametrize("zone", TANKS)
@pytest.mark.parametrize("left", ["2 in", "51 mm", "60 mm"])
def test_a_space_that_keeps_two_inches_of_five_passes_the_class_test(kb: KnowledgeBase, zone: str, left: str) -> None:
    best, _ = judged(kb, zone, "nothing_seen", tank_seal=left).interval(VERDICT)

    assert best < STRUCTURAL


@pytest.mark.parametrize("zone", TANKS)
@pytest.mark.parametrize("left", ["1.9 in", "50 mm", "10 mm"])
def test_a_space_that_keeps_less_fails_it_and_keeps_her_ashore(kb: KnowledgeBase, zone: str, left: str) -> None:
    failed = judged(kb, zone, "nothing_seen", tank_seal=left)

    assert failed.interval(VERDICT) == (STRUCTURAL, STRUCTURAL)
    assert failed.interval(AFLOAT) == (ASHORE, ASHORE)


# Swamp test: rule H.8 of another class, in a Dutch summary that was read (cadetnews.be). Flooded for 15 minutes with
# 125 kg of crew and laid on each side for a minute, at most 1 litre in any one space.


@pytest.mark.parametrize("zone", TANKS)
def test_more_than_a_litre_in_a_space_after_a_swamp_test_keeps_her_ashore(kb: KnowledgeBase, zone: str) -> None:
    swamped = {"after_swamp_test": "yes"}

    allowed = judged(kb, zone, "tank_wet", facts=swamped, tank_water="0.9 L")
    too_much = judged(kb, zone, "tank_wet", facts=swamped, tank_water="1.1 L")

    assert allowed.interval(VERDICT)[0] < STRUCTURAL
    assert too_much.interval(VERDICT) == (STRUCTURAL, STRUCTURAL)
    assert too_much.interval(AFLOAT) == (ASHORE, ASHORE)


def test_every_published_rule_that_raises_something_is_checked_here(kb: KnowledgeBase) -> None:
    published = {rule.id for rule in kb.rules if rule.basis.kind == "published" and rule.raises}

    assert published == {"skins/cut-fibre", "buoyancy/air-test-failed", "buoyancy/litre-after-flooding"}
