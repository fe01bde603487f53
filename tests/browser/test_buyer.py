"""Two buyers on a phone: one in a car park with forty minutes, one at a distance with photographs alone."""

from __future__ import annotations

import re
import socket
import threading
import time
from collections.abc import Iterator
from dataclasses import replace
from typing import TYPE_CHECKING

import pytest
import uvicorn

from tests.browser.barriers import barriers
from tests.log.keepers import wagtail
from triage.app.application import create_app
from triage.knowledge.model import KnowledgeBase
from triage.log.held import HeldBoats
from triage.survey.model import Finding, Reading

if TYPE_CHECKING:
    from playwright.sync_api import Browser, Page

pytestmark = pytest.mark.browser

PHONE, DESK, NARROW = 390, 1200, 320
FLOOR = Finding("floor", "cockpit_floor", "hairline")
SEAM = Finding("seam", "joint_bow", "joint_crack", None, {"joint_gap": Reading.at(2)})
SCUFF = Finding("scuff", "transom", "scuff")
TYRE = Finding("tyre", "trailer_run", "tyre_old", None, {"road_gear": Reading.at(2)})


@pytest.fixture(scope="module")
def boats(kb: KnowledgeBase) -> HeldBoats:
    return HeldBoats(kb)


@pytest.fixture(scope="module")
def served(kb: KnowledgeBase, boats: HeldBoats) -> Iterator[str]:
    """The program, served from memory."""
    listening = socket.socket()
    listening.bind(("127.0.0.1", 0))
    server = uvicorn.Server(uvicorn.Config(create_app(kb, boats), log_level="error"))
    thread = threading.Thread(target=server.run, kwargs={"sockets": [listening]}, daemon=True)
    thread.start()
    while not server.started:
        time.sleep(0.05)
    yield f"http://127.0.0.1:{listening.getsockname()[1]}"
    server.should_exit = True
    thread.join(10)


@pytest.fixture
def page(browser: Browser, served: str) -> Iterator[Page]:
    """A phone on the first screen; at the end its console must have been silent."""
    context = browser.new_context(viewport={"width": PHONE, "height": 844})
    page = context.new_page()
    said: list[str] = []
    page.on("console", lambda message: said.append(message.text) if message.type in ("error", "warning") else None)
    page.on("pageerror", lambda error: said.append(str(error)))
    page.goto(f"{served}/")
    yield page
    context.close()
    assert said == []


def clean(page: Page) -> None:
    """The screen that is shown, with all of it unfolded: nothing that hinders somebody, nothing beside it."""
    page.evaluate("document.querySelectorAll('details').forEach(one => one.open = true)")
    assert barriers(page) == [], page.url
    small = """[...document.querySelectorAll(`main a.btn, main button, .bar .btn, main input:not([type=hidden]),
        main select, main summary, label.tick`)].filter(one => !one.closest("label.tick") || one.matches("label"))
        .filter(one => one.offsetParent && one.getBoundingClientRect().height < 48).map(one => one.outerHTML)"""
    assert page.evaluate(small) == [], page.url
    for width in (NARROW, DESK, PHONE):
        page.set_viewport_size({"width": width, "height": 844})
        assert page.evaluate("document.documentElement.scrollWidth - innerWidth") <= 0, (page.url, width)


def heading(page: Page, says: str) -> None:
    page.get_by_role("heading", level=1, name=re.compile(says)).wait_for()


def press(page: Page, says: str, role: str = "button") -> None:
    page.get_by_role(role, name=re.compile(says)).first.click()  # type: ignore[arg-type]


def words(page: Page) -> str:
    return page.inner_text("main")


def test_the_night_before_then_forty_minutes_in_a_car_park(page: Page) -> None:
    press(page, "Buying")
    heading(page, "The advert")
    clean(page)
    page.fill("#asking", "2,200")
    page.fill("#currency", "GBP")
    page.fill("#sound_least", "1900")
    page.fill("#sound_most", "2300")
    page.fill("#number", "QQ-XYZOO123E526")
    press(page, "read the number")
    page.get_by_text("is no hull number").wait_for()
    assert "it may be" in words(page)
    page.fill("#number", "QQ-XYZ00123E526")
    page.fill("#claimed_year", "2025")
    press(page, "Keep and plan")

    heading(page, "of 40 minutes, bow to stern")
    clean(page)
    for needed in ("torch, mirror", "tape measure", "cloth"):
        assert needed in words(page)
    assert "How old are the sails and the standing wires" in words(page)
    assert "trailer's tyres" in words(page)

    press(page, "Walk round", "link")
    press(page, "40|45 minutes")
    heading(page, "Walk round her")
    visit = page.url.split("walk")[0]
    page.goto(f"{visit}place?zone=topside&side=port")
    press(page, "^Dull, chalky|chalk|fade")
    page.get_by_role("link", name="On with the round").wait_for()
    page.goto(f"{visit}place?zone=joint_bow")
    page.locator('button[value="mark/joint_crack"]').click()
    page.locator("button.choice[name=number]").first.wait_for()

    page.goto(f"{visit}buy")
    heading(page, "Wait: a check first")
    clean(page)
    said = words(page)
    assert "As far as anybody knows, she is worth £" in said
    assert "They all do that" in said
    assert "What nobody tried is not passed" in said
    assert 4 >= page.locator("section.job").count()
    assert "asking £2,200" in page.content()
    assert not re.search(r"\d+ ?/ ?100|score", said)


def test_she_looks_the_same_after_they_all_do_that(page: Page, boats: HeldBoats, served: str) -> None:
    kept = boats.begin(wagtail(SEAM))
    page.goto(f"{served}/visit/{kept.visit}/buy")
    before = page.inner_text("h1")
    page.goto(f"{served}/visit/{kept.visit}/")
    page.fill("#text", "They all do that")
    page.keyboard.press("Enter")
    page.wait_for_load_state("networkidle")
    page.goto(f"{served}/visit/{kept.visit}/buy")

    assert before == page.inner_text("h1")


def test_photographs_alone_and_a_deposit_wanted_today(page: Page, boats: HeldBoats, served: str) -> None:
    kept = boats.begin(wagtail(FLOOR, TYRE, SCUFF))
    at = f"{served}/visit/{kept.visit}"
    page.goto(f"{at}/advert")
    for folded in ("What you noticed", "Only seen in photographs"):
        page.locator("summary", has_text=folded).click()
    for tick in ("Fresh paint or new coat", "A deposit is wanted", "The money is wanted today"):
        page.get_by_label(re.compile(tick)).check()
    for mark in page.locator('input[name^="photo/"]').all():
        mark.check()
    press(page, "Keep and plan")
    heading(page, "minutes, bow to stern")
    clean(page)
    asked = page.inner_text("#asks").splitlines()
    assert 6 <= len(asked) <= 8
    assert any("film" in one and "floor" in one for one in asked)
    assert "They cannot show whether a panel gives" in words(page)
    assert "Pay no deposit" in words(page)

    press(page, "Decision", "link")
    heading(page, "Wait: a check first")
    clean(page)
    said = words(page)
    assert "Only seen in a photograph" in said
    assert "Pay no deposit today" in said
    assert "Do not tow her home on it" in said
    assert not re.search("thief|stole|liar|fraud", said, re.IGNORECASE)
    before = to_pay(said)

    answered = replace(FLOOR, readings={"panel_give": Reading.at(0), "tap_dull": Reading.at(0)})
    boats.save(boats.open(kept.visit), wagtail(answered, TYRE, SCUFF))
    page.reload()
    assert to_pay(words(page)) < before
    heading(page, "Wait: a check first")


def to_pay(said: str) -> int:
    """The most that is to pay, as the screen says it."""
    return int(re.findall(r"What is to pay comes to €[\d,]+ to €([\d,]+)", said)[0].replace(",", ""))


def test_the_page_of_the_decision_is_whole(page: Page, boats: HeldBoats, served: str) -> None:
    kept = boats.begin(wagtail(SEAM))
    boats.keep_offer(kept.boat, {"currency": "GBP", "asking": 2200, "sound": [1900, 2300], "year": 2026})
    page.goto(f"{served}/visit/{kept.visit}/buy.html")
    assert page.locator("svg.band").count() == 1
    for width in (NARROW, DESK, PHONE):
        page.set_viewport_size({"width": width, "height": 844})
        assert page.evaluate("document.documentElement.scrollWidth - innerWidth") <= 0, width
    assert barriers(page) == []
