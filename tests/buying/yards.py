"""The boats of Westkade: one sound boat, and what is changed about her and about the sale. All of it is invented."""

from __future__ import annotations

import json
from collections.abc import Callable, Mapping, Sequence
from functools import cache
from typing import Any

from tests.conftest import ROOT
from triage.buying.advice import PurchaseAdvice, advise_purchase
from triage.buying.read_offer import offer_from
from triage.concluding.assess import assess_survey
from triage.conclusions.assessment import Assessment
from triage.knowledge.model import KnowledgeBase
from triage.knowledge.per_knowledge import per_knowledge
from triage.parsing.documents import read_document
from triage.survey.read import survey_from

MENDED: dict[str, dict[str, Any]] = {
    "joint_bow": {"joint_gap": "closed"},
    "chainplate": {"fitting_play": "still", "backing": "full pad", "metal_shape": "straight"},
    "mast_step": {"fitting_play": "still", "fastener_grip": "all firm", "shape_error": 0, "wet_weep": 0},
    "mast_low": {"spar_wall": "scratches only", "spar_true": "straight", "fastener_grip": "all firm"},
    "mast_high": {"spar_wall": "scratches only", "spar_true": "straight", "fastener_grip": "all firm"},
    "rudder_fittings": {"fitting_play": "still", "slop": "snug", "backing": "full pad"},
    "end_tank": {"tank_seal": "105 mm"},
    "trailer_run": {"road_gear": "quiet and sound"},
}
TRIED_TOO: dict[str, dict[str, Any]] = {"tie_downs": {"cloth_state": "firm", "fastener_grip": "all firm"}}
"""What makes the walk-round of the example one of a sound boat: other answers there, and what was left out there."""

OFFER: dict[str, Any] = {"offer": 1, "currency": "EUR", "year": 2026, "sound": [2600, 3000], "asking": 2400}

Finding = Mapping[str, Any]


@cache
def walk_round() -> str:
    """The walk-round of the example, as JSON."""
    text = (ROOT / "examples" / "buyers-walk-round.yaml").read_text(encoding="utf-8")
    return json.dumps(read_document(text, "walk-round").value)


@per_knowledge
def assessed(kb: KnowledgeBase, survey: str) -> Assessment:
    """What a survey in JSON comes to; a story at Westkade asks about one boat under several offers."""
    return assess_survey(survey_from(json.loads(survey), kb), kb)


def sound_boat() -> dict[str, Any]:
    """The survey of a boat whose every main place was tried and passed; her marks are looks."""
    survey: dict[str, Any] = json.loads(walk_round())
    for finding in survey["findings"]:
        if finding["zone"] in MENDED:
            finding.pop("note", None)
            finding |= {"sign": "nothing_seen", "readings": dict(MENDED[finding["zone"]])}
    survey["findings"] += [
        {"zone": zone, "sign": "nothing_seen", "readings": dict(readings)} for zone, readings in TRIED_TOO.items()
    ]
    return survey


def purchase(
    kb: KnowledgeBase,
    *found: Finding,
    without: Sequence[str] = (),
    told: Mapping[str, Any] | None = None,
    **offer: Any,
) -> PurchaseAdvice:
    """What to do about the sound boat with these findings in place of hers; ``without`` these places; None takes a
    figure out of the offer.
    """
    survey = sound_boat()
    changed = {(one["zone"], one.get("side")) for one in found}
    survey["findings"] = [
        one
        for one in survey["findings"]
        if (one["zone"], one.get("side")) not in changed and one["zone"] not in without
    ] + [dict(one) for one in found]
    survey |= dict(told or {})
    given = {key: value for key, value in {**OFFER, **offer}.items() if value is not None}
    return advise_purchase(assessed(kb, json.dumps(survey)), offer_from(given, kb), kb)


Advise = Callable[..., PurchaseAdvice]

SEAM = {"zone": "joint_bow", "sign": "joint_crack", "readings": {"joint_gap": "takes foil", "crack_length": "80 mm"}}
OPEN_ANCHOR = {"zone": "chainplate", "side": "port", "sign": "fastener_cracks", "readings": {"crack_length": "25 mm"}}
WORN_TYRE = {"zone": "trailer_run", "sign": "tyre_old", "readings": {"road_gear": "cracked or rough"}}
ALTERED = {"zone": "identity", "sign": "id_odd", "readings": {"id_match": "the number has been ground off"}}
FADE = {"zone": "topside", "side": "starboard", "sign": "chalky_fade"}
STEP = {"zone": "mast_step", "sign": "play", "readings": {"fitting_play": 3}}
CASE = {"zone": "case_root", "sign": "hairline", "readings": {"crack_opening": 3, "crack_length": "200 mm"}}
