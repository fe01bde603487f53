"""Lessons and cards in a real browser: nothing runs, they fit a phone and a projector, axe finds no barrier."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

import pytest

from tests.browser.barriers import barriers
from triage.knowledge.model import KnowledgeBase
from triage.views.lessons import render_confusions, render_lesson, render_quiz, render_sheet

if TYPE_CHECKING:
    from playwright.sync_api import Browser

pytestmark = pytest.mark.browser

PRINTS = ["learner", "trainer", "answers", "sheet", "cards", "quiz"]
LARGE = ["lesson-large", "cards-large", "quiz-large"]


@pytest.fixture(scope="module")
def folder(kb: KnowledgeBase, tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("lessons")
    lesson = kb.teaching.lessons["looking_and_feeling"]
    pages = {
        "learner": render_lesson(kb, lesson, "learner"),
        "trainer": render_lesson(kb, lesson, "trainer"),
        "answers": render_lesson(kb, lesson, "answers"),
        "sheet": render_sheet(kb),
        "cards": render_confusions(kb),
        "quiz": render_quiz(kb, 1),
        "lesson-large": render_lesson(kb, lesson, projector=True),
        "cards-large": render_confusions(kb, projector=True),
        "quiz-large": render_quiz(kb, 1, projector=True),
    }
    for name, page in pages.items():
        (folder / f"{name}.html").write_text(page, encoding="utf-8")
    return folder


@pytest.mark.parametrize("name", [*PRINTS, *LARGE])
@pytest.mark.parametrize("width", [320, 1280])
def test_it_fits_its_screen_fetches_nothing_and_axe_finds_no_barrier(
    browser: Browser, folder: Path, name: str, width: int
) -> None:
    page = browser.new_page(viewport={"width": width, "height": 800})
    said: list[str] = []
    page.on("console", lambda message: said.append(message.text))
    page.on("request", lambda request: said.append(request.url) if request.url.startswith("http") else None)
    page.goto((folder / f"{name}.html").as_uri())
    fits = page.evaluate("document.documentElement.scrollWidth") <= width
    quiet = list(said)

    found = barriers(page) if width == 320 else []  # what axe looks for does not change with the width

    assert fits
    assert [] == quiet
    assert [] == found


@pytest.mark.parametrize("name", LARGE)
@pytest.mark.parametrize("size", [(1024, 768), (1280, 720), (1920, 1080)])
def test_each_screen_is_seen_whole_on_a_projector(
    browser: Browser, folder: Path, name: str, size: tuple[int, int]
) -> None:
    page = browser.new_page(viewport={"width": size[0], "height": size[1]})
    page.goto((folder / f"{name}.html").as_uri())

    tallest = page.evaluate("Math.max(...[...document.querySelectorAll('.screen')].map(e => e.offsetHeight))")

    assert tallest <= size[1]


def test_enter_alone_goes_through_the_cards_and_tab_leads_back(browser: Browser, folder: Path) -> None:
    page = browser.new_page(viewport={"width": 1280, "height": 720})
    page.goto((folder / "quiz-large.html").as_uri())

    page.wait_for_function("document.activeElement.id === 's1'")
    for number in (2, 3, 4):
        page.keyboard.press("Enter")
        page.wait_for_url(f"**#s{number}")
    page.keyboard.press("Tab")
    page.keyboard.press("Enter")

    page.wait_for_url("**#s3")
    assert page.evaluate("Math.round(scrollY)") == 2 * 720
