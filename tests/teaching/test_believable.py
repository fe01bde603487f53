"""What a seasoned trainer would not believe of a drawn boat: laws on many boats, written apart from the rules."""

from __future__ import annotations

from tests.teaching.conftest import findings
from triage.knowledge.model import KnowledgeBase
from triage.teaching.cases import Case
from triage.teaching.drawn import case_named

# What the trade does not read there, written down apart from the rules.
NOT_READ: dict[str, tuple[str, ...]] = {
    "backing": (
        *("mast_low", "mast_high", "spreaders", "boom", "bow_pole", "rudder_blade", "rudder_head", "tiller", "board"),
        *("joint_bow", "joint_side", "joint_stern", "keel_band", "hatch", "drains", "bailer", "pivot", "case_root"),
    ),
    "slop": ("deck_hardware", "toe_strap", "mast_step", "chainplate", "forestay_anchor", "mainsheet_base", "mast_low"),
    "support_fit": ("thwart", "seat_front", "cockpit_floor", "side_deck", "foredeck", "mast_gate", "transom"),
    "seal_state": ("toe_strap", "deck_hardware", "shrouds", "rig_pins", "halyards", "rudder_fittings", "case_root"),
    "extent_access": ("rudder_blade", "rudder_head", "tiller", "board", "bailer", "transom_inside"),
    "core_state": ("mast_low", "mast_high", "spreaders", "boom"),
}


def test_no_learner_is_told_what_the_trade_does_not_read_there(kb: KnowledgeBase, cases: list[Case]) -> None:
    for name, one in findings(cases):
        assert not [scale for scale, zones in NOT_READ.items() if one.zone in zones and scale in one.readings], name
    for scale, zones in NOT_READ.items():
        asked = [zone for zone in zones for sign in kb.offers[zone] if scale in kb.applicable(zone, sign)]
        assert not asked or scale == "core_state", (scale, asked)


def test_a_mark_is_drawn_only_where_its_picture_can_be_seen(cases: list[Case]) -> None:
    outside = {"stem", "forefoot", "bottom", "chine", "topside", "aft_run", "transom", "stern_corner", "keel_band"}

    assert not [name for name, one in findings(cases) if one.sign == "corner_crack" and one.zone in outside]
    assert not [
        name for name, one in findings(cases) if one.sign == "worn_bush" and one.zone in ("case_root", "mast_step")
    ]


def test_a_boat_weighs_the_same_wherever_it_is_asked_about(kb: KnowledgeBase) -> None:
    several = 0
    for seed in range(40):
        case = case_named(kb, f"{seed}:core_wet")
        weights = [one.readings["boat_weight"].said for one in case.truth.findings if "boat_weight" in one.readings]
        assert len(set(weights)) <= 1, seed
        several += len(weights) > 1
    assert several


def test_a_boat_is_built_of_what_its_marks_are_of(kb: KnowledgeBase) -> None:
    for seed in range(12):
        facts = {
            sign: case_named(kb, f"{seed}:{sign}").truth
            for sign in ("core_wet", "spar_rot", "carbon_mark", "wire_fray")
        }
        assert "single" != facts["core_wet"].boat.facts.get("deck") or facts["core_wet"].findings[0].zone in HULL
        assert facts["spar_rot"].boat.facts.get("spar") in (None, "alloy")
        assert facts["carbon_mark"].boat.facts.get("spar") in (None, "carbon")
        assert "fibre" != facts["wire_fray"].boat.facts.get("standing_rigging")
        wood = case_named(kb, f"{seed}:mast_high:wood_soft").truth
        assert "wood" == wood.boat.facts["spar"]


HULL = {
    "bottom",
    "topside",
    "inner_skin",
    "bulkhead",
    "stiffener",
    "chainplate_under",
    "transom_inside",
    "rudder_fittings",
}


def test_what_was_screwed_to_bare_skin_has_nothing_behind_it(kb: KnowledgeBase) -> None:
    cases = [case_named(kb, f"{seed}:{mark}") for mark in ("play", "fastener_cracks", "no_pad") for seed in range(30)]
    bare = [case for case in cases if case.cause == "no_backing"]

    assert bare
    assert all(one.upper.get("backing", 2) >= 2 for case in bare for one in case.truth.findings)


def test_what_is_missing_has_a_name_and_what_was_done_has_a_place(kb: KnowledgeBase, cases: list[Case]) -> None:
    missing = [case_named(kb, f"1:{zone}:missing_gear") for zone in ("drains", "hatch", "toe_strap", "rudder_fittings")]
    gone = [one for case in missing for one in case.truth.findings if one.sign == "missing_gear"]
    assert all(one.note.startswith("What is missing: ") for one in gone)
    assert all(one.note for _, one in findings(cases) if one.sign == "missing_gear")
    done = [case for case in cases for one in case.truth.events if kb.happenings.events[one.event].kind == "done"]
    assert done
    assert all(case.shown.note.startswith("It was done here: ") for case in done)


def test_every_place_where_a_part_may_be_missing_says_which(kb: KnowledgeBase) -> None:
    nameless = [zone for zone, signs in kb.offers.items() if "missing_gear" in signs]

    assert not [zone for zone in nameless if not kb.frequencies.absent.get((zone, "missing_gear"))]
