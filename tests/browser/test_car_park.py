"""A buyer's first viewing in a car park without signal (J3), on the page: what was noted stays, and is decided upon."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from tests.browser.phone import Phone
from tests.browser.served import WebSpace

if TYPE_CHECKING:
    from playwright.sync_api import BrowserContext

pytestmark = [pytest.mark.browser, pytest.mark.xdist_group("page")]

SCREENS = (
    *("", "boat", "places", "near?zone=foredeck", "place?zone=foredeck", "walk", "walk?minutes=again", "advert"),
    *("viewing", "buy", "buy.html", "again", "due.ics", "survey.yaml", "report.html", "answer?ask=afloat"),
    *("answer?ask=cost", "answer?ask=cause", "answer?to=repairer", "answer?to=seller"),
)
"""What is read of a visit; none of it may need what the page does not have."""

STATUS = "async (to) => (await window.page.ask({ method: 'GET', address: to })).status"
DESK = {"width": 1200, "height": 900}


class Buyer(Phone):
    """Somebody who presses, and reads what comes of it."""

    def press(self, selector: str) -> str:
        """Press what is there, and wait for the next screen; what that says."""
        self.until_shown(self.page.locator(selector).first.click)
        return self.page.inner_text("main")

    def goes_to(self, address: str) -> str:
        self.until_shown(lambda: self.page.evaluate("(to) => { location.hash = to; }", f"#/{address}"))
        return self.page.inner_text("main")

    def fits(self) -> None:
        """Nothing beside the screen, at the width of a phone and of a desk."""
        phone = self.page.viewport_size
        for size in (DESK, phone):
            assert size
            self.page.set_viewport_size(size)  # type: ignore[arg-type]
            assert self.page.evaluate("document.documentElement.scrollWidth - innerWidth") <= 0


def test_a_viewing_goes_on_without_signal_to_its_decision(context: BrowserContext, space: WebSpace) -> None:
    buyer = Buyer(context.new_page())
    buyer.opens(space.address)
    visit = the_night_before(buyer)
    buyer.is_ready("offline")
    notes_a_fade(buyer, visit)

    space.end()
    context.set_offline(True)
    buyer.opens(f"{space.address}#/{visit}boat")
    buyer.page.wait_for_selector("html[data-shown]")
    assert "Side of the hull" in buyer.goes_to(f"{visit}places")
    finds_a_seam(buyer, visit)
    decides(buyer, visit)
    answered = {what: buyer.page.evaluate(STATUS, f"{visit}{what}") for what in SCREENS}
    assert set(answered.values()) == {200}, answered
    assert buyer.page.evaluate(STATUS, "teach") == 200
    assert buyer.said == []


def the_night_before(buyer: Buyer) -> str:
    """The advert, and the plan that comes of it."""
    buyer.is_ready()
    buyer.press("button[name=then][value=advert]")
    buyer.page.fill("#asking", "2200")
    buyer.page.fill("#currency", "GBP")
    plan = buyer.press("button:has-text('Keep and plan')")
    assert "bow to stern" in plan
    assert "torch, mirror" in plan
    buyer.fits()
    return "/".join((buyer.page.get_attribute("html", "data-address") or "").split("/")[:2]) + "/"


def notes_a_fade(buyer: Buyer, visit: str) -> None:
    buyer.goes_to(f"{visit}place?zone=topside&side=port")
    assert "Cosmetic" in buyer.press("button[value='mark/chalky_fade']")


def finds_a_seam(buyer: Buyer, visit: str) -> None:
    """Inside the bow, with no signal: asked about, one question at a time."""
    buyer.goes_to(f"{visit}place?zone=joint_bow")
    asked = buyer.press("button[value='mark/joint_crack']")
    assert "?" in asked
    buyer.fits()
    assert buyer.press("main .choices button") != asked


def decides(buyer: Buyer, visit: str) -> None:
    """One screen, with both marks and what nobody tried."""
    told = buyer.goes_to(f"{visit}buy")
    assert "Wait: a check first" in told
    assert "asking £2,200" in told
    assert "What nobody tried is not passed" in told
    buyer.fits()
    marks = buyer.goes_to(f"{visit}answer").casefold()
    assert "fade" in marks
    assert "crack along a seam" in marks
