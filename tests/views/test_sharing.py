"""What is sent to somebody: short enough, nothing that matters left out, and nothing that is not theirs to read."""

from __future__ import annotations

import re
from collections.abc import Callable

from click.testing import CliRunner
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.conftest import ROOT
from tests.laws.ranges import shipped
from tests.strategies import boats_with_findings
from triage.cli import main
from triage.concluding.assess import assess_survey
from triage.conclusions.assessment import Assessment
from triage.phrases import sharing, short
from triage.survey.model import Survey

Assess = Callable[[str], Assessment]

CRACK = """
boat: {name: Wagtail, length: 4.2 m, facts: {deck: single}}
visit: {on: 2026-04-11, by: Ines}
happened: [hit the bottom]
findings:
  - zone: chainplate
    side: port
    sign: fastener_cracks
    readings: {crack_length: 25 mm, fitting_play: 0}
    note: Five fine lines.
    photos: [anchor.jpg]
  - {zone: topside, side: port, sign: chalky_fade}
"""


HAIRLINES = ("topside", "bottom", "chine", "foredeck", "side_deck", "cockpit_floor", "thwart", "transom", "chainplate")


@settings(max_examples=25, deadline=None)
@given(data=st.data())
def test_a_message_is_short_and_always_says_what_must_be_said(data: st.DataObject) -> None:
    kb = shipped()
    boat, found = data.draw(boats_with_findings(kb, most=8))

    text = sharing.message(assess_survey(Survey(boat, found), kb))

    assert len(text) <= sharing.MESSAGE_LENGTH
    for part in ("Sailing: ", "Towing: ", "looked at", short.DEFERS):
        assert part in text
    assert re.search(r"\bsafe\b", text, re.IGNORECASE) is None


def test_marks_that_do_not_fit_are_counted(assess_text: Assess) -> None:
    many = "\n".join(f"  - {{zone: {zone}, sign: hairline}}" for zone in HAIRLINES)
    assessment = assess_text(f"boat: {{name: {'Dunlin ' * 12}}}\nfindings:\n{many}")

    text = sharing.message(assessment)

    assert len(text) <= sharing.MESSAGE_LENGTH
    assert re.search(r"\d more marks?\.", text)


def test_a_repairer_reads_what_was_found_and_not_tried_and_no_advice(assess_text: Assess) -> None:
    text = "\n".join(sharing.brief(assess_text(CRACK)))

    for part in (
        "4.2 m long; deck: single",
        "chainplate",
        "Length of the line 25 mm",
        "Not tested: ",
        "anchor.jpg",
        "Five",
    ):
        assert part in text
    assert re.search(r"\bhours\b|\bprice \d|get a quote", text) is None


def test_a_seller_reads_no_verdict_no_price_and_no_blame(assess_text: Assess) -> None:
    text = "\n".join(sharing.note(assess_text(CRACK)))

    assert "Shroud anchor on deck, port: Cracks from a fitting" in text
    assert "Chalky fade" not in text
    for word in ("structural", "monitor", "ashore", "hours", "repairer"):
        assert word not in text


def test_a_seller_is_asked_for_no_check_that_takes_something_off(assess_text: Assess) -> None:
    assessment = assess_text("boat: {name: Wagtail}\nfindings: [{zone: stem, sign: hairline}]")
    checks = [check for job in assessment.jobs for check in job.checks if check.check]
    opening, others = ({one.name for one in checks if (one.dismantling != "none") == opens} for opens in (True, False))

    asked = {line.removeprefix("- ").partition(":")[0] for line in sharing.note(assessment) if line.startswith("- ")}

    assert opening
    assert asked
    assert asked <= others - opening


def test_the_command_makes_each_of_them() -> None:
    for to, words in (("anyone", "Sailing: "), ("repairer", "Judged: "), ("seller", "Thank you for showing me Dunlin")):
        result = CliRunner().invoke(main, ["share", str(ROOT / "examples/club-boat.yaml"), "--to", to])
        assert (0, True) == (result.exit_code, words in result.output)


def test_a_seller_who_has_shown_nothing_is_not_thanked(assess_text: Assess) -> None:
    advert = "\n".join(sharing.note(assess_text("boat: {name: Wagtail}\nfindings: [{zone: stem, sign: hairline}]")))
    shown = "\n".join(sharing.note(assess_text(CRACK)))

    assert "Thank you" not in advert
    assert "from what was told or shown in pictures" in advert
    assert shown.startswith("Thank you for showing me")
