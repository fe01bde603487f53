"""The conductor: what is judged once is not judged again, and every part of an assessment rests on the same account."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import Any

import pytest

from tests.conftest import ROOT
from triage.concluding import assess, suspicions
from triage.conclusions.assessment import Assessment
from triage.conclusions.ranges import range_between
from triage.inference.forward import forward
from triage.knowledge.model import KnowledgeBase
from triage.survey.model import Boat, Finding
from triage.survey.read import read_survey

Assess = Callable[[str], Assessment]


def test_experta_judges_the_boat_once_and_each_suspicion_once(
    kb: KnowledgeBase, monkeypatch: pytest.MonkeyPatch
) -> None:
    judged: list[int] = []

    def counting(kb: KnowledgeBase, boat: Boat, findings: Sequence[Finding]) -> Any:
        judged.append(len(findings))
        return forward(kb, boat, findings)

    for module in (assess, suspicions):
        monkeypatch.setattr(module, "forward", counting)
    survey = read_survey(ROOT / "examples/club-boat.yaml", kb)

    assessment = assess.assess_survey(survey, kb)

    assert assessment.suspicions
    assert [len(survey.findings), *[1] * len(assessment.suspicions)] == judged


def test_a_story_tells_of_two_marks_of_one_kind_how_often_each_is_left(assess_text: Assess) -> None:
    """The same sign at two places may be left more and less often by one cause."""
    assessment = assess_text(
        "boat: {name: Ruff}\nhistory: {ram: yes}\nfindings: [{zone: joint_side, side: port, sign: joint_crack}, "
        "{zone: joint_bow, sign: joint_crack}, {zone: topside, side: port, sign: star_crack}]"
    )
    (story,) = (story for story in assessment.stories if story.cause == "ram")
    cause = next(cause for cause in assessment.causes if cause.id == "ram")

    told = {part.finding: part.how_often for part in story.parts if part.how_often}
    listed = {one.finding: one.how_often for one in cause.speaks_for if one.kind == "found"}

    assert told == {finding: listed[finding] for finding in told}
    assert len({told["joint_side.port.joint_crack"], told["joint_bow.joint_crack"]}) == 2


def test_every_open_check_has_the_same_shape_and_its_place(assess_text: Assess, kb: KnowledgeBase) -> None:
    assessment = assess_text(
        "boat: {name: Ruff}\nfindings: [{zone: chainplate, side: port, sign: play}, {zone: board, sign: foil_split}]"
    )
    checks = [check for finding in assessment.findings for check in finding.checks]
    checks += [
        check for answer in (assessment.afloat, assessment.tow) for check in (one.check for one in answer.awaits)
    ]
    checks += [one.check for one in assessment.suspicions if one.check]
    checks += [line for stop in assessment.plan for line in stop.lines]

    assert len(checks) > 5
    for check in checks:
        assert check.place == kb.zones[check.zone].name
        assert check.scale in (kb.checks[check.check].reads if check.check else [*kb.facts, "encloses_buoyancy"])


def test_the_rules_that_judged_are_named_by_their_digest(assess_text: Assess, kb: KnowledgeBase) -> None:
    assert kb.digest == assess_text("boat: {name: Ruff}").rules
    assert len(kb.digest) == 64


def test_a_range_is_told_by_name_number_and_role(kb: KnowledgeBase) -> None:
    range_ = range_between(kb, "afloat", 0, 3)

    assert ("sail", "ashore", False, (0, 3), ("fit", "barred")) == (
        range_.best,
        range_.worst,
        range_.settled,
        range_.levels,
        range_.roles,
    )
