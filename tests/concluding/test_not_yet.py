"""Not yet is neither yes nor no: what to do, how long, what each answer comes to; and no once it was tried in vain."""

from __future__ import annotations

import json
from collections.abc import Callable
from typing import Any

import pytest

from triage.conclusions.assessment import Assessment
from triage.views.report import render

Assess = Callable[[str], Assessment]

CRACKS = "boat: {{name: Ruff}}\nfindings: [{{zone: chainplate, side: port, sign: fastener_cracks, readings: {{{}}}}}]"


def afloat(assess_text: Assess, readings: str = "") -> dict[str, Any]:
    """What the JSON says of sailing."""
    told: dict[str, Any] = json.loads(render(assess_text(CRACKS.format(readings)), "json"))
    return told["afloat"]  # type: ignore[no-any-return]


def test_the_json_says_what_holds_now_what_is_awaited_and_what_each_answer_comes_to(assess_text: Assess) -> None:
    told = afloat(assess_text)

    assert (told["now"], told["then"]) == ("not yet", "in light wind near help")
    checks = {one["check"]["scale"]: one for one in told["awaits"]}
    assert {"fitting_play", "crack_opening"} <= checks.keys()
    assert all(one["check"]["minutes"] > 0 for one in told["awaits"])
    turns = [turn["now"] for turn in checks["fitting_play"]["turns"]]
    assert (turns[0], set(turns[1:])) == ("in light wind near help", {"ashore"})
    assert "not yet" in [turn["now"] for turn in checks["crack_opening"]["turns"]]


def test_each_turn_is_what_is_said_once_it_is_answered(assess_text: Assess) -> None:
    first = afloat(assess_text)["awaits"][0]
    scale = first["check"]["scale"]

    for turn in first["turns"][1:]:
        assert turn["now"] == afloat(assess_text, f"{scale}: {turn['level']}")["now"]


@pytest.mark.parametrize("scale", ["fitting_play", "backing"])
def test_what_was_tried_in_vain_or_cannot_be_done_here_keeps_her_ashore(assess_text: Assess, scale: str) -> None:
    told = afloat(assess_text, f"{scale}: could not tell")

    assert (told["now"], told["awaits"]) == ("ashore", [])


def test_the_rarer_history_is_asked_for_where_only_that_could_still_clear_her(assess_text: Assess) -> None:
    """The air test failed for want of a pump; a dry tank after a capsize says as much, a dry one upright does not."""
    in_vain = "boat: {name: Ruff}\nfindings: [{zone: end_tank, sign: tank_wet, readings: {tank_seal: could not tell}}]"
    told: dict[str, Any] = json.loads(render(assess_text(in_vain), "json"))["afloat"]

    assert (told["now"], told["then"]) == ("not yet", "sail")
    checks = {one["check"]["scale"]: one for one in told["awaits"]}
    assert checks.keys() == {"tank_water", "after_swamp_test"}
    assert sorted(turn["now"] for turn in checks["after_swamp_test"]["turns"]) == ["not yet", "sail"]


def test_a_deck_that_could_not_be_pressed_may_be_cleared_by_watching_its_line_and_by_its_ring(
    assess_text: Assess,
) -> None:
    line = "findings: [{zone: side_deck, side: port, sign: hairline, readings: {panel_give: could not tell"

    def told(further: str = "") -> dict[str, Any]:
        answer: dict[str, Any] = json.loads(render(assess_text(f"boat: {{name: Ruff}}\n{line}{further}}}}}]"), "json"))[
            "afloat"
        ]
        return answer

    assert "not yet" == told()["now"]
    assert {"crack_opening", "depth", "tap_dull"} == {one["check"]["scale"] for one in told()["awaits"]}
    assert "sail" == told(", crack_opening: 0, tap_dull: 0, depth: 1")["now"]
    assert "sail" != told(", crack_opening: 0, tap_dull: 1, depth: 1")["now"]


@pytest.mark.parametrize(("depth", "now"), [("in the coat", "sail"), ("to the fibre", "not yet")])
def test_how_deep_cracks_from_a_fitting_go_is_told_and_counts(assess_text: Assess, depth: str, now: str) -> None:
    """A still fitting spares the look for their depth; where they were seen to reach the glass it does not."""
    cracks = (
        "boat: {{name: Ruff}}\nfindings: "
        "[{{zone: side_deck, side: port, sign: fastener_cracks, readings: {{fitting_play: still{}}}}}]"
    )
    spared = json.loads(render(assess_text(cracks.format("")), "json"))["afloat"]["now"]
    seen = json.loads(render(assess_text(cracks.format(f", depth: {depth}")), "json"))["afloat"]["now"]

    assert (spared, seen) == ("sail", now)
