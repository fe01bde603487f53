"""Jobs: which marks are one damage, and what is told of them together."""

from __future__ import annotations

from collections.abc import Callable
from itertools import permutations

import pytest

from tests.mistakes import small_base
from triage.conclusions.assessment import Assessment
from triage.errors import BadRules
from triage.knowledge.model import HANDS, KnowledgeBase
from triage.views.report import as_json, render

Assess = Callable[[str], Assessment]

ANCHOR = """
    boat: {name: Wagtail}
    findings:
      - {zone: chainplate, side: starboard, sign: fastener_cracks}
      - {zone: chainplate_under, side: starboard, sign: fastener_cracks}
    """


def joined(assessment: Assessment) -> list[set[tuple[str, str | None, str]]]:
    """The marks of each job."""
    return [
        {(one.zone, one.side, one.sign) for one in map(assessment.finding, job.findings)} for job in assessment.jobs
    ]


def test_both_faces_of_one_anchor_are_one_job(assess_text: Assess) -> None:
    assessment = assess_text(ANCHOR)

    (job,) = assessment.jobs
    assert 2 == len(job.findings)
    assert ("mend/rig-anchor", (350, 1500)) == (job.mending and job.mending.id, job.mending and job.mending.repairer)
    assert job.mending_at_worst is None
    assert "starboard" == job.side
    assert (True, "repairer") == (job.hands.range.settled, job.hands.range.worst)


def test_the_two_sides_are_two_jobs(assess_text: Assess) -> None:
    assessment = assess_text(ANCHOR.replace("chainplate_under, side: starboard", "chainplate_under, side: port"))

    assert 2 == len(assessment.jobs)


def test_an_unknown_side_is_not_taken_for_a_known_one(assess_text: Assess) -> None:
    assert 2 == len(assess_text(ANCHOR.replace("chainplate_under, side: starboard,", "chainplate_under,")).jobs)


def test_marks_that_want_two_repairs_stay_two_jobs(assess_text: Assess) -> None:
    assessment = assess_text("""
        boat: {name: Wagtail}
        findings:
          - {zone: joint_stern, sign: joint_crack, readings: {joint_gap: 2}}
          - {zone: end_tank, sign: tank_wet, readings: {tank_water: 3}}
        """)

    assert 2 == len(assessment.jobs)


def test_a_part_that_was_passed_or_only_looked_at_is_in_no_job(assess_text: Assess) -> None:
    assessment = assess_text("""
        boat: {name: Wagtail}
        findings:
          - {zone: topside, side: port, sign: chalky_fade}
          - {zone: identity, sign: nothing_seen}
        """)

    in_jobs = {id_ for job in assessment.jobs for id_ in job.findings}
    assert {one.id for one in assessment.findings if one.sign == "chalky_fade"} <= in_jobs
    assert in_jobs.isdisjoint(one.id for one in assessment.findings if one.passed or one.looked_at_only)


def test_jobs_do_not_depend_on_the_order_of_the_findings(assess_text: Assess) -> None:
    marks = [
        "{zone: chainplate, side: port, sign: fastener_cracks}",
        "{zone: chainplate_under, side: port, sign: fastener_cracks}",
        "{zone: chainplate, side: starboard, sign: fastener_cracks}",
        "{zone: aft_run, sign: soft_panel, readings: {panel_give: 3}}",
    ]
    told = [
        joined(assess_text("boat: {name: W}\nfindings:\n" + "".join(f"  - {one}\n" for one in some)))
        for some in permutations(marks)
    ]

    assert all(one == told[0] for one in told)


def test_one_repair_at_both_ends_warns_of_what_either_end_warns_of(assess_text: Assess) -> None:
    assessment = assess_text("""
        boat: {name: Wagtail}
        findings:
          - {zone: joint_bow, sign: hole_through}
          - {zone: stem, sign: crazing, readings: {tap_dull: 1}}
        """)

    (job,) = assessment.jobs
    worst = [one.mending_at_worst for one in map(assessment.finding, job.findings) if one.mending_at_worst]
    assert worst
    assert job.mending
    assert job.mending_at_worst is None
    assert {say for one in worst for say in one.stop_when} <= set(job.mending.stop_when)
    assert {say for one in worst for say in one.hazards} <= set(job.mending.hazards)


def test_a_report_tells_one_damage_once(assess_text: Assess) -> None:
    assessment = assess_text(ANCHOR)
    text, page = render(assessment, "full"), render(assessment, "html")

    for report in (text, page):
        assert 1 == report.count("at a repairer 350 to 1500")
        assert 1 == report.count("By: repairer")
        assert "and 1 mark with it" in " ".join(report.split())
        assert "These marks are one damage" in report
    (told,) = as_json(assessment)["jobs"]
    assert "Structural" == told["headline"]
    assert 2 == len(told["findings"])


def test_hands_are_never_below_the_repair(kb: KnowledgeBase, assess_text: Assess) -> None:
    assessment = assess_text("""
        boat: {name: Wagtail}
        findings:
          - {zone: stem, sign: old_repair, readings: {panel_give: 2}}
        """)

    (patch,) = assessment.findings
    names = [level.name for level in kb.scales[HANDS].levels]
    assert patch.mending is not None
    assert patch.mending.who == names[patch.hands.range.levels[0]]


def test_what_holds_for_an_outing_is_not_told_where_she_stays_ashore(assess_text: Assess) -> None:
    held, stays_ashore = (
        assess_text(f"""
            boat: {{name: Wagtail}}
            findings: [{{zone: {zone}, sign: {mark}}}]
            """).findings[0]
        for zone, mark in (("pole_gear", "seized_wheel"), ("toe_strap", "lost_fastener"))
    )

    assert held.mending_at_worst is not None
    assert "ashore" != held.afloat.range.worst
    assert "for one outing at most" in held.mending_at_worst.holding
    assert stays_ashore.mending is not None
    assert "ashore" == stays_ashore.afloat.range.best
    assert ("mend/fitting", "") == (stays_ashore.mending.id, stays_ashore.mending.holding)


REPAIRS = """repairs:
  - {{id: mend/grave, name: It, when: {{verdict: {{at_least: 2}}}}, who: {who}, outline: [Mend it.], meanwhile: No.,
     repairer: [100, 300], covers: [{covers}], basis: estimate}}
  - {{id: mend/line, name: It, when: {{verdict: {{at_least: 1}}}}, who: {who}, outline: [Mend it.], meanwhile: No.,
     repairer: [50, {most}], covers: [{back}], basis: estimate}}
"""


@pytest.mark.parametrize(
    ("values", "problem"),
    [
        ({"covers": "mend/lime"}, 'Did you mean "mend/line"?'),
        ({"most": 400}, "mend/grave covers mend/line, which asks for more: repairer"),
        ({"back": "mend/grave"}, "mend/grave covers itself"),
    ],
)
def test_what_a_repair_cannot_cover_is_told(values: dict[str, object], problem: str) -> None:
    known = {"who": "repairer", "covers": "mend/line", "most": 200, "back": ""} | values

    with pytest.raises(BadRules) as caught:
        small_base(repairs=REPAIRS.format(**known))

    assert problem in str(caught.value)
