"""What a repairer says to everyday glass: which marks settle, what limits sailing, and which marks are one damage."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from triage.conclusions.assessment import Assessment
from triage.knowledge.model import KnowledgeBase

Assess = Callable[[str], Assessment]


def told(assess_text: Assess, findings: str, facts: str = "") -> Assessment:
    return assess_text(f"boat: {{name: Wagtail{facts}}}\nfindings: [{findings}]")


def test_a_seam_adds_its_own_readings_to_a_chip(kb: KnowledgeBase) -> None:
    assert "joint_gap" in kb.applicable("joint_side", "edge_chip")
    assert "joint_gap" not in kb.applicable("stem", "edge_chip")


@pytest.mark.parametrize(
    ("findings", "facts", "verdict", "afloat"),
    [
        ("{zone: joint_side, side: port, sign: edge_chip, readings: {depth: 1}}", "", "cosmetic", "sail"),
        ("{zone: transom, sign: void_chip, readings: {depth: 1}}", "", "cosmetic", "sail"),
        ("{zone: joint_side, side: port, sign: scuff}", "", "cosmetic", "sail"),
        (
            "{zone: bottom, side: port, sign: blister, readings: {blistering: 2, panel_give: 0}}",
            ", facts: {hull: single}",
            "monitor",
            "sail",
        ),
        (
            "{zone: joint_side, side: port, sign: trim_rot, readings: {wood_state: 3, joint_gap: 0}}",
            "",
            "monitor",
            "sail",
        ),
        ("{zone: joint_side, side: port, sign: trim_torn, readings: {joint_gap: 0}}", "", "monitor", "sail"),
        (
            "{zone: bulkhead, sign: lifted_bond, readings: {joint_gap: 1, tap_dull: 0}}",
            "",
            "monitor",
            "in light wind near help",
        ),
        (
            "{zone: side_deck, side: port, sign: dull_tap, readings: {tap_dull: 1, panel_give: 1}}",
            ", facts: {deck: single}",
            "monitor",
            "in light wind near help",
        ),
        (
            "{zone: side_deck, side: port, sign: dull_tap, readings: {tap_dull: 1, panel_give: 1}}",
            ", facts: {deck: cored}",
            "structural",
            "ashore",
        ),
        (
            "{zone: foredeck, sign: dent, readings: {shape_error: 1, panel_give: 0, tap_dull: 1}}",
            ", facts: {deck: cored}",
            "monitor",
            "sail",
        ),
        ("{zone: thwart, sign: corner_crack, readings: {panel_give: 0, crack_opening: 0}}", "", "monitor", "sail"),
    ],
)
def test_what_a_mark_comes_to(
    kb: KnowledgeBase, assess_text: Assess, findings: str, facts: str, verdict: str, afloat: str
) -> None:
    (mark,) = told(assess_text, findings, facts).findings

    assert (verdict, verdict) == (mark.verdict.best, mark.verdict.worst)
    assert afloat == mark.afloat.now


def test_a_scuff_on_carbon_is_tapped_before_it_is_looks_only(assess_text: Assess) -> None:
    scuff = "{zone: mast_low, sign: scuff}"
    (alloy,) = told(assess_text, scuff, ", facts: {spar: alloy}").findings
    (carbon,) = told(assess_text, scuff, ", facts: {spar: carbon}").findings

    assert "cosmetic" == alloy.verdict.worst
    assert "monitor" == carbon.verdict.best


def test_a_bruised_nose_and_a_line_in_its_seam_are_one_blow(assess_text: Assess) -> None:
    seam = "{zone: joint_bow, sign: joint_crack, readings: {joint_gap: 1, crack_opening: 0}}"
    alone, *_ = told(assess_text, seam).findings
    together, *_ = told(assess_text, f"{seam}, {{zone: stem, sign: edge_chip, readings: {{depth: 2}}}}").findings

    assert "monitor" == alone.verdict.worst
    assert "structural" == together.verdict.best


def test_two_marks_outside_and_a_pale_place_inside_are_a_blow_that_came_through(assess_text: Assess) -> None:
    star, *_ = told(
        assess_text,
        "{zone: bottom, side: port, sign: star_crack},"
        "{zone: chine, side: port, sign: gouge_fibre, readings: {depth: 2}},"
        "{zone: inner_skin, side: port, sign: white_bruise}",
    ).findings

    assert "structural" == star.verdict.best
