"""An owner's check on the drive (J1) with neither server nor network, at the width of a phone and of a desk."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from tests.browser.served import WebSpace
from tests.browser.test_car_park import Buyer as Owner
from tests.browser.test_screens import STORY

if TYPE_CHECKING:
    from playwright.sync_api import Browser

pytestmark = [pytest.mark.browser, pytest.mark.xdist_group("page")]


@pytest.mark.parametrize("width", [390, 1280])
def test_from_the_story_to_what_a_repairer_is_sent(browser: Browser, space: WebSpace, width: int) -> None:
    with browser.new_context(viewport={"width": width, "height": 844}) as context:
        owner = Owner(context.new_page())
        owner.opens(space.address)
        owner.is_ready("offline")
        space.end()
        context.set_offline(True)

        visit = owner.tells(STORY)
        assert "Shroud anchor" in owner.page.inner_text("main")
        assert "?" in owner.press("main .choices button")
        for _ in range(6):
            if owner.page.get_attribute("main", "data-screen") == "ended":
                break
            owner.press(".bar button:has-text('Could not tell')")

        told = owner.goes_to(f"{visit}answer?ask=afloat")
        assert "Not cleared" in told
        assert "May she sail?" in told
        assert "Shroud anchor" in owner.goes_to(f"{visit}answer?to=repairer")
        owner.opens(f"{space.address}#/{visit}answer")
        owner.page.wait_for_selector("html[data-shown]")
        assert "Not cleared" in owner.page.inner_text("main")
        assert owner.said == []
