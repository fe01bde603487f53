"""A learner on a phone, by keyboard and without script; a trainer before a class; nothing that hinders anybody."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from typing import TYPE_CHECKING, Any

import pytest

from tests.browser.barriers import barriers
from tests.browser.served import served
from triage.app.application import create_app
from triage.knowledge.model import KnowledgeBase
from triage.log.held import HeldBoats
from triage.phrases import classroom as room
from triage.phrases import teaching as says

if TYPE_CHECKING:
    from playwright.sync_api import Browser, Page

pytestmark = pytest.mark.browser

PHONE, DESK, NARROW, WALL = 390, 1200, 320, 1920


@pytest.fixture(scope="module")
def address(kb: KnowledgeBase) -> Iterator[str]:
    """Where the program is served from memory."""
    with served(create_app(kb, HeldBoats(kb))) as address:
        yield address


@contextmanager
def learner(browser: Browser, address: str, **how: Any) -> Iterator[Page]:
    """A phone on the first screen of teaching; at the end its console must have been silent."""
    context = browser.new_context(viewport={"width": PHONE, "height": 844}, **how)
    context.set_default_timeout(60_000)  # a first look at a class fetches the statistics
    page = context.new_page()
    said: list[str] = []
    page.on("pageerror", lambda error: said.append(str(error)))
    page.on("console", lambda one: said.append(one.text) if one.type == "error" else None)
    page.goto(f"{address}teach")
    yield page
    context.close()
    assert said == []


def clean(page: Page, *widths: int) -> None:
    """The screen that is shown: nothing that hinders somebody, nothing to the side of it."""
    assert barriers(page) == [], page.url
    for width in (NARROW, DESK, *widths, PHONE):
        page.set_viewport_size({"width": width, "height": 844})
        assert page.evaluate("document.documentElement.scrollWidth - innerWidth") <= 0, (page.url, width)


def begin(page: Page, name: str) -> None:
    page.get_by_label(says.NICKNAME).fill(name)
    page.get_by_label(says.CODE).first.fill("GULL-2")
    page.get_by_text(says.MORE).click()
    page.get_by_label(says.NUMBER).fill("177")
    page.get_by_role("button", name=says.FIRST_CASE).click()
    page.get_by_role("heading", name=says.NAME_IT).wait_for()


def choose_first(page: Page) -> None:
    for group in page.get_by_role("group").all():
        group.get_by_role("radio").first.check()
    for choice in page.locator("form.judge select").all():
        choice.select_option(index=1)


@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_a_whole_run_and_what_the_trainer_sees_of_it(browser: Browser, address: str, scheme: str) -> None:
    with learner(browser, address, color_scheme=scheme) as page:
        whole_run(page, scheme, clean)
        page.goto(f"{address}teach/class/GULL-2/")
        clean(page, WALL)
        page.get_by_role("link", name=room.HOW_SURE).click()
        page.get_by_text("weighted kappa").wait_for()
        clean(page, WALL)
        page.goto(f"{address}teach/class/GULL-2/trainer")
        clean(page, WALL)
        page.go_back()
        page.get_by_role("link", name=says.PROJECT).click()
        page.get_by_text("Taken for each other").first.wait_for()


def test_a_whole_run_without_script(browser: Browser, address: str) -> None:
    with learner(browser, address, java_script_enabled=False) as page:
        whole_run(page, "plain", lambda _: None)


def whole_run(page: Page, name: str, look: Callable[[Page], None]) -> None:
    """A case is named, tried and judged; each screen is looked at."""
    look(page)
    begin(page, name)
    look(page)
    choose_first(page)
    page.get_by_role("button", name=says.GO_ON).click()
    page.get_by_role("heading", name=says.WHICH_CHECK).wait_for()
    look(page)
    page.get_by_role("button", name="Coin tap").first.click()
    page.get_by_role("heading", name=says.RESULTS).wait_for()
    assert page.get_by_text("a patch 30 to 100 mm across sounds dull").is_visible()
    look(page)
    page.get_by_role("button", name=says.ENOUGH).click()
    page.get_by_role("heading", name=says.YOUR_VERDICT).wait_for()
    look(page)
    choose_first(page)
    page.get_by_label(re.compile("How sure are you")).fill("75")
    page.get_by_role("button", name=says.DONE).click()
    page.get_by_role("heading", name=says.REASONS).wait_for()
    told = page.text_content("main")
    page.reload()
    assert page.text_content("main") == told
    look(page)


def test_every_control_is_large_enough_for_a_thumb(browser: Browser, address: str) -> None:
    with learner(browser, address) as page:
        begin(page, "Thumb")
        for one in page.locator("main button, main select, main .pick label, main a.btn").all():
            box = one.bounding_box()
            assert box is not None
            assert box["height"] >= 48, one.inner_text()


def test_a_run_by_keyboard_alone(browser: Browser, address: str) -> None:
    with learner(browser, address) as page:
        page.get_by_label(says.NICKNAME).focus()
        page.keyboard.type("Keys")
        page.keyboard.press("Enter")
        page.get_by_role("heading", name=says.NAME_IT).wait_for()
        for _ in range(3):
            _tab_to(page, "radio")
            page.keyboard.press("Space")
        _tab_to(page, "submit")
        page.keyboard.press("Enter")
        page.get_by_role("heading", name=says.WHICH_CHECK).wait_for()
        _tab_to(page, "submit")
        page.keyboard.press("Enter")
        page.get_by_role("heading", name=says.RESULTS).wait_for()


def _tab_to(page: Page, kind: str) -> None:
    for _ in range(40):
        page.keyboard.press("Tab")
        if page.evaluate("document.activeElement.type") == kind:
            return
    raise AssertionError(kind)


def test_on_a_telephone_the_mark_stays_in_sight_and_the_verdict_is_no_long_way(browser: Browser, address: str) -> None:
    with learner(browser, address) as page:
        begin(page, "Sight")
        choose_first(page)
        page.get_by_role("button", name=says.GO_ON).click()
        page.get_by_role("button", name="Coin tap").first.click()
        page.get_by_role("heading", name=says.RESULTS).wait_for()
        page.get_by_role("button", name=says.ENOUGH).click()
        page.get_by_role("heading", name=says.YOUR_VERDICT).wait_for()
        assert page.evaluate("document.documentElement.scrollHeight") < 3 * 844
        page.get_by_role("button", name=says.DONE).scroll_into_view_if_needed()
        seen = page.locator(".still-seen svg").bounding_box()
        assert seen is not None
        assert 0 <= seen["y"] < 100
