"""What was read too well to have come of a cause is none of its marks."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from triage.conclusions.assessment import Assessment


@pytest.mark.parametrize(
    ("readings", "named"),
    [
        ("repair_quality: 0, tap_dull: 0, panel_give: 0", False),
        ("repair_quality: 1", False),
        ("repair_quality: 2", True),
        ("repair_quality: 1, tap_dull: 2", True),
        ("tap_dull: 0, panel_give: 0", True),  # nobody has tried the repair itself
    ],
)
def test_a_sound_repair_does_not_speak_for_a_bad_one(
    assess_text: Callable[[str], Assessment], readings: str, named: bool
) -> None:
    finding = f"{{zone: topside, side: port, sign: old_repair, readings: {{{readings}}}}}"
    assessment = assess_text(f"boat: {{name: Ruff}}\nfindings: [{finding}]")

    assert named is ("poor_repair" in {cause.id for cause in assessment.causes if cause.worth_telling})
    assert named is any(line.zone == "joint_stern" for stop in assessment.plan for line in stop.lines)


def test_a_bad_repair_beside_a_sound_one_speaks_for_it(assess_text: Callable[[str], Assessment]) -> None:
    sound, bad = (
        f"{{zone: topside, side: {side}, sign: old_repair, readings: {{repair_quality: {quality}}}}}"
        for side, quality in (("port", 0), ("starboard", 3))
    )

    causes = assess_text(f"boat: {{name: Ruff}}\nfindings: [{sound}, {bad}]").causes

    assert "poor_repair" in {cause.id for cause in causes if cause.worth_telling}
