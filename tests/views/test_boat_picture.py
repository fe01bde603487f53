"""The boat of an assessment: passed, looked at, found and unlooked places stand as they are, with the jobs' numbers."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Callable
from pathlib import Path

from triage.conclusions.assessment import Assessment
from triage.views.boat_picture import chart_of, picture_of
from triage.views.report import render

Assess = Callable[[str], Assessment]

BOAT = """
boat: {name: Wagtail, facts: {bow_pole: no}}
findings:
  - {zone: side_deck, side: port, sign: hairline, readings: {crack_length: 9 cm}}
  - {zone: thwart, sign: nothing_seen}
  - {zone: case_wall, sign: nothing_seen, readings: {tap_dull: could not tell}}
  - {zone: stem, sign: nothing_seen, readings: {depth: 0}}
  - {zone: topside, sign: scuff}
"""


def test_each_place_stands_as_the_assessment_tells(assess_text: Assess) -> None:
    places = chart_of(assess_text(BOAT)).places

    assert "found" == places["side_deck", "port"].status
    assert "not_looked" == places["side_deck", "starboard"].status
    assert "seen" == places["thwart", ""].status
    assert "tried" == places["case_wall", ""].status
    assert "passed" == places["stem", ""].status
    assert "Nose of the hull: passed" == places["stem", ""].says
    assert ("bow_pole", "") not in places


def test_markers_carry_the_numbers_of_the_jobs_and_lead_to_them(assess_text: Assess, root: Path) -> None:
    assessment = assess_text((root / "examples/club-boat.yaml").read_text())

    markers = chart_of(assessment).markers

    told = {(place.zone, place.side or ""): str(i) for i, job in enumerate(assessment.jobs, 1) for place in job.places}
    assert told == {one.spot: one.text for one in markers if one.text != "?"}
    assert all(one.href == f"#f{one.text}" for one in markers if one.text != "?")
    suspected = {(one.zone, one.side or "") for one in assessment.suspicions} - set(told)
    assert suspected == {one.spot for one in markers if one.text == "?"}


def test_the_key_names_what_is_there_and_nothing_else(assess_text: Assess) -> None:
    picture = picture_of(assess_text(BOAT))

    kinds = [kind for kind, _ in picture.key]
    assert ["not_looked", "seen", "tried", "passed", "found"] == kinds[:5]
    assert "not looked at" in picture.says
    assert 4 == len({one.view for one, _ in (*picture.marked, *picture.unmarked)})


def test_a_boat_at_which_nobody_looked_can_be_drawn(assess_text: Assess) -> None:
    picture = picture_of(assess_text("boat: {name: Wagtail}\nfindings: []\n"))

    assert () == tuple(picture.marked)


def test_each_check_of_a_page_is_drawn_and_no_id_stands_twice(assess_text: Assess, root: Path) -> None:
    for example in ("owner-one-crack", "club-boat", "buyers-walk-round"):
        assessment = assess_text((root / f"examples/{example}.yaml").read_text())

        page = render(assessment, "html")

        checks = [one for job in assessment.jobs for one in job.checks if one.check]
        assert 2 * len(checks) == page.count('class="drawn check-drawn"')
        assert not [id_ for id_, times in Counter(re.findall(r'\bid="([^"]*)"', page)).items() if times > 1]
        assert set(re.findall(r"url\(#([^)]*)\)", page)) <= set(re.findall(r'\bid="([^"]*)"', page))
