"""What a survey says about causes: marks found, marks looked for in vain, and answers."""

from __future__ import annotations

import pytest

from triage.causes.evidence import Evidence, evidence, network_of
from triage.causes.referrals import referrals_of
from triage.coverage import Coverage
from triage.inference.forward import forward
from triage.knowledge.model import KnowledgeBase
from triage.lint.causes import cause_problems
from triage.survey.read import survey_from_text

PASSED = "{zone: topside, sign: nothing_seen, readings: {panel_give: firm}}"


def read(kb: KnowledgeBase, findings: str, boat: str = "{name: Ruff}") -> Evidence:
    survey = survey_from_text(f"boat: {boat}\nfindings: [{findings}]", kb)
    coverage = Coverage(kb, survey, forward(kb, survey.boat, survey.findings))
    return evidence(coverage, referrals_of(coverage))


def test_a_mark_that_some_cause_leaves_is_found_with_the_findings_behind_it(kb: KnowledgeBase) -> None:
    known = read(kb, "{zone: topside, side: port, sign: scuff}, {zone: topside, side: starboard, sign: scuff}")

    assert ["topside.port.scuff", "topside.starboard.scuff"] == [f.id for f in known.found["topside", "scuff"]]


@pytest.mark.parametrize(
    ("findings", "attempted"),
    [
        ("{zone: mast_high, sign: nothing_seen, readings: {spar_true: straight}}", True),
        ("{zone: mast_high, sign: nothing_seen}", False),  # a bare look
        ("{zone: mast_high, sign: scuff}", False),  # nobody sighted along it
        ("{zone: mast_low, sign: nothing_seen, readings: {spar_true: straight}}", False),  # another place
        ("", False),
        ("{zone: mast_high, sign: nothing_seen, readings: {spar_true: bent}}", False),  # something is wrong there
        ("{zone: mast_high, sign: spar_bend}", False),  # found
    ],
)
def test_a_mark_is_missing_only_where_somebody_looked_for_it(kb: KnowledgeBase, findings: str, attempted: bool) -> None:
    assert attempted == (("mast_high", "spar_bend") in read(kb, findings).missing)


@pytest.mark.parametrize(
    ("findings", "attempted"),
    [
        (PASSED, True),
        (f"{PASSED[:-1]}, side: port}}", False),
        (f"{PASSED[:-1]}, side: port}}, {PASSED[:-1]}, side: starboard}}", True),
        (f"{PASSED[:-1]}, side: port}}, {{zone: topside, side: starboard, sign: nothing_seen}}", False),
    ],
)
def test_of_a_part_with_two_sides_both_must_be_looked_at(kb: KnowledgeBase, findings: str, attempted: bool) -> None:
    assert attempted == (("topside", "star_crack") in read(kb, findings).missing)


def test_an_old_repair_counts_wherever_it_is_and_is_never_looked_for_in_vain(kb: KnowledgeBase) -> None:
    mark = ("anywhere", "old_repair")

    assert mark in read(kb, "{zone: transom, sign: old_repair}").found
    assert mark not in read(kb, "{zone: transom, sign: nothing_seen}").missing


def test_a_cause_is_ruled_out_on_a_boat_that_is_built_otherwise(kb: KnowledgeBase) -> None:
    assert "core_leak" in read(kb, "", "{name: Ruff, facts: {deck: single}}").ruled_out
    assert "core_leak" not in read(kb, "", "{name: Ruff, facts: {deck: cored}}").ruled_out
    assert "core_leak" not in read(kb, "").ruled_out


def test_a_mark_that_another_finding_explains_is_known_to_follow(kb: KnowledgeBase) -> None:
    open_seam = "{zone: joint_stern, sign: joint_crack, readings: {joint_gap: 3, tank_seal: 3}}"
    wet = "{zone: end_tank, sign: tank_wet}"

    assert {("end_tank", "tank_wet")} == read(kb, f"{open_seam}, {wet}").follows
    assert frozenset() == read(kb, wet).follows


def test_the_shipped_causes_can_be_weighed_exactly_and_every_follow_up_can_matter(kb: KnowledgeBase) -> None:
    weights = kb.causation.weights
    assert weights is not None

    assert network_of(kb, weights).width <= 12
    assert [] == list(cause_problems(kb))
