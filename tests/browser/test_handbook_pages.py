"""The handbook in a real browser: it fits a phone, works with the keyboard, and axe finds no barrier."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

import pytest

from tests.browser.barriers import barriers
from triage.knowledge.model import KnowledgeBase
from triage.views.handbook import write_handbook

if TYPE_CHECKING:
    from playwright.sync_api import Browser

pytestmark = pytest.mark.browser

PAGES = [
    "index",
    "walk",
    "signs",
    "checks",
    "scales",
    "causes",
    "rules",
    "repairs",
    "sources",
    "a_to_z",
    "rules-damage-seams",
]


@pytest.fixture(scope="module")
def folder(kb: KnowledgeBase, tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("handbook") / "new"
    write_handbook(kb, folder)
    return folder


@pytest.mark.parametrize("name", PAGES)
def test_a_page_fits_a_phone_and_fetches_nothing_from_elsewhere(browser: Browser, folder: Path, name: str) -> None:
    page = browser.new_page(viewport={"width": 360, "height": 800})
    said: list[str] = []
    page.on("console", lambda message: said.append(message.text))
    page.on("request", lambda request: said.append(request.url) if request.url.startswith("http") else None)

    page.goto((folder / f"{name}.html").as_uri())

    assert page.evaluate("document.documentElement.scrollWidth") <= 360
    assert [] == said


@pytest.mark.parametrize("name", ["index", "scales", "sources", "rules-damage-seams"])
def test_axe_finds_no_barrier(browser: Browser, folder: Path, name: str) -> None:
    page = browser.new_page()
    page.goto((folder / f"{name}.html").as_uri())

    assert [] == barriers(page)


def test_the_keyboard_reaches_the_text_first_and_opens_what_is_folded(browser: Browser, folder: Path) -> None:
    page = browser.new_page()
    page.goto((folder / "signs.html").as_uri())

    page.keyboard.press("Tab")
    first = page.evaluate("document.activeElement.textContent")
    page.locator(".jump summary").focus()
    page.keyboard.press("Enter")

    assert "Skip to the text" == first
    assert page.locator(".jump details").evaluate("it => it.open")


def test_on_paper_menus_and_examples_are_left_out(browser: Browser, folder: Path) -> None:
    page = browser.new_page()
    page.goto((folder / "rules-damage-seams.html").as_uri())

    page.emulate_media(media="print")

    assert not page.locator("nav").first.is_visible()
    assert not page.locator(".cases").first.is_visible()
    assert page.locator("article").first.is_visible()
