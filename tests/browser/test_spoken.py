"""What an answer changed is heard by whoever does not see it: read in the tree that a screen reader is given."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

import pytest

from tests.browser.barriers import barriers
from tests.browser.served import served
from tests.browser.test_screens import PHONE, STORY
from triage.app.application import create_app
from triage.knowledge.model import KnowledgeBase
from triage.log.held import HeldBoats

if TYPE_CHECKING:
    from playwright.sync_api import Browser, Page

pytestmark = pytest.mark.browser

AS_IT_COMES = """() => document.addEventListener("shown", () => {
    document.body.dataset.came = document.querySelector("[role=status]")?.textContent ?? "none";
})"""


@pytest.fixture
def page(browser: Browser, kb: KnowledgeBase) -> Iterator[Page]:
    """Somebody at the first question about a mark."""
    with (
        served(create_app(kb, HeldBoats(kb))) as address,
        browser.new_context(viewport={"width": PHONE, "height": 844}) as one,
    ):
        page = one.new_page()
        page.goto(address)
        page.fill("textarea", STORY)
        page.click("text=Read it")
        page.click("text=That is right")
        page.wait_for_selector("[data-screen=asked]")
        page.wait_for_selector("html:not([aria-busy])")
        page.evaluate(AS_IT_COMES)
        yield page


def test_what_an_answer_changed_is_said_in_a_line_that_was_there_before_its_words(page: Page) -> None:
    page.click("text=the base of the fitting stays still")

    page.get_by_role("status").filter(has_text="Noted: the base of the fitting stays still").wait_for()
    tree = page.locator("main").aria_snapshot()
    assert (
        '- status: "Noted: the base of the fitting stays still under a hard pull. That alone does not move it."' in tree
    )
    assert tree.count("- status") == 1
    assert page.locator("body").get_attribute("data-came") == ""
    assert page.evaluate("document.activeElement.tagName") == "H1"
    assert barriers(page) == []


def test_why_something_is_asked_is_said(page: Page) -> None:
    page.click("text=Why?")

    page.locator("body[data-came='']").wait_for()
    told = page.locator("#why p").first.inner_text()
    page.get_by_role("status").filter(has_text=told).wait_for()


def test_what_was_noted_at_a_place_is_said_while_the_button_keeps_the_focus(page: Page) -> None:
    page.goto(f"{page.url}walk")
    page.click("text=45 minutes")
    page.wait_for_selector("h1:has-text('Walk round her')")
    page.goto(page.url.partition("?")[0] + "?leg=sides")
    page.evaluate(AS_IT_COMES)
    pressed = page.locator("button[value=looks]").first
    name = pressed.get_attribute("id")
    pressed.click()

    page.get_by_role("status").filter(has_text="looked at, not tried").wait_for()
    assert page.evaluate("document.activeElement.id") == name
