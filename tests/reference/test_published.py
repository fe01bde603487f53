"""Published figures that bear on the rules. Each check carries its source, and what of it was read."""

from __future__ import annotations

import json

import pytest

from triage.inference.evaluate import evaluate
from triage.inference.evaluation import Evaluation
from triage.knowledge.model import AFLOAT, VERDICT, KnowledgeBase
from triage.parsing.quantities import in_unit
from triage.survey.read import survey_from_text

COSMETIC, MONITOR, STRUCTURAL = 0, 1, 2
ASHORE = 3

PANELS = ("topside", "bottom", "foredeck", "side_deck", "cockpit_floor", "stem", "chine", "forefoot")


CHECKED_BY_FIGURES = {
    "skins/cut-fibre",
    "buoyancy/air-test-failed",
    "buoyancy/litre-after-flooding",
    "buoyancy/three-spaces-after-flooding",
}
"""The published rules whose figures are tried here; the others are in published_facts.yaml."""


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

# Whether it reaches below is tried by hand and by ear: a ring alone misses what a press feels.

SURFACE = ("1/16 in", "1.9 mm")
LAMINATE = ("2 mm", "3 mm")


@pytest.mark.parametrize("depth", SURFACE)
def test_surface_damage_that_is_firm_and_rings_is_not_structural_but_lets_water_in(
    kb: KnowledgeBase, depth: str
) -> None:
    zones = offered(kb, "gouge_fibre")

    found = [
        judged(kb, zone, "gouge_fibre", depth=depth, tap_dull="rings", panel_give="firm", crack_length="20 mm")
        for zone in zones
    ]

    assert len(zones) >= 5
    assert {(MONITOR, MONITOR)} == {one.interval(VERDICT) for one in found}
    assert all(one.interval("waterpath")[0] > 0 for one in found)


@pytest.mark.parametrize("depth", SURFACE)
def test_surface_damage_that_only_rings_may_still_go_deeper(kb: KnowledgeBase, depth: str) -> None:
    found = [judged(kb, zone, "gouge_fibre", depth=depth, tap_dull="rings") for zone in offered(kb, "gouge_fibre")]

    assert {(MONITOR, STRUCTURAL)} == {one.interval(VERDICT) for one in found}


@pytest.mark.parametrize("depth", LAMINATE)
def test_damage_of_2_mm_and_more_is_in_the_laminate_and_structural(kb: KnowledgeBase, depth: str) -> None:
    found = [judged(kb, zone, "gouge_fibre", depth=depth) for zone in offered(kb, "gouge_fibre")]

    assert {(STRUCTURAL, STRUCTURAL)} == {one.interval(VERDICT) for one in found}


def test_crazing_means_nothing_by_itself_and_more_over_a_dull_sound(kb: KnowledgeBase) -> None:
    firm = judged(kb, "topside", "crazing", panel_give="firm")
    dull = judged(kb, "topside", "crazing", panel_give="firm", tap_dull="40 mm")

    assert firm.interval(VERDICT) == (COSMETIC, COSMETIC)
    assert dull.interval(VERDICT)[0] >= MONITOR


def test_abrasion_that_no_nail_feels_means_nothing(kb: KnowledgeBase) -> None:
    found = [judged(kb, zone, "flat_worn", depth="0 mm") for zone in offered(kb, "flat_worn")]

    assert {(COSMETIC, COSMETIC)} == {one.interval(VERDICT) for one in found}


def test_abrasion_within_the_coat_has_no_structural_meaning_and_is_not_left(kb: KnowledgeBase) -> None:
    zones = offered(kb, "flat_worn")

    found = [judged(kb, zone, "flat_worn", depth="0.5 mm") for zone in zones]

    assert len(zones) >= 4
    assert {(MONITOR, MONITOR)} == {one.interval(VERDICT) for one in found}
    assert {(0, 0)} == {one.interval(scale) for one in found for scale in ("laminate", "loadpath", AFLOAT)}


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


def test_a_little_in_three_spaces_can_pass_the_two_litres_in_all(kb: KnowledgeBase) -> None:
    boat = {"name": "Wagtail", "facts": {"deck": "single", "hull": "single", "after_swamp_test": "yes"}}
    wet = [("side_tank", "port"), ("side_tank", "starboard"), ("end_tank", None)]
    found = [
        {"zone": zone, "sign": "tank_wet", "readings": {"tank_water": "0.7 L"}, **({"side": side} if side else {})}
        for zone, side in wet
    ]
    survey = survey_from_text(json.dumps({"boat": boat, "findings": found}), kb)

    for one in evaluate(kb, survey.boat, survey.findings):
        assert "buoyancy/three-spaces-after-flooding" in {firing.rule.id for firing in one.lower.firings}
        assert one.interval(VERDICT) == (STRUCTURAL, STRUCTURAL)


# What checks and advice say beside the figure in the text that they are called published from.


@pytest.mark.parametrize(
    ("check", "words"),
    [
        # 43.13-1B, 4-60a(1): a glass of at least 10 power; 7-149d: a cloth over the wire, then 7 power or more
        ("square_and_loupe", ["magnifier", "crack"]),
        ("rag_and_lens", ["rag", "snag", "magnifier"]),
        # 43.13-1B, 5-105: a coin, a known good area, dry; shallow faults in skins under 0.080 in, not behind a core
        ("coin_tap", ["coin", "dry", "twin", "thin skin", "behind a core"]),
        # class rule 34.7 as a fleet describes it: 5 in (127 mm), 30 seconds, T-piece, coloured and soapy water
        ("manometer_test", ["127 mm", "30 seconds", "T-piece", "coloured water", "soapy water"]),
        # 33 CFR 181.23 and 181.25: two numbers on each boat, the model year in the last two characters
        ("number_chain", ["both places", "year in the number"]),
        # government guidance: 1.6 mm; a magazine: rock each wheel, spin it and listen
        ("trailer_round", ["1.6", "listen", "rock the rim", "wheel nut"]),
        # a rope maker: a short section at a time, lumps and thin places
        ("rope_run", ["thin places", "slowly"]),
    ],
)
def test_a_published_check_is_done_as_its_text_says(kb: KnowledgeBase, check: str, words: list[str]) -> None:
    told = " ".join((*kb.checks[check].steps, *kb.checks[check].tools)).casefold()

    assert [] == [word for word in words if word.casefold() not in told]
    assert kb.checks[check].basis.kind == "published"


def test_the_limit_of_the_coin_is_the_skin_of_two_millimetres(kb: KnowledgeBase) -> None:
    limit, depth = in_unit("0.080 in", "mm"), kb.scales["depth"].measure

    assert limit == pytest.approx(2, abs=0.05)
    assert depth is not None
    assert depth.level(limit) == depth.level(2.0)


def test_hole_edges_are_tapered_by_twelve_to_one_at_least(kb: KnowledgeBase) -> None:
    taper = kb.mending.workshop["taper"]

    assert "at least 12 to 1" in taper
    assert "50 to 1" in taper


def test_masts_keep_five_metres_from_overhead_lines(kb: KnowledgeBase) -> None:
    (rule,) = (rule for rule in kb.rules if rule.id == "advice/overhead-lines")

    assert "at least 5 metres" in rule.basis.where
    assert "at least 5 m" in rule.advises[0].say


@pytest.mark.parametrize(
    ("rule", "says"),
    [
        ("spars/failed-spar-is-not-mended-by-hand", "Never straighten, fill or paint it"),
        ("advice/wash-and-dry-blisters", "Wash opened blisters with fresh water"),
        ("advice/dry-before-closing", "dry"),
        ("advice/ring-before-launch", "ring"),
    ],
)
def test_published_advice_says_what_its_text_says(kb: KnowledgeBase, rule: str, says: str) -> None:
    (one,) = (each for each in kb.rules if each.id == rule)

    assert one.basis.kind == "published"
    assert says in " ".join(advice.say for advice in one.advises)
