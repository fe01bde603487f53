"""A short way passes a part that has neither a mark nor a suspicion, and nothing else."""

from __future__ import annotations

import pytest

from tests.conftest import ROOT
from triage.concluding.assess import assess_survey
from triage.knowledge.store.load import load_knowledge
from triage.survey.model import Boat, Finding, Reading, Survey

KB = load_knowledge(ROOT / "rules")


def passed(zone: str, scales: list[str], facts: dict[str, str], *others: Finding) -> bool:
    look = Finding("look", zone, "nothing_seen", readings={scale: Reading.at(0) for scale in scales})
    return assess_survey(Survey(Boat("Wagtail", facts), (look, *others)), KB).finding("look").passed


@pytest.mark.parametrize(
    ("zone", "scales", "facts"),
    [
        ("rudder_fittings", ["fitting_play", "fastener_grip", "slop"], {}),
        ("side_tank", ["tank_water"], {"after_swamp_test": "yes"}),
        ("end_tank", ["tank_water"], {"after_swamp_test": "yes"}),
    ],
)
def test_a_short_way_passes_a_part_unless_a_mark_is_there(zone: str, scales: list[str], facts: dict[str, str]) -> None:
    mark = Finding("mark", zone, next(sign for sign in KB.offers[zone] if sign != "nothing_seen"))

    assert passed(zone, scales, facts)
    assert not passed(zone, scales[1:], facts)
    assert not passed(zone, scales, facts, mark)


def test_a_tank_found_dry_after_sailing_upright_is_not_passed() -> None:
    assert not passed("side_tank", ["tank_water"], {"after_swamp_test": "no"})
