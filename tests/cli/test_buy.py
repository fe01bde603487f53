"""``triage buy`` as a buyer meets it: one screen, a note to the seller, data."""

from __future__ import annotations

import json
import re
from pathlib import Path

import textstat
from click.testing import CliRunner, Result

from tests.conftest import ROOT
from triage.cli import main

SURVEY = ROOT / "examples" / "buyers-walk-round.yaml"
OFFER = ROOT / "examples" / "offers" / "sanderling.yaml"

ONE_SCREEN = 60


def buy(*arguments: str | Path) -> Result:
    return CliRunner().invoke(main, ["buy", *map(str, arguments)])


def test_one_screen_holds_decision_reasons_price_and_words() -> None:
    result = buy(SURVEY, "--offer", OFFER)

    assert 1 == result.exit_code, result.output
    lines = result.output.splitlines()
    assert ONE_SCREEN >= len(lines)
    assert 80 >= max(map(len, lines))
    for part in (
        "Wait: a check first",
        "Because",
        "To turn it",
        "Price",
        "EUR",
        "budget of €3,000",
        "Say",
        "2026-10-10",
    ):
        assert part in result.output


def test_the_screen_is_easy_to_read() -> None:
    assert textstat.flesch_kincaid_grade(re.sub(r"[○◇■?]\s", "", buy(SURVEY, "--offer", OFFER).output)) <= 6


def test_the_same_files_give_the_same_screen() -> None:
    assert buy(SURVEY, "--offer", OFFER).output == buy(SURVEY, "--offer", OFFER).output


def test_the_note_says_what_was_found_and_nothing_that_was_only_suspected() -> None:
    note = buy(SURVEY, "--offer", OFFER, "--note").output

    assert "Thank you for showing me Sanderling" in note
    assert "crack along a seam" in note
    assert "cracks from a fitting" not in note
    assert not re.search("3,?000", note)
    assert "2800" not in note
    assert "by 2026-10-10" in note
    assert "looked at, by me or by a repairer: bow, stern or under-floor tanks; chainplate" in note


def test_whoever_has_not_been_at_the_boat_does_not_thank_for_being_shown_her(tmp_path: Path) -> None:
    told = tmp_path / "told.yaml"
    told.write_text("survey: 1\nboat: {name: Dunlin}\nfindings: [{zone: chainplate, sign: play, side: port}]\n")
    note = buy(told, "--offer", OFFER, "--note").output

    assert "showing" not in note
    assert "Dunlin" in note
    assert "from what was told or shown in pictures" in note


def test_json_holds_reasons_lines_and_quantiles() -> None:
    told = json.loads(buy(SURVEY, "--offer", OFFER, "--format", "json").output)

    assert "wait" == told["decision"]["best"]
    assert 4 == len(told["reasons"])
    assert told["sums"]["worth"]["p10"] < told["sums"]["worth"]["p50"] < told["sums"]["worth"]["p90"]
    assert all(line["kind"] for line in told["sums"]["lines"])


def test_an_offer_that_cannot_be_is_told_with_its_line(tmp_path: Path) -> None:
    spoilt = tmp_path / "offer.yaml"
    spoilt.write_text("currency: EUR\nasking: much\n", encoding="utf-8")

    result = buy(SURVEY, "--offer", spoilt)

    assert 2 == result.exit_code
    assert f"{spoilt}:2:" in result.output


def test_the_plan_fits_its_minutes_and_the_width_of_a_screen() -> None:
    result = CliRunner().invoke(main, ["plan", str(OFFER), "--minutes", "40"])

    assert 0 == result.exit_code, result.output
    assert "of 40 minutes, bow to stern" in result.output
    assert 80 >= max(map(len, result.output.splitlines()))


def test_a_page_is_written_and_an_offer_is_never_written_over(tmp_path: Path) -> None:
    page = tmp_path / "buy.html"

    assert "Written to" in buy(SURVEY, "--offer", OFFER, "-o", page).output
    assert page.read_text(encoding="utf-8").startswith("<!doctype html>")
    refused = buy(SURVEY, "--offer", OFFER, "-o", OFFER)
    assert 2 == refused.exit_code
    assert "would overwrite" in refused.output
