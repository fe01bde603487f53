"""Views of an assessment: complete, well-formed, harmless whatever people write into their notes."""

from __future__ import annotations

import json
import re
from collections.abc import Callable
from dataclasses import replace
from html.parser import HTMLParser
from pathlib import Path
from typing import Literal

import jsonschema
import pytest

from triage.conclusions.assessment import Assessment
from triage.parsing.text import WIDTH
from triage.phrases.headings import NOT_LOOKED_AT
from triage.views.report import Format, assessment_schema, render

Assess = Callable[[str], Assessment]

OPEN = """
boat: {name: Wagtail}
findings:
  - {zone: side_deck, side: port, sign: hairline, readings: {crack_length: 9 cm}}
"""

HOSTILE = """
boat: {name: "<script>alert(1)</script> {{ 7*7 }}"}
visit: {by: "<img src=x onerror=alert(1)>"}
findings:
  - zone: topside
    sign: scuff
    note: "</style><script>alert(2)</script> {% include '/etc/passwd' %}"
    photos: ["javascript:alert(3).jpg"]
"""

VOID = {"meta", "br", "img"}


class Tags(HTMLParser):
    """Collects tags and checks that they nest."""

    def __init__(self) -> None:
        super().__init__()
        self.open: list[str] = []
        self.seen: list[str] = []
        self.links: list[str] = []

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.seen.append(tag)
        self.links.extend(value or "" for name, value in attrs if name in ("href", "src"))
        if tag not in VOID:
            self.open.append(tag)

    def handle_startendtag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.seen.append(tag)

    def handle_endtag(self, tag: str) -> None:
        assert self.open, f"</{tag}> closes nothing"
        assert self.open.pop() == tag


def read(html: str) -> Tags:
    tags = Tags()
    tags.feed(html)
    assert tags.open == []
    return tags


def test_the_text_report_fits_eighty_columns_and_has_no_escape_codes(assess_text: Assess) -> None:
    text = render(assess_text(OPEN), "text")

    assert max(len(line) for line in text.splitlines()) <= WIDTH
    assert "\033" not in text


def test_the_text_report_says_the_verdict_without_colour_and_shows_it_with(assess_text: Assess) -> None:
    plain = render(assess_text(OPEN), "text")
    coloured = render(assess_text(OPEN), "text", colour=True)

    assert "Not cleared: between cosmetic and structural" in plain
    assert plain == re.sub(r"\033\[[0-9;]*m", "", coloured)
    assert plain != coloured


@pytest.mark.parametrize("example", ["owner-one-crack", "club-boat"])
def test_the_page_is_well_formed_self_contained_and_speaks_to_screen_readers(
    assess_text: Assess, example: str, root: Path
) -> None:
    html = render(assess_text((root / f"examples/{example}.yaml").read_text()), "html")

    tags = read(html)

    assert all(link.startswith("#") for link in tags.links)
    assert "script" not in tags.seen
    assert '<html lang="en-GB">' in html
    assert "h1" in tags.seen
    assert "aria-label=" in html


def test_each_mark_is_drawn_beside_its_answer_and_one_that_was_only_measured_is_not(assess_text: Assess) -> None:
    seen, measured = (
        render(assess_text(f"boat: {{name: Ruff}}\nfindings: [{{zone: {mark}}}]"), "html")
        for mark in (
            "rudder_fittings, sign: worn_bush, readings: {slop: 1}",
            "end_tank, sign: nothing_seen, readings: {tank_water: 6 L}",
        )
    )

    assert 'id="glance-' in seen
    assert 'id="glance-' not in measured
    assert 'class="looks-so"' in measured


def test_a_hostile_note_stays_text(assess_text: Assess) -> None:
    html = render(assess_text(HOSTILE), "html")

    tags = read(html)
    assert "script" not in tags.seen
    assert "img" not in tags.seen
    assert "&lt;script&gt;alert(2)" in html
    assert "{{ 7*7 }}" in html


def test_a_note_cannot_drive_the_terminal(assess_text: Assess) -> None:
    assessment = replace(assess_text(OPEN), boat="\033]0;title\007Wagtail\033[31m")

    text = render(assessment, "text")

    assert "\033" not in text
    assert "\007" not in text


def test_the_json_report_has_its_published_shape_and_nothing_is_lost(assess_text: Assess) -> None:
    plain = json.loads(render(assess_text(OPEN), "json"))

    jsonschema.validate(plain, assessment_schema())

    assert plain["format"] == 3
    assert plain["findings"][0]["verdict"] == {
        "best": "cosmetic",
        "worst": "structural",
        "settled": False,
        "levels": [0, 2],
        "roles": ["looks", "weakened"],
    }
    assert plain["findings"][0]["readings"][0]["measured"] == "9 cm"


def test_every_report_names_what_was_not_looked_at_and_never_promises(assess_text: Assess) -> None:
    assessment = assess_text(OPEN)

    told: dict[Format, str] = {
        "text": "Not looked at, so not known: ",
        "full": NOT_LOOKED_AT,
        "html": NOT_LOOKED_AT,
    }
    for form, words in told.items():
        report = render(assessment, form)
        assert words in report
        assert re.search(r"\bsafe\b", report, re.IGNORECASE) is None


def test_what_somebody_wrote_cannot_turn_the_words_round_it(assess_text: Assess) -> None:
    name, note, by = ("\u202egatwai\u2067", "\u202eeton", "\u202eseni")
    assessment = replace(assess_text(OPEN), boat=name, note=note, by=by)
    finding = replace(assessment.findings[0], note=note, photos=(note, name))

    html = render(replace(assessment, findings=(finding,)), "html")

    assert 2 <= html.count(f"<bdi>{name}</bdi>")
    assert 3 <= html.count(f"<bdi>{note}</bdi>")
    assert f"<bdi>{by}</bdi>" in html
    assert "\u202e" not in re.sub(r"<bdi>[^<]*</bdi>", "", html)


def test_the_page_can_neither_be_sent_elsewhere_nor_send_anything(assess_text: Assess) -> None:
    policy = re.search(r'Content-Security-Policy" content="([^"]*)"', render(assess_text(OPEN), "html"))

    assert policy
    assert {"default-src 'none'", "base-uri 'none'", "form-action 'none'"} <= set(policy[1].split("; "))


OWN_LIMITS = """
boat: {name: Wagtail, facts: {deck: single, hull: single}}
findings:
  - {zone: side_deck, side: port, sign: hairline, readings: {panel_give: firm}}
  - {zone: side_deck, side: starboard, sign: hairline, readings: {panel_give: firm}}
  - {zone: topside, side: port, sign: nothing_seen, readings: {panel_give: firm, tap_dull: rings}}
"""


@pytest.mark.parametrize("as_", ["full", "html"])
def test_limits_of_our_own_are_told_once_for_each_scale_where_they_decide(
    assess_text: Assess, as_: Literal["text", "html"]
) -> None:
    a = assess_text(OWN_LIMITS)

    said = " ".join(re.sub(r"<[^>]+>", " ", render(a, as_)).split())

    assert all(one.verdict.settled for one in a.findings)
    assert 1 == said.count("The limits of “Spring of the panel” are our own estimate.")
    assert 1 == said.count("The limits of “Sound under a coin” are our own estimate.")
    assert 2 == said.count("our own estimate")


def test_nothing_is_said_of_limits_while_a_verdict_is_open_or_rests_on_published_ones(assess_text: Assess) -> None:
    published = "{zone: bottom, sign: gouge_fibre, readings: {depth: 3 mm}}"

    (still_open,) = assess_text(OPEN).findings
    (cut,) = assess_text(f"boat: {{name: Wagtail}}\nfindings: [{published}]").findings

    assert not still_open.verdict.settled
    assert cut.verdict.settled
    assert () == still_open.estimated == cut.estimated
