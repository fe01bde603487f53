"""The HTML report in a real browser: nothing runs, nothing is fetched, it fits a phone, and axe finds no barrier."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Literal

import pytest

from tests.browser.barriers import barriers
from tests.conftest import ROOT
from triage.concluding.assess import assess_survey
from triage.knowledge.model import KnowledgeBase
from triage.survey.read import read_survey
from triage.views.report import render

if TYPE_CHECKING:
    from playwright.sync_api import Browser

pytestmark = pytest.mark.browser


@pytest.fixture
def report(kb: KnowledgeBase, tmp_path: Path) -> Path:
    page = tmp_path / "report.html"
    page.write_text(
        render(assess_survey(read_survey(ROOT / "examples/club-boat.yaml", kb), kb), "html"), encoding="utf-8"
    )
    return page


@pytest.mark.parametrize("width", [360, 820])
def test_the_page_fits_its_screen_and_the_console_stays_empty(browser: Browser, report: Path, width: int) -> None:
    page = browser.new_page(viewport={"width": width, "height": 800})
    said: list[str] = []
    page.on("console", lambda message: said.append(message.text))
    page.on("request", lambda request: said.append(request.url) if request.url.startswith("http") else None)

    page.goto(report.as_uri())

    assert page.evaluate("document.documentElement.scrollWidth") <= width
    assert said == []


@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_the_page_has_no_barriers_that_axe_can_find(
    browser: Browser, report: Path, scheme: Literal["light", "dark"]
) -> None:
    page = browser.new_page(color_scheme=scheme)
    page.goto(report.as_uri())

    assert [] == barriers(page)


def test_every_link_at_a_glance_leads_to_its_finding_by_keyboard(browser: Browser, report: Path) -> None:
    page = browser.new_page()
    page.goto(report.as_uri())

    page.keyboard.press("Tab")
    page.keyboard.press("Enter")

    page.wait_for_url("**#f1")
    assert page.locator("#f1").is_visible()


def test_on_paper_the_folded_reasons_are_printed_too(browser: Browser, report: Path) -> None:
    page = browser.new_page()
    page.goto(report.as_uri())

    page.emulate_media(media="print")

    heights = page.evaluate(
        "[...document.querySelectorAll('details.reasons .chain')].map(e => e.getBoundingClientRect().height)"
    )
    assert heights
    assert all(height > 0 for height in heights)
