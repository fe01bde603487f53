"""A repairer looks over a boat for somebody who thinks of buying her (J8): out of order, fair, and on one sheet."""

from __future__ import annotations

import re
from collections.abc import Iterator
from typing import TYPE_CHECKING

import pytest

from tests.browser.served import served
from tests.browser.test_repairer import Repairer
from triage.app.application import create_app
from triage.knowledge.model import KnowledgeBase
from triage.log.held import HeldBoats

if TYPE_CHECKING:
    from playwright.sync_api import Browser

pytestmark = pytest.mark.browser

ADVERT = "1998 dinghy, £2,400 ono. Road trailer included. Sails 6 years old. Lying Saltmere."


@pytest.fixture(scope="module")
def address(kb: KnowledgeBase) -> Iterator[str]:
    """The program, served on this machine."""
    with served(create_app(kb, HeldBoats(kb))) as address:
        yield address


@pytest.fixture(params=[390, 1280])
def repairer(browser: Browser, request: pytest.FixtureRequest) -> Iterator[Repairer]:
    context = browser.new_context(viewport={"width": request.param, "height": 844})
    yield Repairer(context.new_page())
    context.close()


def test_a_fair_opinion_that_both_sides_can_follow(repairer: Repairer, address: str) -> None:
    visit = the_advert_is_pasted(repairer, address)
    goes_round_out_of_order(repairer, visit)
    says_what_it_comes_to(repairer, visit)
    prints_the_page(repairer, visit)
    assert repairer.said == []


def the_advert_is_pasted(repairer: Repairer, address: str) -> str:
    """Understood, shown with its words, and kept only then."""
    repairer.opens(address)
    repairer.press("Buying")
    repairer.settled()
    repairer.page.fill("#words", ADVERT)
    repairer.press("Read it")
    repairer.settled()
    assert "Asking price: £2,400; Year she was built, as the seller says: 1998" in repairer.reads
    assert ("2400", "GBP") == tuple(repairer.page.input_value(name) for name in ("#asking", "#currency"))
    repairer.page.fill("#called", "Sanderling")
    repairer.page.fill("#sound_least", "2600")
    repairer.page.fill("#sound_most", "3000")
    repairer.press("Keep and plan")
    repairer.settled()
    return repairer.page.url.partition("viewing")[0]


def goes_round_out_of_order(repairer: Repairer, visit: str) -> None:
    """A dull band on the deck, wet blisters below, an old patch, and nothing asks for another order."""
    finds(repairer, f"{visit}place?zone=side_deck&side=starboard", "dull_tap", "60 mm")
    assert "its twin on the other side" in repairer.heading, "a band is pressed beside its twin, and not condemned"
    finds(repairer, f"{visit}place?zone=bottom", "blister", "10 to 25 mm", "one skin of glass", "sticky")
    finds(repairer, f"{visit}place?zone=topside&side=port", "old_repair", "flush and hard", "firm as a good place")
    assert repairer.heading == "Cosmetic."


def finds(repairer: Repairer, place: str, mark: str, *answers: str) -> None:
    repairer.opens(place)
    repairer.page.locator(f'button[value="mark/{mark}"]').click()
    repairer.settled()
    for answer in answers:
        repairer.says(answer)


def says_what_it_comes_to(repairer: Repairer, visit: str) -> None:
    """The band is open, the patch costs nothing, and what nobody opened is said."""
    told = repairer.opens(f"{visit}buy")
    assert "Wait: a check first, money after it" in told
    assert "Side deck, starboard: dull sound" in told
    assert "old repair" not in told.lower().partition("how the price is made up")[2]
    assert "What nobody tried is not passed" in told


def prints_the_page(repairer: Repairer, visit: str) -> None:
    """One sheet: what was found and by which test, what was not opened up; the same each time it is made."""
    page = repairer.page
    page.goto(f"{visit}buy.html")
    first = page.content()
    told = page.inner_text("body")
    for part in ("Because", "Price", "What was found", "Not opened up, not looked at, not tried"):
        assert part in told
    assert "Ask what happened, who mended it and how" in told
    assert "60 mm" in told
    assert "closed spaces at bow, stern or under the floor" in told
    sheet = page.pdf(format="A4")
    assert 2 >= len(re.findall(rb"/Type\s*/Page\b", sheet)), "both sides of one sheet"
    page.reload()
    assert first == page.content()
