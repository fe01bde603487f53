"""A repairer books a boat in from an owner's survey (J7), at the width of a phone and of a desk."""

from __future__ import annotations

import datetime
import re
from collections.abc import Iterator
from typing import TYPE_CHECKING

import pytest

from tests.browser.served import served
from tests.browser.test_screens import Phone
from tests.conftest import ROOT
from triage.app.application import create_app
from triage.knowledge.model import KnowledgeBase
from triage.log.held import HeldBoats

if TYPE_CHECKING:
    from playwright.sync_api import Browser

pytestmark = pytest.mark.browser

OWNERS = ROOT / "examples/owner-one-crack.yaml"
MARK = "chainplate.port.fastener_cracks"
MADE_UP = re.compile(r"guarantee|laminate schedule|\d+ layers|g/m|epoxy", re.IGNORECASE)


@pytest.fixture(scope="module")
def address(kb: KnowledgeBase) -> Iterator[str]:
    """The program, served on this machine."""
    with served(create_app(kb, HeldBoats(kb))) as address:
        yield address


class Repairer(Phone):
    """Somebody who knows what he looks for."""

    @property
    def reads(self) -> str:
        return self.page.inner_text("main")

    @property
    def heading(self) -> str:
        return self.page.inner_text("h1").strip()

    def opens(self, address: str) -> str:
        """Another screen; what it says, after looking at it."""
        self.page.goto(address)
        self.settled()
        return self.reads

    def answers(self, what: str, words: str) -> None:
        """Out of turn, in his own words."""
        self.press("nswer something else about")
        self.settled()
        self.press(what)
        self.settled()
        self.says(words)

    def says(self, words: str) -> None:
        self.page.fill("#text", words)
        self.page.keyboard.press("Enter")
        self.settled()


@pytest.fixture(params=[390, 1200])
def repairer(browser: Browser, request: pytest.FixtureRequest) -> Iterator[Repairer]:
    context = browser.new_context(viewport={"width": request.param, "height": 844})
    yield Repairer(context.new_page())
    context.close()


def test_a_repairer_knows_the_job_before_it_arrives(repairer: Repairer, address: str) -> None:
    visit = comes_in(repairer, address)
    finds_more(repairer, visit)
    thinks_it_too_strict(repairer, visit)
    writes_what_is_to_do(repairer, visit)
    closes(repairer, visit)
    assert repairer.said == []


def comes_in(repairer: Repairer, address: str) -> str:
    """The owner's survey, as it was sent, tells place, size, tests and what was not tried."""
    repairer.opens(f"{address}boats")
    repairer.page.set_input_files("#file", OWNERS)
    repairer.page.click("form:has(#file) button")
    repairer.page.wait_for_selector("[data-screen=asked]")
    repairer.settled()
    visit = repairer.page.url
    assert repairer.opens(f"{visit}answer").startswith("Not cleared: between monitor and structural")
    note = repairer.opens(f"{visit}answer?to=repairer")
    for told in ("shroud plate", "1 inch", "still under a hard pull", "Backing: could not tell", "wagtail-anchor-port"):
        assert told in note
    repairer.opens(visit)
    return visit


def finds_more(repairer: Repairer, visit: str) -> None:
    """Workshop detail in any order, past every beginner's question."""
    repairer.answers("View of the back", "its whole back was seen")
    assert "Noted: its whole back was seen" in repairer.reads
    repairer.answers("Sound under a coin", "dull to 120 mm")
    assert repairer.heading == "Structural."
    told = repairer.opens(f"{visit}answer")
    assert told.startswith("Structural")
    assert "foot of the mast" in told, "he is sent where the load goes"


def thinks_it_too_strict(repairer: Repairer, visit: str) -> None:
    """What he says does not bring a line down; what he pressed does."""
    repairer.opens(f"{visit}place?zone=side_deck&side=starboard")
    repairer.page.locator('button[value="mark/hairline"]').click()
    repairer.settled()
    assert "between cosmetic and structural" in repairer.reads
    repairer.opens(f"{repairer.page.url}?why")
    assert "as firm as a good place" in repairer.reads
    repairer.opens(visit)
    repairer.says("they all do that")
    assert repairer.heading.endswith("?"), "nobody comes down on a mere say-so"
    repairer.press("it is as firm as a good place")
    repairer.settled()
    assert repairer.heading == "Cosmetic."


def writes_what_is_to_do(repairer: Repairer, visit: str) -> None:
    """What was found and what was not looked at; nothing is made up."""
    note = repairer.opens(f"{visit}answer?to=repairer")
    assert "Sound under a coin 120 mm" in note
    assert "Not looked at" in note
    assert not MADE_UP.search(note)


def closes(repairer: Repairer, visit: str) -> None:
    """Mended, by whom and when; what is to be watched is there for the owner, also as a calendar."""
    repairer.opens(f"{visit}answer")
    repairer.press("Since last time")
    assert repairer.settled() == "again"
    card = repairer.page.locator("section.card", has_text="Shroud anchor on deck, port")
    mend = card.locator("details", has_text="It was mended")
    mend.locator("summary").click()
    mend.locator("[name=by]").fill("Ruan")
    mend.locator("[name=on]").fill(datetime.date.today().isoformat())
    mend.locator("button").click()
    repairer.settled()
    assert "Ruan" in repairer.reads
    calendar = repairer.page.request.get(f"{visit}due.ics").text().replace("\r\n ", "")
    assert re.search(r"Wagtail.*shroud anchor on deck", calendar, re.IGNORECASE), calendar
