"""The walk of a buyer with forty minutes, on a phone; the boat by keyboard alone; a length from a photograph."""

from __future__ import annotations

import io
import re
from collections.abc import Iterator
from typing import TYPE_CHECKING

import pytest
from PIL import Image, ImageDraw

from tests.browser.barriers import barriers
from tests.browser.served import served
from triage.app.application import create_app
from triage.knowledge.model import KnowledgeBase
from triage.log.held import HeldBoats

if TYPE_CHECKING:
    from playwright.sync_api import Browser, FilePayload, Page

pytestmark = pytest.mark.browser

PHONE, DESK, NARROW = 390, 1200, 320


@pytest.fixture(scope="module")
def address(kb: KnowledgeBase) -> Iterator[str]:
    """The program, served from memory; no stroke at its end."""
    with served(create_app(kb, HeldBoats(kb))) as address:
        yield address.rstrip("/")


@pytest.fixture
def page(browser: Browser, address: str) -> Iterator[Page]:
    """A phone on the first screen; at the end its console must have been silent."""
    context = browser.new_context(viewport={"width": PHONE, "height": 844})
    page = context.new_page()
    said: list[str] = []
    page.on(
        "console",
        lambda message: (
            said.append(f"{message.text} {message.location}") if message.type in ("error", "warning") else None
        ),
    )
    page.on("pageerror", lambda error: said.append(str(error)))
    page.goto(f"{address}/")
    yield page
    context.close()
    assert said == []


def clean(page: Page) -> None:
    """The screen that is shown: nothing that hinders somebody, nothing to the side of it, at any width."""
    assert barriers(page) == [], page.url
    for width in (NARROW, DESK, PHONE):
        page.set_viewport_size({"width": width, "height": 844})
        assert page.evaluate("document.documentElement.scrollWidth - innerWidth") <= 0, (page.url, width)


def heading(page: Page, says: str) -> None:
    page.get_by_role("heading", level=1, name=says).wait_for()


def press(page: Page, says: str, role: str = "button") -> None:
    page.get_by_role(role, name=re.compile(says)).first.click()  # type: ignore[arg-type]


def test_a_buyer_walks_round_her_breaks_off_and_comes_back(page: Page) -> None:
    press(page, "Walk round")
    heading(page, "How much time is there?")
    clean(page)
    press(page, "45 minutes")
    heading(page, "Walk round her")
    clean(page)
    press(page, "Inside", "link")
    heading(page, "Inside")
    clean(page)

    wall = page.locator("#case_wall")
    assert "load it and watch the line" in wall.inner_text()
    wall.get_by_text("How to try it").click()
    assert wall.locator("figure svg").count() == 2
    wall.get_by_role("button", name="Tried: fine").click()
    page.get_by_text("tried, and passed").wait_for()
    assert "✓" in wall.inner_text()
    clean(page)

    page.goto(page.url.split("/walk")[0] + "/walk?leg=sides")
    page.locator("#topside").get_by_role("link", name="A mark").click()
    heading(page, "Side of the hull above water")
    clean(page)
    press(page, "^Dull, chalky|chalk|fade")
    page.get_by_role("link", name="On with the round").wait_for()

    visit = page.url
    press(page, "Boats", "link")
    heading(page, "Boats")
    page.goto(visit)
    press(page, "On with the round", "link")
    heading(page, "Walk round her")
    assert "1 of 18 looked at" in page.inner_text("main")
    press(page, "The answer so far", "link")
    page.wait_for_url("**/answer")
    assert "Side of the hull" in page.inner_text("body")


def test_the_seam_at_the_bow_in_six_taps_at_most(page: Page) -> None:
    taps = 0

    def tap(role: str, says: str) -> None:
        nonlocal taps
        press(page, says, role)
        taps += 1

    page.locator("form.views button").first.click()
    page.wait_for_url("**/boat*")
    clean(page)
    box = page.locator("#boat-deck").bounding_box()
    assert box is not None
    page.locator("#boat-deck").click(position={"x": 163 * box["width"] / 390, "y": 106 * box["width"] / 390})
    taps += 2
    heading(page, "Which of these?")
    clean(page)
    assert page.locator(".where-cut svg").count() == 4
    tap("link", "Seam between hull and deck at the bow")
    heading(page, "Seam between hull and deck at the bow")
    page.locator('button[value="mark/joint_crack"]').click()
    taps += 1
    page.locator("button.choice[name=number]").first.wait_for()
    assert taps <= 6


def test_the_boat_by_keyboard_alone(page: Page) -> None:
    page.locator("form.views button").first.focus()
    page.keyboard.press("Enter")
    page.wait_for_url("**/boat*")
    page.locator("#boat-deck a").first.wait_for()
    for _ in range(60):
        page.keyboard.press("Tab")
        if page.evaluate("document.activeElement.closest('svg') !== null"):
            break
    label = page.evaluate("document.activeElement.getAttribute('aria-label')")
    assert label.endswith("not looked at")
    page.keyboard.press("Enter")
    heading(page, "Which of these?")
    page.keyboard.press("Tab")
    page.keyboard.press("Enter")
    page.get_by_role("button", name="No mark: looks fine here").focus()
    page.keyboard.press("Enter")
    page.get_by_text("looked at, not tried.").wait_for()


def test_a_length_is_tapped_on_a_photograph_and_moved_by_keys(page: Page) -> None:
    page.locator("form.views button").first.click()
    page.wait_for_url("**/boat*")
    visit = page.url.split("boat")[0]
    page.goto(f"{visit}place?zone=side_deck&side=port")
    press(page, "^Single hairline")
    press(page, "Photographs", "link")
    heading(page, "Photographs")
    clean(page)
    page.set_input_files("#photo", {"name": "card.jpg", "mimeType": "image/jpeg", "buffer": card()})
    button = page.get_by_role("button", name="Keep it with this mark")
    button.click()
    press(page, "A length from it", "link")
    heading(page, "A length from the photograph")
    clean(page)
    assert page.locator(".no-script").is_hidden()

    picture = page.locator("svg.measure")
    box = picture.bounding_box()
    assert box is not None
    for x, y in ((300, 250), (1120, 250), (1120, 767), (300, 767), (300, 950), (875, 950)):
        picture.click(position={"x": x * box["width"] / 1600, "y": y * box["height"] / 1200})
    before = page.input_value("#corner1")
    page.locator("#corner1").focus()
    page.keyboard.press("ArrowLeft")
    moved = page.input_value("#corner1")
    assert int(before.split(",")[0]) - int(moved.split(",")[0]) == pytest.approx(4, abs=1)
    page.keyboard.press("ArrowRight")
    press(page, "Reckon it")
    page.get_by_text("The line is").wait_for()
    low, high = map(int, re.findall(r"The line is (\d+) to (\d+) mm", page.inner_text("#came"))[0])
    assert low < 60 < high
    press(page, "Answer with this")
    page.wait_for_url(visit)


def test_no_script_says_how_to_measure_with_a_ruler(browser: Browser, address: str, page: Page) -> None:
    page.locator("form.views button").first.click()
    page.wait_for_url("**/boat*")
    visit = page.url.split("boat")[0]
    headers = {"origin": address}
    page.request.post(
        f"{visit}place", form={"zone": "side_deck", "side": "port", "do": "mark/hairline"}, headers=headers
    )
    photo: FilePayload = {"name": "a.jpg", "mimeType": "image/jpeg", "buffer": card()}
    page.request.post(f"{visit}photos", multipart={"mark": "side_deck.port.hairline", "photo": photo}, headers=headers)
    plain = browser.new_context(viewport={"width": PHONE, "height": 844}, java_script_enabled=False).new_page()
    plain.goto(f"{visit}measure?mark=side_deck.port.hairline&name=photo-1.jpg")

    assert "Lay a ruler along the line" in plain.inner_text("main")
    assert plain.locator("[data-clear]").is_hidden()


def card() -> bytes:
    """A picture of a bank card square on, and a line of 60 mm beside it."""
    picture = Image.new("RGB", (1600, 1200), (230, 225, 210))
    pen = ImageDraw.Draw(picture)
    pen.rectangle((300, 250, 1120, 767), fill=(60, 90, 140))
    pen.line(((300, 950), (875, 950)), fill=(20, 20, 20), width=5)
    made = io.BytesIO()
    picture.save(made, "JPEG")
    return made.getvalue()
