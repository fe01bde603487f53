"""Every screen of a boat, at the width of a phone and of a desk: all can use it, all of it is hit with a glove."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

import pytest

from tests.browser.served import served
from tests.browser.test_screens import Phone
from tests.conftest import ROOT
from triage.app.application import create_app
from triage.knowledge.model import KnowledgeBase
from triage.log.held import HeldBoats
from triage.survey.read import read_survey

if TYPE_CHECKING:
    from playwright.sync_api import Browser

pytestmark = pytest.mark.browser

OF_A_BOAT = (
    *(
        "",
        "boat",
        "near?zone=foredeck",
        "places",
        "place?zone=foredeck",
        "walk",
        "walk?leg=sides",
        "walk?minutes=again",
    ),
    *("answer", "answer?ask=cost", "answer?ask=cause", "answer?to=repairer", "again", "advert", "viewing", "buy"),
)
OF_ALL = ("", "boats", "boats/common", "teach", "teach/lessons", "nowhere")

SMALL = """() => [...document.querySelectorAll("a[href], select, .sides label, .tabs a")]
    .filter((one) => !one.closest("svg, p, dd, .job") && one.getClientRects().length)
    .filter((one) => one.getBoundingClientRect().height < 47.5)
    .map((one) => one.outerHTML.slice(0, 120))"""
"""What is pressed and stands by itself; a link in the middle of a sentence is as high as its line."""


@pytest.fixture
def addresses(kb: KnowledgeBase) -> Iterator[list[str]]:
    """Of each screen; with a boat that has marks, one that has none, and forty minutes."""
    boats = HeldBoats(kb)
    boats.begin(read_survey(ROOT / "examples/owner-one-crack.yaml", kb))
    visit = boats.begin(read_survey(ROOT / "examples/club-boat.yaml", kb)).visit
    with served(create_app(kb, boats)) as here:
        yield [*(f"{here}{what}" for what in OF_ALL), *(f"{here}visit/{visit}/{what}" for what in OF_A_BOAT)]


@pytest.mark.parametrize(("width", "colours"), [(390, "dark"), (1280, "light")])
def test_everybody_can_use_it(browser: Browser, addresses: list[str], width: int, colours: str) -> None:
    with browser.new_context(viewport={"width": width, "height": 844}, color_scheme=colours) as context:  # type: ignore[arg-type]
        phone = Phone(context.new_page())
        small = {}
        for address in addresses:
            phone.page.goto(address)
            if address.endswith("/walk"):
                phone.press("45 minutes")
            assert phone.settled(), address
            small[address] = phone.page.evaluate(SMALL)
        assert {address: found for address, found in small.items() if found} == {}
        assert [said for said in phone.said if "404" not in said] == []
