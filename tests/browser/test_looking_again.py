"""A boat looked at again, over the network by the link, at the width of a phone: compared, mended, closed."""

from __future__ import annotations

import datetime
from collections.abc import Iterator
from typing import TYPE_CHECKING

import pytest
from starlette.middleware import Middleware

from tests.browser.served import served
from tests.browser.test_screens import Phone
from tests.log.keepers import wagtail
from triage.app.application import create_app
from triage.app.sharing import KEY, Guests, Hosts, Keys
from triage.knowledge.model import KnowledgeBase
from triage.log.held import HeldBoats
from triage.survey.model import Finding, Reading
from triage.survey.readings import reading_of

if TYPE_CHECKING:
    from playwright.sync_api import Browser

pytestmark = pytest.mark.browser

SECRET = "a-key-that-was-told"


@pytest.fixture
def link(kb: KnowledgeBase) -> Iterator[str]:
    """The program with a boat of two visits, by its link."""
    boats, boat = HeldBoats(kb), None
    for days, length in ((365, "30 mm"), (0, "45 mm")):
        readings = {"crack_length": reading_of(kb.scales["crack_length"], length), "panel_give": Reading.at(0)}
        line = Finding("line", "side_deck", "hairline", "port", readings)
        on = datetime.date.today() - datetime.timedelta(days=days)
        boat = boats.begin(wagtail(line, on=on), boat).boat
    guards = [Middleware(Hosts, allowed={"127.0.0.1"}), Middleware(Guests, keys=Keys(SECRET, "another"))]
    with served(create_app(kb, boats, guards=guards)) as address:
        yield f"{address}?{KEY}={SECRET}"


@pytest.mark.parametrize(("width", "colours"), [(390, "light"), (320, "dark"), (1280, "light")])
def test_a_line_is_compared_mended_and_closed(browser: Browser, link: str, width: int, colours: str) -> None:
    context = browser.new_context(viewport={"width": width, "height": 800}, color_scheme=colours)  # type: ignore[arg-type]
    phone = Phone(context.new_page())
    page = phone.page
    page.goto(link)
    assert SECRET not in page.url
    page.goto(f"{link.partition('?')[0]}boats")
    assert "boats" == phone.settled()
    phone.press("Since last time")
    assert "again" == phone.settled()
    assert page.get_by_role("img", name="give or take 2 mm").count()

    phone.press("to its growth")
    assert "again" == phone.settled()
    assert not page.locator("text=to its growth").count()
    for says, told in (("It was mended", "Look at it again after the next sail"), ("it holds", "it is closed")):
        page.locator("summary", has_text=says).first.click()
        page.locator("details[open] input[name=by]").fill("Kim")
        assert "again" == phone.settled()
        page.locator("details[open] button").click()
        assert "again" == phone.settled()
        assert told in page.locator(".said-now").inner_text()

    assert not phone.said
    context.close()


def test_without_the_link_nothing_is_shown(browser: Browser, link: str) -> None:
    context = browser.new_context(viewport={"width": 390, "height": 800})
    phone = Phone(context.new_page())
    phone.page.goto(f"{link.partition('?')[0]}boats")

    assert "problem" == phone.settled()
    assert "By its link alone" == phone.page.locator("h1").inner_text()
    context.close()
