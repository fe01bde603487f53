"""The one account of what was looked at: place by place, side by side, check by check."""

from __future__ import annotations

import json
from collections.abc import Callable

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.suspecting import boats_round_a_suspicion
from triage.concluding.assess import assess_survey
from triage.conclusions.assessment import Assessment
from triage.conclusions.diagnosis import PlanLine
from triage.coverage import Coverage
from triage.inference.forward import forward
from triage.knowledge.model import NOTHING_SEEN, KnowledgeBase
from triage.knowledge.store.load import load_knowledge
from triage.survey.model import Finding, Survey
from triage.survey.read import survey_from_text

Assess = Callable[[str], Assessment]

DENTING = "{zone: cradle, sign: bad_cradle, readings: {support_fit: 3}}"
PASSED = "{zone: bottom, sign: nothing_seen, readings: {panel_give: firm, shape_error: 0}%s}"


def boat(*findings: str) -> str:
    return f"boat: {{name: Ruff}}\nfindings: [{', '.join(findings)}]"


def coverage(kb: KnowledgeBase, *findings: str) -> Coverage:
    survey = survey_from_text(boat(*findings), kb)
    return Coverage(kb, survey, forward(kb, survey.boat, survey.findings))


def lines(assessment: Assessment) -> list[PlanLine]:
    return [line for stop in assessment.plan for line in stop.lines]


@pytest.mark.parametrize(
    ("findings", "port", "both"),
    [
        ((), "not looked at", "not looked at"),
        (("{zone: bottom, side: port, sign: nothing_seen}",), "nothing found", "partly"),
        (("{zone: bottom, sign: nothing_seen}",), "nothing found", "nothing found"),
        ((PASSED % ", side: port",), "passed", "partly"),
        ((PASSED % "",), "passed", "passed"),
        (("{zone: bottom, side: port, sign: scuff}",), "marked", "partly"),
        (("{zone: bottom, sign: scuff}",), "marked", "marked"),
        (("{zone: bottom, side: port, sign: scuff}", PASSED % ", side: starboard"), "marked", "marked"),
    ],
)
def test_a_place_is_told_side_by_side_and_altogether(
    kb: KnowledgeBase, findings: tuple[str, ...], port: str, both: str
) -> None:
    looked = coverage(kb, *findings)

    assert (port, both) == (looked.place("bottom", "port"), looked.place("bottom"))


def test_a_part_is_passed_only_when_one_whole_way_was_tried(kb: KnowledgeBase) -> None:
    half = "{zone: bottom, sign: nothing_seen, readings: {panel_give: firm}}"
    bad = "{zone: bottom, sign: nothing_seen, readings: {panel_give: 2, shape_error: 0}}"

    assert [False, False, True] == [coverage(kb, one).passed("bottom", "port") for one in (half, bad, PASSED % "")]


@pytest.mark.parametrize(
    ("readings", "status"),
    [
        ("{}", "not made"),
        ("{fitting_play: could not tell}", "attempted"),
        ("{fitting_play: still}", "answered"),
        ("{fitting_play: lifts or knocks}", "answered"),
    ],
)
def test_a_check_is_made_tried_in_vain_or_not(kb: KnowledgeBase, readings: str, status: str) -> None:
    looked = coverage(kb, f"{{zone: pivot, sign: nothing_seen, readings: {readings}}}")

    assert status == looked.check("pivot", "grab_and_dial", "")


def test_of_what_a_check_reads_there_a_part_may_be_answered(kb: KnowledgeBase) -> None:
    zone, sign, check, (one, *others) = next(
        (zone.id, sign, check.id, reads)
        for zone in kb.zones.values()
        for sign in kb.offers[zone.id]
        for check in kb.checks.values()
        if not zone.sided
        and len(reads := [s for s in check.reads if s in kb.applicable(zone.id, sign)]) > 1
        and (not check.only_in or zone.id in check.only_in)
    )
    worst = {scale: kb.worst(sign, scale) for scale in (one, *others)}
    some, whole = ({scale: worst[scale] for scale in scales} for scales in ([one], [one, *others]))

    def status(readings: dict[str, int]) -> str:
        return coverage(kb, f"{{zone: {zone}, sign: {sign}, readings: {json.dumps(readings)}}}").check(zone, check, "")

    assert ("not made", "partly", "answered") == (status({}), status(some), status(whole))


def test_one_side_does_not_answer_for_the_other(assess_text: Assess) -> None:
    """A suspicion from a part that is one about a part with two sides is open until both were looked at."""
    before, half, whole = (
        assess_text(boat(DENTING, *more)) for more in ((), (PASSED % ", side: port",), (PASSED % "",))
    )

    def dents(assessment: Assessment) -> list[str | None]:
        return [one.side for one in assessment.suspicions if (one.zone, one.sign) == ("bottom", "dent")]

    assert ([None], ["starboard"], []) == tuple(map(dents, (before, half, whole)))
    assert ("barred", "fit") == (half.afloat.range.roles[1], whole.afloat.range.roles[1])


@pytest.mark.parametrize("looked", ["{zone: bottom, sign: nothing_seen}", "{zone: bottom, side: port, sign: scuff}"])
def test_a_bare_look_or_another_mark_closes_no_suspicion(assess_text: Assess, looked: str) -> None:
    before, after = assess_text(boat(DENTING)), assess_text(boat(DENTING, looked))

    assert [(one.zone, one.sign, one.side) for one in before.suspicions] == [
        (one.zone, one.sign, one.side) for one in after.suspicions
    ]


def test_what_was_tried_in_vain_stays_open_and_stays_in_the_plan(assess_text: Assess) -> None:
    vain = "{zone: bottom, sign: nothing_seen, readings: {shape_error: could not tell}}"

    assessment = assess_text(boat(DENTING, vain))

    (line,) = (line for line in lines(assessment) if line.zone == "bottom" and "dent" in line.suspects)
    assert line.attempted
    assert any((one.zone, one.sign) == ("bottom", "dent") for one in assessment.suspicions)


def test_one_side_that_nobody_looked_at_is_listed(assess_text: Assess) -> None:
    assessment = assess_text(boat("{zone: chainplate, side: port, sign: play}"))
    unlooked = {one.zone: one.side for leg in assessment.not_looked_at for one in leg.places}

    assert "starboard" == unlooked["chainplate"]
    assert unlooked["mast_step"] is None
    assert "stem" in unlooked


KB = load_knowledge()


@settings(max_examples=60)
@given(boats_round_a_suspicion(KB))
def test_what_keeps_a_boat_open_stands_in_the_plan_and_the_reverse(survey: Survey) -> None:
    assessment = assess_survey(survey, KB)

    suspected = {
        (one.zone, one.sign, side)
        for one in assessment.suspicions
        for side in ((one.side,) if one.side or not KB.zones[one.zone].sided else ("port", "starboard"))
    }
    planned = {
        (line.zone, sign, side)
        for line in lines(assessment)
        for sign in line.suspects
        for side in (("port", "starboard") if line.side == "both sides" else (line.side,))
    }
    assert suspected <= planned
    assert {(zone, sign) for zone, sign, _ in planned} == {(zone, sign) for zone, sign, _ in suspected}


@settings(max_examples=30)
@given(boats_round_a_suspicion(KB), st.data())
def test_a_bare_look_changes_no_suspicion_no_cause_and_no_plan(survey: Survey, data: st.DataObject) -> None:
    zones = data.draw(
        st.lists(st.sampled_from([zone.id for zone in KB.zones.values() if survey.boat.has(zone)]), max_size=5)
    )
    looks = tuple(
        Finding(f"look {zone}", zone, NOTHING_SEEN) for zone in dict.fromkeys(zones) if NOTHING_SEEN in KB.offers[zone]
    )
    looked = Survey(survey.boat, (*survey.findings, *looks))

    before, after = assess_survey(survey, KB), assess_survey(looked, KB)

    assert (before.suspicions, before.causes, before.plan) == (after.suspicions, after.causes, after.plan)


@settings(max_examples=30)
@given(boats_round_a_suspicion(KB))
def test_nothing_is_said_to_be_absent_but_where_somebody_looked_for_it(survey: Survey) -> None:
    assessment = assess_survey(survey, KB)
    by_name = {zone.name: zone for zone in KB.zones.values()}

    for cause in assessment.causes:
        for objection in cause.speaks_against:
            if objection.kind == "absent":
                zone = by_name[objection.place]
                here = [finding for finding in survey.findings if finding.zone == zone.id]
                sides = {finding.side for finding in here if finding.answered}
                assert sides, (objection, survey.findings)
                assert not zone.sided or None in sides or len(sides) == 2
