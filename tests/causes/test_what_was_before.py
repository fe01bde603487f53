"""What happened leaves no mark that was there before it, what was done speaks for causes, and new paint hides marks."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from triage.conclusions.assessment import Assessment
from triage.conclusions.diagnosis import CauseHypothesis
from triage.phrases.boat import objection

Assess = Callable[[str], Assessment]


def causes(assess_text: Assess, told: str, finding: str, more: str = "") -> dict[str, CauseHypothesis]:
    survey = f"boat: {{name: Ruff}}\nvisit: {{on: 2026-06-01}}\n{told}\nfindings: [{finding}]\n{more}"
    return {cause.id: cause for cause in assess_text(survey).causes}


SPLIT = "{{zone: board, sign: foil_split, readings: {{growth: {}}}}}"


@pytest.mark.parametrize(
    ("when", "growth", "left"),
    [
        ("when: today", "it was so last year", False),
        ("when: this season", "still for a season", False),
        ("on: 2026-05-20", "still for a year", False),
        ("when: today", "it is new since last season", True),
        ("when: today", "could not tell", True),
        ("when: earlier", "it was so last season", True),
        ("", "it was so last season", True),  # nobody said when
    ],
)
def test_what_happened_this_season_left_no_mark_of_last_season(
    assess_text: Assess, when: str, growth: str, left: bool
) -> None:
    told = f"happened: [{{event: hit_bottom, {when}}}]"
    grounding = causes(assess_text, told, SPLIT.format(growth))["grounding"]

    assert (("board.foil_split",) if left else ()) == grounding.findings
    older = "Centreboard or daggerboard: “Split or broken foil” was there before that."
    assert left is (older not in [objection(one) for one in grounding.speaks_against])


def test_another_cause_is_likelier_then(assess_text: Assess) -> None:
    told = "happened: [{event: hit_bottom, when: today}]"
    new, old = (causes(assess_text, told, SPLIT.format(said))["capsize_board"] for said in ("2", "0"))

    assert ("little speaks for it", "likely") == (new.likelihood, old.likelihood)


def test_an_owner_who_says_that_it_happened_may_mean_another_time(assess_text: Assess) -> None:
    told = "happened: [{event: hit_bottom, when: today}]"

    assert causes(assess_text, told, SPLIT.format(0), "history: {grounding: yes}")["grounding"].findings


def test_a_mark_seen_at_an_earlier_visit_was_there_before_what_happened_since(assess_text: Assess) -> None:
    told = "happened: [{event: hit_bottom, on: 2026-05-20}]"
    before, after = (
        causes(assess_text, told, f"{{zone: board, sign: foil_split, on: 2026-05-{day}}}")["grounding"]
        for day in (10, 25)
    )

    assert not before.findings
    assert after.findings


@pytest.mark.parametrize(
    ("done", "mark", "cause"),
    [
        ("tightened", "{zone: deck_hardware, sign: fastener_cracks}", "overtight"),
        ("tightened_and_sailed", "{zone: deck_hardware, sign: eased_tight}", "vibration_ease"),
        ("repaired", "{zone: joint_stern, sign: joint_crack}", "poor_repair"),
        ("fitting_replaced", "{zone: deck_hardware, sign: play}", "no_backing"),
    ],
)
def test_what_was_done_speaks_for_what_it_leaves(assess_text: Assess, done: str, mark: str, cause: str) -> None:
    before = list(causes(assess_text, "", mark)).index(cause)
    told = causes(assess_text, f"happened: [{done}]", mark)

    assert list(told).index(cause) <= before
    assert "told" in [one.kind for one in told[cause].speaks_for]


def test_under_new_paint_nobody_looks_for_a_line_in_vain(assess_text: Assess) -> None:
    firm = "{zone: side_deck, sign: nothing_seen, readings: {panel_give: 0, tap_dull: 0}}"
    deck = f"{{zone: foredeck, sign: soft_panel}}, {firm}"
    bare, painted = (causes(assess_text, told, deck)["crew_land"] for told in ("", "happened: [painted]"))

    assert {"absent"} == {one.kind for one in bare.speaks_against}
    assert not painted.speaks_against
    assert ("possible", "likely") == (bare.likelihood, painted.likelihood)
