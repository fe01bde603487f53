"""What a boatman makes of rudder, board and case: danger that looks mild, and clearance that looks dangerous."""

from __future__ import annotations

import json
from typing import Any

import pytest

from triage.concluding.assess import assess_survey
from triage.conclusions.assessment import Assessment
from triage.knowledge.model import KnowledgeBase
from triage.survey.read import survey_from_text

Mark = tuple[str, str, dict[str, Any]]

DANGER = {
    "a 60 mm line near the stock that stays shut": (
        "rudder_blade",
        "hairline",
        {"crack_length": 2, "crack_opening": 0},
    ),
    "a blade that swings eight degrees in its box": ("rudder_blade", "play", {"slop": 3, "fitting_play": 3}),
    "a board bent since it hit the bottom": ("board", "foil_warp", {"foil_true": 3, "growth": 2}),
    "a board cracked across": ("board", "foil_warp", {"foil_true": 4, "growth": 0}),
    "an extension joint that opens": ("tiller", "joint_torn", {"crack_opening": 1}),
    "a case that moves": ("case_wall", "play", {"fitting_play": 3}),
}

HARMLESS = {
    "a nibbled edge with a coloured floor": ("rudder_blade", "foil_chip", {"depth": 1}),
    "a board with a millimetre of side play": ("board", "play", {"fitting_play": 2}),
    "a tiller that rocks a little in its head": ("tiller", "play", {"fitting_play": 2, "crack_opening": 0}),
    "a scratch from the slot": ("board", "foil_groove", {"groove": 0}),
    "a board freed by rinsing": ("case_wall", "jammed_board", {"run_free": 1}),
    "a scuff on the stern": ("transom", "scuff", {}),
}

WATCHED = {
    "an edge that is split": (("rudder_blade", "foil_split", {"depth": 1}), "sail"),
    "a still corner at the case": (("case_wall", "corner_crack", {"crack_length": 1, "crack_opening": 0}), "sail"),
    "a worn liner in a still hinge": (
        ("rudder_fittings", "worn_bush", {"slop": 1, "fitting_play": 0}),
        "in light wind near help",
    ),
    "old warp": (("board", "foil_warp", {"foil_true": 3, "growth": 0}), "in light wind near help"),
    "torn slot lips": (("slot_gasket", "gasket_bad", {"seal_state": 2, "fastener_grip": 0}), "sail"),
    "washers behind a hinge": (("rudder_fittings", "nothing_seen", {"fitting_play": 0, "backing": 1}), "sail"),
    "a drip at a still pivot": (
        ("pivot", "open_leak", {"fitting_play": 0, "ingress_rate": 1}),
        "in light wind near help",
    ),
}

JOINED: dict[str, tuple[Mark, Mark]] = {
    "a blow through board and case": (("case_root", "corner_crack", {"crack_length": 2}), ("board", "foil_split", {})),
    "a bent board over a pivot that knocks": (
        ("pivot", "play", {"fitting_play": 1}),
        ("board", "foil_warp", {"foil_true": 2}),
    ),
    "a broken blade and a bent hinge": (
        ("rudder_fittings", "bent_metal", {"metal_shape": 1, "fitting_play": 0, "backing": 0}),
        ("rudder_blade", "foil_split", {"depth": 2}),
    ),
    "a broken blade and a line in the stern": (
        ("transom", "hairline", {"panel_give": 0}),
        ("rudder_blade", "foil_split", {"depth": 2}),
    ),
    "slack that adds up": (
        ("rudder_fittings", "worn_bush", {"slop": 2, "fitting_play": 0}),
        ("rudder_head", "worn_bush", {"slop": 2, "crack_opening": 0}),
    ),
}


def assessed(kb: KnowledgeBase, *marks: Mark) -> Assessment:
    findings = [{"id": zone, "zone": zone, "sign": sign, "readings": readings} for zone, sign, readings in marks]
    facts = {"deck": "single", "hull": "single"}
    return assess_survey(
        survey_from_text(json.dumps({"boat": {"name": "Plover", "facts": facts}, "findings": findings}), kb), kb
    )


@pytest.mark.parametrize("mark", DANGER.values(), ids=DANGER.keys())
def test_what_looks_mild_keeps_her_ashore(kb: KnowledgeBase, mark: Mark) -> None:
    (finding,) = assessed(kb, mark).findings

    assert finding.verdict.best == "structural"
    assert finding.afloat.range.best == "ashore"


@pytest.mark.parametrize("mark", HARMLESS.values(), ids=HARMLESS.keys())
def test_what_everybody_has_is_settled_by_what_was_said(kb: KnowledgeBase, mark: Mark) -> None:
    (finding,) = assessed(kb, mark).findings

    assert (finding.verdict.best, finding.verdict.worst) == ("cosmetic", "cosmetic")
    assert finding.afloat.range.worst == "sail"


@pytest.mark.parametrize(("mark", "afloat"), WATCHED.values(), ids=WATCHED.keys())
def test_wear_is_watched_and_no_more(kb: KnowledgeBase, mark: Mark, afloat: str) -> None:
    (finding,) = assessed(kb, mark).findings

    assert (finding.verdict.best, finding.verdict.worst) == ("monitor", "monitor")
    assert finding.afloat.range.worst == afloat


@pytest.mark.parametrize(("mark", "beside"), JOINED.values(), ids=JOINED.keys())
def test_two_places_say_more_than_each_by_itself(kb: KnowledgeBase, mark: Mark, beside: Mark) -> None:
    alone = assessed(kb, mark).findings[0]
    joined = assessed(kb, mark, beside).findings[0]

    assert alone.verdict.best != "structural"
    assert joined.verdict.best == "structural"


def test_a_bend_nobody_knows_of_old_is_open_until_somebody_does(kb: KnowledgeBase) -> None:
    (finding,) = assessed(kb, ("board", "foil_warp", {"foil_true": "12 mm over 1 m"})).findings

    assert (finding.verdict.best, finding.verdict.worst) == ("monitor", "structural")


def test_bolts_of_a_hinge_over_sound_glass_are_an_hour_for_its_owner(kb: KnowledgeBase) -> None:
    (finding,) = assessed(
        kb, ("rudder_fittings", "eased_tight", {"retight": 1, "fitting_play": 0, "backing": 0})
    ).findings

    assert finding.mending is not None
    assert finding.mending.who == "owner"
    assert finding.mending.hours is not None
    assert finding.mending.hours[1] <= 3
