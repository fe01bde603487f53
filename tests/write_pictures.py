"""Takes the picture of the README anew: ``python -m tests.write_pictures``; then look at it."""

from __future__ import annotations

import io

from PIL import Image
from playwright.sync_api import Page, sync_playwright

from tests.browser.served import served
from tests.conftest import ROOT
from triage import load_knowledge
from triage.app.application import create_app
from triage.log.held import HeldBoats

PICTURE = ROOT / "examples/on-a-phone.png"
STORY = "crack where the mast wires bolt on, port side, about an inch"
WIDTH, HEIGHT, GAP, COLOURS = 390, 800, 16, 64


def screens(page: Page, address: str) -> list[bytes]:
    """The box with a story, a question about it, and the answer."""

    def press(name: str, then: str) -> None:
        page.get_by_role("button", name=name).first.click()
        page.locator(f"main[data-screen={then}]").wait_for()

    page.goto(address)
    page.locator("textarea").fill(STORY)
    told = page.screenshot()
    press("Read it", "understood")
    press("yes, that is right", "asked")
    asked = page.screenshot()
    press("the fitting can be seen to move", "ended")
    press("The answer", "answer")
    return [told, asked, page.screenshot()]


def main() -> None:
    """Beside each other on one picture, in few colours."""
    kb = load_knowledge(ROOT / "rules")
    with served(create_app(kb, HeldBoats(kb))) as address, sync_playwright() as driver:
        browser = driver.chromium.launch(executable_path="/usr/bin/chromium")
        taken = screens(browser.new_page(viewport={"width": WIDTH, "height": HEIGHT}), address)
        browser.close()
    picture = Image.new("RGB", (len(taken) * (WIDTH + GAP) - GAP, HEIGHT), "#7d7768")
    for number, one in enumerate(taken):
        picture.paste(Image.open(io.BytesIO(one)), (number * (WIDTH + GAP), 0))
    picture.quantize(COLOURS, dither=Image.Dither.NONE).save(PICTURE, optimize=True)


if __name__ == "__main__":
    main()
