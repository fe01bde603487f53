"""The screens in a real browser: an owner's first check at the width of a phone, by finger and by keyboard."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

import pytest

from tests.browser.barriers import barriers
from tests.browser.served import served
from triage.app.application import create_app
from triage.knowledge.model import KnowledgeBase
from triage.log.held import HeldBoats

if TYPE_CHECKING:
    from playwright.sync_api import Browser, Locator, Page

pytestmark = pytest.mark.browser

STORY = "crack where the mast wires bolt on, about an inch, port side"
PHONE, NARROW = 390, 320


@pytest.fixture(scope="module")
def address(kb: KnowledgeBase) -> Iterator[str]:
    """The program, served on this machine."""
    with served(create_app(kb, HeldBoats(kb))) as address:
        yield address


class Phone:
    """A page whose every screen is looked at: nothing inaccessible, nothing wider than the screen."""

    def __init__(self, page: Page) -> None:
        self.page, self.said = page, list[str]()
        page.on("console", lambda message: self.said.append(message.text))
        page.on("pageerror", lambda error: self.said.append(str(error)))

    def settled(self) -> str:
        """The screen that is shown once it has come, after looking at it."""
        self.arrived()
        assert barriers(self.page) == []
        assert not self.too_wide()
        assert not self.small_targets()
        return self.page.get_attribute("main", "data-screen") or ""

    def arrived(self) -> None:
        """Wait for the answer."""
        self.page.wait_for_timeout(60)
        self.page.wait_for_selector("html:not([aria-busy])")

    def too_wide(self) -> list[str]:
        """What reaches beyond the screen, where that makes it scroll sideways."""
        return list(
            self.page.evaluate(
                """() => [...document.querySelectorAll("body *")]
                .filter((one) => document.documentElement.scrollWidth > innerWidth
                    && one.getBoundingClientRect().right > innerWidth + 1)
                .map((one) => one.outerHTML.slice(0, 120))"""
            )
        )

    def small_targets(self) -> list[str]:
        """What is pressed and lower than a finger in a glove wants it; a box to tick is pressed with its label."""
        return list(
            self.page.evaluate(
                """() => [...document.querySelectorAll("button, a.btn, input:not([type=hidden]), textarea, summary")]
                .filter((one) => one.offsetParent
                    && (one.closest("label") ?? one).getBoundingClientRect().height < 47.5)
                .map((one) => one.outerHTML.slice(0, 120))"""
            )
        )

    def broken_words(self) -> list[str]:
        """The words of buttons that go on in the next line."""
        return list(
            self.page.evaluate(
                """() => [...document.querySelectorAll("button, a.btn")].flatMap((one) => {
                    if (!one.offsetParent) return [];
                    const broken = [], within = document.createTreeWalker(one, NodeFilter.SHOW_TEXT);
                    while (within.nextNode()) {
                        for (const word of within.currentNode.data.matchAll(/\\p{L}+/gu)) {
                            const range = document.createRange();
                            range.setStart(within.currentNode, word.index);
                            range.setEnd(within.currentNode, word.index + word[0].length);
                            if (range.getClientRects().length > 1) broken.push(word[0]);
                        }
                    }
                    return broken;
                })"""
            )
        )

    def press(self, words: str) -> None:
        self.page.locator("button, a.btn", has_text=words).first.click()


@pytest.fixture(params=["light", "dark"])
def phone(browser: Browser, request: pytest.FixtureRequest) -> Iterator[Phone]:
    context = browser.new_context(viewport={"width": PHONE, "height": 844}, color_scheme=request.param)
    yield Phone(context.new_page())
    context.close()


def walk_to_the_answer(phone: Phone, address: str) -> list[str]:
    """J1 as far as the answer; which screens were shown."""
    phone.page.goto(address)
    seen = [phone.settled()]
    phone.page.fill("textarea", STORY)
    phone.press("Read it")
    seen.append(phone.settled())
    phone.press("That is right")
    seen.append(phone.settled())
    phone.press("the base of the fitting stays still")
    phone.arrived()
    for _ in range(5):
        if phone.page.get_attribute("main", "data-screen") == "ended":
            break
        phone.press("Could not tell")
        phone.arrived()
    seen.append(phone.settled())
    phone.press("The answer")
    seen.append(phone.settled())
    return seen


def test_an_owner_gets_to_the_answer_on_screens_that_everybody_can_use(phone: Phone, address: str) -> None:
    assert walk_to_the_answer(phone, address) == ["start", "understood", "asked", "ended", "answer"]
    phone.press("What will it cost?")
    assert phone.settled() == "answer"
    phone.press("Boats")
    assert phone.settled() == "boats"
    phone.page.set_viewport_size({"width": NARROW, "height": 600})
    phone.page.go_back()
    assert phone.settled() == "answer"
    assert not phone.said


def test_nothing_is_wider_than_a_narrow_screen(browser: Browser, address: str) -> None:
    context = browser.new_context(viewport={"width": NARROW, "height": 640})
    phone = Phone(context.new_page())
    assert walk_to_the_answer(phone, address)[-1] == "answer"
    phone.page.goto(address)
    phone.page.fill("textarea", "chip on the stem edge. soft deck somewhere near the front. cracks by a bolt")
    phone.press("Read it")
    assert phone.settled() == "story"
    phone.press("Keep all")
    assert phone.settled() == "choices"
    context.close()


def test_letters_of_twice_the_size_break_no_button_and_nothing_covers_what_is_read(
    browser: Browser, address: str
) -> None:
    context = browser.new_context(viewport={"width": PHONE // 2, "height": 422}, device_scale_factor=2)
    phone = Phone(context.new_page())
    broken = []
    phone.page.goto(address)
    for press in ("", "Read it", "That is right", "the base of the fitting stays still", "Could not tell"):
        if press == "Read it":
            phone.page.fill("textarea", STORY)
        if press:
            phone.press(press)
        phone.settled()
        broken += phone.broken_words()
    assert broken == []
    assert phone.page.locator(".bar").evaluate("(one) => getComputedStyle(one).position") == "static"
    context.close()


def test_everything_is_reached_by_keyboard_alone(browser: Browser, address: str) -> None:
    context = browser.new_context(viewport={"width": 1200, "height": 900})
    page = context.new_page()
    page.goto(address)

    def to(words: str) -> None:
        for _ in range(60):
            page.keyboard.press("Tab")
            if words in page.evaluate("document.activeElement.textContent || document.activeElement.id"):
                return
        raise AssertionError(f"“{words}” is not reached")

    page.keyboard.press("Tab")
    page.locator("textarea").focus()
    page.keyboard.type(STORY)
    to("Read it")
    page.keyboard.press("Enter")
    page.wait_for_selector("[data-screen=understood]")
    assert page.evaluate("document.activeElement.tagName") == "H1", "a reader hears the new screen"
    to("yes, that is right")
    page.keyboard.press("Enter")
    page.wait_for_selector("[data-screen=asked]")
    to("the base of the fitting stays still")
    page.keyboard.press("Space")
    page.wait_for_selector("text=What spreads the load")
    context.close()


def test_the_same_without_script(browser: Browser, address: str) -> None:
    context = browser.new_context(viewport={"width": PHONE, "height": 844}, java_script_enabled=False)
    page = context.new_page()
    page.goto(address)
    page.fill("textarea", STORY)
    page.click("text=Read it")
    page.click("text=That is right")
    page.click("text=the base of the fitting stays still")
    assert page.locator("h1").inner_text() == "What spreads the load behind the fitting?"
    context.close()


def test_the_first_choice_is_seen_with_its_question(browser: Browser, address: str) -> None:
    with browser.new_context(viewport={"width": PHONE, "height": 844}) as context:
        phone = Phone(context.new_page())
        phone.page.goto(address)
        phone.page.fill("textarea", STORY)
        phone.press("Read it")
        phone.arrived()
        phone.press("That is right")
        phone.arrived()
        bar, choice = phone.page.locator(".bar"), phone.page.locator("button.choice").first
        assert _top(choice) < _top(bar)
        phone.press("the base of the fitting stays still")
        phone.arrived()
        assert _top(choice) + phone.page.evaluate("document.querySelector('button.choice').offsetHeight") < _top(bar)


def _top(one: Locator) -> float:
    box = one.bounding_box()
    assert box
    return box["y"]
