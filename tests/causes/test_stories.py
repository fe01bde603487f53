"""Several findings with one likely cause are told as one story, with what follows from them."""

from __future__ import annotations

from collections.abc import Callable

from triage.conclusions.assessment import Assessment
from triage.phrases.boat import story_part

Assess = Callable[[str], Assessment]

STERN = "{zone: stern_corner, side: port, sign: gouge_fibre}, {zone: joint_stern, sign: joint_crack%s}"
PARTED = ", readings: {joint_gap: parted, tank_seal: fails}"
WET = "{zone: end_tank, sign: tank_wet, readings: {tank_water: 2}}"


def boat(findings: str) -> str:
    return f"boat: {{name: Ruff}}\nfindings: [{findings}]"


def test_what_a_cause_left_and_what_follows_from_it_stand_in_one_story(assess_text: Assess) -> None:
    assessment = assess_text(boat(f"{STERN % PARTED}, {WET}"))
    (story,) = assessment.stories
    tells = [story_part(part, assessment) for part in story.parts]

    assert ("ram", "very likely") == (story.cause, story.likelihood)
    assert ("stern_corner.port.gouge_fibre", "joint_stern.joint_crack", "end_tank.tank_wet") == story.findings
    assert "Corners of the stern, port: Gouge to the fibre. This cause usually leaves it." == tells[0]
    assert tells[2].startswith(
        "Closed spaces at bow, stern or under the floor: Water in a closed space. It follows from "
    )


def test_a_finding_that_another_one_explains_speaks_less_for_other_causes(assess_text: Assess) -> None:
    open_seam, scratched_seam = (
        {cause.id: cause.likelihood for cause in assess_text(boat(f"{stern}, {WET}")).causes}
        for stern in (STERN % PARTED, STERN.replace("joint_crack", "scuff") % "")
    )

    assert "possible" == open_seam["wet_store"]
    assert "likely" == scratched_seam["wet_store"]


def test_a_single_finding_is_no_story(assess_text: Assess) -> None:
    assert () == assess_text(boat("{zone: topside, sign: scuff}")).stories


def test_each_finding_stands_in_one_story(assess_text: Assess) -> None:
    two = "{zone: bottom, side: port, sign: blister}, {zone: chine, side: port, sign: blister}"

    stories = assess_text(boat(f"{STERN % PARTED}, {two}")).stories

    assert {"ram", "cradle_wet"} == {story.cause for story in stories}
    told = [finding for story in stories for finding in story.findings]
    assert sorted(set(told)) == sorted(told)


def test_a_story_names_the_causes_that_explain_it_as_well(assess_text: Assess) -> None:
    (story,) = assess_text(boat("{zone: mast_low, sign: spar_rot}, {zone: boom, sign: spar_rot}")).stories

    assert ("galvanic", ("Steel or carbon against aluminium",)) == (story.cause, story.or_else)


def test_a_cause_that_is_still_at_work_is_named_with_what_shows_it_and_what_ends_it(assess_text: Assess) -> None:
    (story,) = assess_text(
        boat("{zone: bottom, side: port, sign: dent}, {zone: cradle, sign: bad_cradle, readings: {support_fit: 2}}")
    ).stories

    assert story.still_at_work is not None
    assert ("cradle.bad_cradle",) == story.still_at_work.shown_by
    assert "before the hull is mended" in story.still_at_work.cure
