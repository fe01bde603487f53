"""What to look at next: answered checks drop out, sides, places that a boat lacks, and what is found or cleared."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from triage.conclusions.assessment import Assessment
from triage.conclusions.diagnosis import PlanLine
from triage.knowledge.model import KnowledgeBase
from triage.phrases.boat import path

Assess = Callable[[str], Assessment]

AGROUND = "{zone: board, sign: foil_split}, {zone: forefoot, sign: gouge_fibre}"


def boat(*findings: str, facts: str = "{}") -> str:
    return f"boat: {{name: Ruff, facts: {facts}}}\nfindings: [{', '.join(findings)}]"


def plan(assessment: Assessment) -> dict[str, PlanLine]:
    return {f"{line.zone}/{line.check}": line for stop in assessment.plan for line in stop.lines}


@pytest.mark.parametrize("answer", ["still", "could not tell", "lifts or knocks"])
def test_a_check_that_was_answered_or_tried_drops_out(assess_text: Assess, answer: str) -> None:
    pivot = f"{{zone: pivot, sign: nothing_seen, readings: {{fitting_play: {answer}}}}}"

    before, after = plan(assess_text(boat(AGROUND))), plan(assess_text(boat(AGROUND, pivot)))

    assert "pivot/grab_and_dial" in before
    assert "pivot/grab_and_dial" not in after
    assert "case_root/flex_watch" in after


def test_a_part_that_was_only_looked_at_still_waits_for_its_check(assess_text: Assess) -> None:
    assert "pivot/grab_and_dial" in plan(assess_text(boat(AGROUND, "{zone: pivot, sign: nothing_seen}")))


def test_a_check_is_asked_for_on_the_side_of_the_mark_and_drops_out_side_by_side(assess_text: Assess) -> None:
    star = "{zone: topside, side: port, sign: star_crack}, {zone: joint_side, side: port, sign: joint_crack}"
    tapped = "{zone: inner_skin, side: port, sign: nothing_seen, readings: {tap_dull: rings}}"
    pulled = "{zone: chainplate, side: port, sign: nothing_seen, readings: {fitting_play: still}}"
    bent = "{zone: mast_high, sign: spar_bend}, {zone: mast_gate, sign: corner_crack}"

    assert "port" == plan(assess_text(boat(star)))["inner_skin/coin_tap"].side
    assert "inner_skin/coin_tap" not in plan(assess_text(boat(star, tapped)))
    assert "both sides" == plan(assess_text(boat(bent)))["chainplate/grab_and_dial"].side
    assert "starboard" == plan(assess_text(boat(bent, pulled)))["chainplate/grab_and_dial"].side
    assert plan(assess_text(boat(bent)))["mast_step/flex_watch"].side is None


def test_a_boat_is_not_sent_to_places_that_she_lacks(assess_text: Assess) -> None:
    rot = "{zone: mast_low, sign: spar_rot}, {zone: boom, sign: spar_rot}"

    assert "bow_pole/spar_feel" in plan(assess_text(boat(rot, facts="{bow_pole: yes}")))
    assert "bow_pole/spar_feel" in plan(assess_text(boat(rot)))
    assert "bow_pole/spar_feel" not in plan(assess_text(boat(rot, facts="{bow_pole: no}")))


def test_a_finding_that_is_confirmed_or_cleared_changes_the_plan(assess_text: Assess) -> None:
    cleared = "{zone: case_root, sign: nothing_seen, readings: {crack_opening: stays shut, wet_weep: stays dry}}"
    confirmed = (
        "{zone: case_root, sign: corner_crack, readings: {crack_opening: slides or leaks, wet_weep: runs or sticky}}"
    )

    before, well, ill = (plan(assess_text(boat(AGROUND, *more))) for more in ((), (cleared,), (confirmed,)))

    assert "case_root/flex_watch" in before
    assert before.keys() - {"case_root/flex_watch"} == well.keys()
    assert "end_tank/drain_measure" not in before
    assert "end_tank/drain_measure" in ill


def test_what_a_rule_suspects_is_in_the_plan_until_somebody_has_looked(assess_text: Assess) -> None:
    rib = "{zone: stiffener, side: port, sign: lifted_bond, readings: {joint_gap: 3}}"
    seen = "{zone: case_root, sign: nothing_seen}"
    tried = "{zone: case_root, sign: nothing_seen, readings: {crack_opening: stays shut, wet_weep: stays dry}}"

    line = plan(assess_text(boat(rib)))["case_root/flex_watch"]
    reason = next(reason for reason in line.reasons if reason.nodes[-1] == "mark:case_root/hairline")

    assert ("zone:stiffener", "mark:case_root/hairline") == reason.nodes
    assert "stiffener.port.lifted_bond" == reason.finding
    assert ("hairline",) == line.suspects
    assert ("hairline",) == plan(assess_text(boat(rib, seen)))["case_root/flex_watch"].suspects
    assert "case_root/flex_watch" not in plan(assess_text(boat(rib, tried)))


def test_checks_are_gathered_by_where_one_stands_and_what_comes_off(assess_text: Assess, kb: KnowledgeBase) -> None:
    stops = assess_text(boat(AGROUND)).plan

    assert len({(stop.leg, stop.takes_off) for stop in stops}) == len(stops)
    for stop in stops:
        assert {kb.checks[line.check].dismantling for line in stop.lines} == {stop.takes_off}
        assert stop.minutes == sum(line.minutes for line in stop.lines)
        assert [line.rank for line in stop.lines] == sorted(line.rank for line in stop.lines)
    assert [stop.lines[0].rank for stop in stops] == sorted(stop.lines[0].rank for stop in stops)


def test_a_line_tells_the_way_from_the_mark_to_the_check(assess_text: Assess) -> None:
    worn = "{zone: aft_run, sign: flat_worn}, {zone: chine, side: port, sign: scuff}"

    assessment = assess_text(boat(worn))
    line = plan(assessment)["joint_stern/feeler_seam"]

    assert (
        "Rear of the underside, with any fin: Ground-flat edge",
        "Dragging over concrete or shingle",
        "The stern is set down last, and the seam takes the same knock",
        "Foil in the joint",
    ) == path(line.reasons[0], assessment)
