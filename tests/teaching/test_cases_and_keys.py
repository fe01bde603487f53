"""Cases of one's own, the cheapest way to the answer, and the key."""

from __future__ import annotations

from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from triage.concluding.assess import assess_survey
from triage.conclusions.ranges import intervals
from triage.errors import BadSurvey
from triage.inference.compiled import compiled
from triage.knowledge.model import KnowledgeBase
from triage.survey.read import read_survey
from triage.teaching.cases import Case, case_from, with_readings
from triage.teaching.cheapest import Tried, cheapest_way, checks_at
from triage.teaching.drawn import case_named, draw_case
from triage.teaching.edges import edges_of
from triage.teaching.key import key_of
from triage.teaching.pictures import picture_of


def comes_to(kb: KnowledgeBase, case: Case, way: tuple[Tried, ...]) -> tuple[tuple[int, int], ...]:
    found = {
        (one.finding, scale): case.finding(one.finding).readings[scale]
        for one in way
        for scale in one.scales
        if scale in case.finding(one.finding).readings
    }
    survey = with_readings(case.shown, found)
    judged = compiled(kb, survey.boat, survey.findings)
    return intervals(next(one for one in judged if one.finding.id == case.focus))


@settings(max_examples=25)
@given(seed=st.integers(0, 5000))
def test_the_cheapest_way_comes_to_the_key_and_no_part_of_it_can_be_left_out(kb: KnowledgeBase, seed: int) -> None:
    case = draw_case(kb, seed)
    way = cheapest_way(kb, case)
    assert way is not None
    wanted = intervals(
        next(one for one in compiled(kb, case.truth.boat, case.truth.marks) if one.finding.id == case.focus)
    )

    assert wanted == comes_to(kb, case, way)
    for one in way:
        assert wanted != comes_to(kb, case, tuple(other for other in way if other is not one))
    here = checks_at(kb, case.mark)
    if way and all(one.finding == case.focus for one in way):
        cost = sum(one.trouble for one in way)
        for first in here:
            for second in here:
                pair = (first, second) if first is not second else (first,)
                if sum(one.trouble for one in pair) < cost - 1e-9:
                    assert wanted != comes_to(kb, case, pair)


def test_the_key_is_the_programs_own_assessment(kb: KnowledgeBase) -> None:
    case = case_named(kb, "177")
    key = key_of(kb, case)

    assert key.assessment == assess_survey(case.truth, kb)
    assert key.finding.id == case.focus
    assert key.causes[0] == case.cause
    assert key.because
    assert key.minutes == sum(one.minutes for one in key.way or ())
    assert case.mark.zone not in key.elsewhere


def test_a_turn_is_one_step_that_makes_another_verdict(kb: KnowledgeBase) -> None:
    turns = [edge for seed in range(20) for edge in edges_of(kb, draw_case(kb, seed))]

    assert turns
    assert all(milder < graver for milder, graver in (edge.verdicts for edge in turns))


def test_a_survey_of_ones_own_becomes_a_case_with_its_photographs(kb: KnowledgeBase, root: Path) -> None:
    survey = read_survey(root / "examples" / "club-boat.yaml", kb)

    case = case_from(kb, survey, "club-boat.yaml")

    assert "joint_crack" == case.mark.sign
    assert not any(one.readings for one in case.shown.findings)
    assert [one.photos for one in case.truth.findings] == [one.photos for one in survey.in_walk_order(kb).findings]
    other = next(one.id for one in case.truth.findings if one.sign == "chalky_fade")
    assert "chalky_fade" == case_from(kb, survey, "club-boat.yaml", other).mark.sign
    assert key_of(kb, case).finding.verdict.best == "structural"


def test_a_survey_without_a_mark_is_no_case(kb: KnowledgeBase, tmp_path: Path) -> None:
    file = tmp_path / "bare.yaml"
    file.write_text("boat: {name: Wagtail}\nfindings: [{zone: bottom, sign: nothing_seen}]\n")
    survey = read_survey(file, kb)

    with pytest.raises(BadSurvey, match="no mark in it to judge"):
        case_from(kb, survey, "bare.yaml")
    with pytest.raises(BadSurvey, match='no mark has the id "x"'):
        case_from(kb, survey, "bare.yaml", "x")


def test_the_picture_shows_the_mark_with_a_scale_and_does_not_name_it(kb: KnowledgeBase) -> None:
    case = case_named(kb, "177")
    svg = picture_of(kb, case)

    assert svg.startswith("<svg")
    assert "<style>" in svg
    assert "mm</text>" in svg
    assert kb.signs[case.mark.sign].name not in svg
