"""How what was measured was judged: its level and limits, sums of it, and never anything that makes it milder."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from triage.concluding.working import workings
from triage.conclusions.assessment import Assessment
from triage.conclusions.working import Working
from triage.knowledge.model import KnowledgeBase
from triage.mechanics.interval import exactly
from triage.mechanics.units import IN_SI
from triage.mechanics.worked import reckoned
from triage.phrases import working as words
from triage.survey.model import Finding
from triage.survey.readings import reading_of
from triage.views.report import render

ONE_MARK = """
survey: 1
boat: {{name: Wren, length: 4.2 m, facts: {{deck: single, hull: single, spar: alloy, stayed: yes}}}}
findings:
  - {{zone: floors, sign: soft_panel, readings: {{panel_give: "{give}"}}}}
"""


def of(kb: KnowledgeBase, **said: str) -> dict[str, Working]:
    readings = {scale: reading_of(kb.scales[scale], answer) for scale, answer in said.items()}
    return {one.scale: one for one in workings(kb, Finding("", "floors", "soft_panel", readings=readings))}


def test_a_press_test_tells_its_level_and_what_was_lost(kb: KnowledgeBase) -> None:
    give = of(kb, panel_give="4 mm against 3 mm")["panel_give"]

    assert ("soft", 25, 75) == (give.level, give.least, give.most)
    told = {one.say: (one.low, one.high) for done in give.sums for one in done.told}
    low, high = told["stiffness lost against the twin"]
    assert low < 25 < high


def test_a_reading_near_a_graver_level_says_so_and_near_a_milder_one_does_not(kb: KnowledgeBase) -> None:
    assert of(kb, panel_give="20 %")["panel_give"].perhaps == "soft"
    assert of(kb, panel_give="26 %")["panel_give"].perhaps == ""
    assert of(kb, tank_seal="52 mm")["tank_seal"].perhaps == "fails"
    assert of(kb, tank_seal="50 mm")["tank_seal"].perhaps == ""


@pytest.mark.parametrize(
    ("scale", "said", "sum_"),
    [
        ("slop", "2 deg", "swing"),
        ("ingress_rate", "half a litre in 20 minutes", "bailing"),
        ("tank_seal", "80 mm", "seal"),
        ("tube_level", "5 mm", "tube"),
        ("panel_give", "30 %", "spring"),
    ],
)
def test_what_is_measured_at_a_boat_meets_its_sum(kb: KnowledgeBase, scale: str, said: str, sum_: str) -> None:
    assert [done.sum for done in of(kb, **{scale: said})[scale].sums] == [sum_]


def test_growth_says_how_long_the_line_is_in_a_year_where_its_length_is_known(kb: KnowledgeBase) -> None:
    assert of(kb, growth="6 mm")["growth"].sums == ()

    later = of(kb, growth="6 mm", crack_length="50 mm")["growth"].sums[0].told[0]

    assert later.low < 56 < later.high


def test_no_sum_is_made_of_what_has_no_end_or_no_number(kb: KnowledgeBase) -> None:
    assert of(kb, growth="over 10 mm", crack_length="50 mm")["growth"].sums == ()
    assert of(kb, panel_give="soft") == of(kb, panel_give="could not tell") == {}


def test_an_end_that_was_left_open_is_told_as_open(kb: KnowledgeBase) -> None:
    over = of(kb, panel_give="over 75 %")["panel_give"]

    assert (75, None) == (over.low, over.high)
    assert ("very soft", 75, None) == (over.level, over.least, over.most)


def test_the_full_report_shows_it_and_the_short_answer_does_not(assess_text: Callable[[str], Assessment]) -> None:
    measured = assess_text(ONE_MARK.format(give="4 mm against 3 mm"))

    for format_ in ("full", "html"):
        told = " ".join(render(measured, format_).split())
        assert "How what was measured was judged" in told
        assert words.ONE_SIDED in told
    assert "stiffness lost" not in render(measured, "text")
    assert "How what was measured" not in render(assess_text(ONE_MARK.format(give="soft")), "full")


def test_a_sum_changes_no_verdict(assess_text: Callable[[str], Assessment]) -> None:
    """However a level was come by, what is concluded from it is the same."""
    measured, by_name = (assess_text(ONE_MARK.format(give=give)).findings[0] for give in ("30 %", "soft"))

    assert measured.workings
    assert not by_name.workings
    assert (measured.verdict, measured.afloat, measured.hands) == (by_name.verdict, by_name.afloat, by_name.hands)


def test_no_quantity_of_a_worksheet_can_meet_an_owner(kb: KnowledgeBase) -> None:
    sheets = {one.id for one in kb.sums.values() if one.worksheet}

    assert {"patch", "mix", "cure", "coat"} == sheets
    assert not any(one.scale for id_ in sheets for one in kb.sums[id_].asks.values())


ARGUED = {
    ("panel_give", "spring", "excess", "stiffness_lost"): [9, 20, 43],
    ("panel_give", "spring", "excess", "thickness_lost"): [3, 7, 17],
    ("slop", "swing", "angle", "play"): [1.7, 3.5, 8.7],
}
"""What the argument of a scale says that a sum makes of its limits."""


@pytest.mark.parametrize(("what", "figures"), ARGUED.items(), ids=lambda value: str(value))
def test_the_argument_of_a_scale_says_what_the_sum_says(
    kb: KnowledgeBase, what: tuple[str, str, str, str], figures: list[float]
) -> None:
    scale, sum_, asked, told = what
    measure, basis, one = kb.scales[scale].measure, kb.scales[scale].basis, kb.sums[sum_]
    assert measure is not None
    assert basis is not None
    for limit, figure in zip(measure.limits, figures, strict=True):
        assert limit is not None
        took = exactly(limit * IN_SI[measure.unit] / IN_SI[one.asks[asked].unit])
        found = reckoned(one, {asked: took}).told[told]
        assert figure == pytest.approx(found.middle, rel=0.05)
        assert f"{figure:g}" in basis.argued


def test_water_limits_are_what_their_arguments_say(kb: KnowledgeBase) -> None:
    """20 L/h through 3 mm; a crack of 0.1 mm 7 L/h; a tube 0.4 L/h; 100 L that fail the class's air test under 1 L."""

    def flow(sum_: str, told: str, **took: float) -> float:
        return reckoned(kb.sums[sum_], {name: exactly(value) for name, value in took.items()}).told[told].high

    assert 20 == pytest.approx(flow("hole", "flow", diameter=3, depth=100), rel=0.1)
    assert 7 == pytest.approx(flow("crack", "flow", length=100, gap=0.1, wall=4, depth=100), rel=0.1)
    assert 21 == pytest.approx(flow("crack", "flow", length=100, gap=0.5, wall=4, depth=100) / 7, rel=0.15)
    assert flow("air_test", "water", volume=100, start=127, end=50.8, time=0.5) < 1
    assert 0.5 == pytest.approx(flow("tube", "flow", sinks=50), rel=0.2)
