"""What a reason says about where each reading comes from."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from triage.conclusions.assessment import Assessment
from triage.conclusions.reasons import Step
from triage.phrases.findings import premise

Assess = Callable[[str], Assessment]


def reasons(assess_text: Assess, finding: str) -> tuple[tuple[Step, ...], tuple[Step, ...]]:
    """Why the verdict of the only finding is what it is, and what it may be at worst."""
    (found,) = assess_text(f"boat: {{name: Ruff}}\nfindings: [{finding}]").findings
    return found.why, found.at_worst


def said(steps: tuple[Step, ...]) -> set[str]:
    return {premise(one) for step in steps for one in step.rests_on}


def test_what_was_answered_is_said_plainly(assess_text: Assess) -> None:
    why, _ = reasons(assess_text, "{zone: joint_side, sign: joint_crack, readings: {joint_gap: parted}}")

    assert not [words for words in said(why) if words.endswith(")")]


def test_the_best_that_a_mark_allows_needs_no_answer_and_is_said_to_be_that(assess_text: Assess) -> None:
    why, at_worst = reasons(assess_text, "{zone: joint_side, sign: joint_crack}")

    line = "“Gap in the joint” is “line only”"
    assert [f"{line} (the best that this mark allows)"] == [words for words in said(why) if "(" in words]
    assert [] == [words for words in said(at_worst) if "(the best" in words]


def test_what_nobody_answered_is_said_to_be_unchecked_where_it_is_taken_at_its_worst(assess_text: Assess) -> None:
    _, at_worst = reasons(assess_text, "{zone: topside, sign: hairline}")

    assert [words for words in said(at_worst) if words.endswith("(nobody has checked)")]


@pytest.mark.parametrize(
    ("mark", "told"),
    [("sign: hairline", True), ("sign: chalky_fade", False), ("sign: scuff", False), ("sign: print_through", False)],
)
def test_growth_is_spoken_of_only_where_something_can_grow(assess_text: Assess, mark: str, told: bool) -> None:
    readings = "shape_error: 0" if "print" in mark else "depth: 0"
    (finding,) = assess_text(
        f"boat: {{name: Ruff}}\nfindings: [{{zone: topside, {mark}, readings: {{{readings}}}}}]"
    ).findings

    changes = [one.scale for one in finding.would_change]
    presumed = [reached.scale for one in finding.presumed for reached in one.presumes]
    assert told is ("growth" in (*changes, *presumed))
