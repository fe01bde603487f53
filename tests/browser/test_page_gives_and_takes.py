"""What goes into the page and out of it: a survey, a photograph, a file to pass on; and a program that breaks down."""

from __future__ import annotations

import io
from typing import TYPE_CHECKING

import pytest
from PIL import Image

from tests.browser.phone import STORY, Phone
from tests.browser.served import WebSpace
from tests.conftest import ROOT
from triage.phrases.page import WORDS

if TYPE_CHECKING:
    from playwright.sync_api import BrowserContext

pytestmark = [pytest.mark.browser, pytest.mark.xdist_group("page")]

FIRST_BYTES = """async (to) => {
  const got = await window.page.ask({ method: "GET", address: to });
  return [got.status, ...got.answer.slice(0, 64)];
}"""
MARK = "aft_run.flat_worn"
BREAK = "() => { program.answer = () => { throw new Error('gone'); }; }"


def test_a_survey_comes_in_by_the_form_and_a_photograph_without_what_its_camera_wrote(
    context: BrowserContext, space: WebSpace
) -> None:
    phone = Phone(context.new_page())
    phone.opens(f"{space.address}#/boats")
    phone.page.set_input_files("#file", ROOT / "examples/club-boat.yaml")
    phone.page.click("form:has(#file) button")
    phone.page.wait_for_selector("html[data-address^=visit]")
    visit = (phone.page.get_attribute("html", "data-address") or "").split("/")[1]

    phone.page.goto(f"{space.address}#/visit/{visit}/photos?mark={MARK}")
    phone.page.wait_for_selector("#photo")
    phone.page.set_input_files("#photo", {"name": "a.jpg", "mimeType": "image/jpeg", "buffer": _photograph()})
    phone.page.wait_for_selector("form.photograph button:focus")
    phone.page.click("form.photograph button")
    phone.page.wait_for_selector("ul.photos img[src^='data:image/jpeg']")

    status, *begins = phone.page.evaluate(FIRST_BYTES, f"visit/{visit}/photos/photo-1.jpg")
    assert status == 200
    assert bytes(begins).startswith(b"\xff\xd8")
    assert b"Exif" not in bytes(begins)
    assert phone.said == []


def _photograph() -> bytes:
    """One that tells with what it was taken."""
    exif = Image.Exif()
    exif[0x010F] = "Somebody"
    made = io.BytesIO()
    Image.new("RGB", (800, 600), (90, 120, 140)).save(made, "JPEG", exif=exif)
    assert b"Exif" in made.getvalue()
    return made.getvalue()


@pytest.mark.parametrize("shares", [False, True])
def test_a_report_is_passed_on_where_the_browser_can_and_kept_as_a_file_elsewhere(
    context: BrowserContext, space: WebSpace, shares: bool
) -> None:
    context.add_init_script(f"navigator.share = {'async () => {}' if shares else 'undefined'};")
    phone = Phone(context.new_page())
    phone.opens(space.address)
    visit = phone.tells(STORY)
    phone.page.goto(f"{space.address}#/{visit}report.html")
    phone.page.wait_for_selector(".page-bar")

    assert phone.page.inner_text("[data-page=share]") == WORDS["share" if shares else "keep_file"]


def test_a_program_that_breaks_down_is_started_again_from_what_was_kept(
    context: BrowserContext, space: WebSpace
) -> None:
    phone = Phone(context.new_page())
    phone.opens(space.address)
    visit = phone.tells(STORY)
    asked = phone.page.inner_text("main")
    phone.page.workers[0].evaluate(BREAK)

    phone.page.locator("main form button").first.click()
    phone.page.wait_for_selector(f"#page-tells:text-is('{WORDS['not_kept']}')")
    assert phone.page.inner_text("main") == asked

    phone.chooses_first()
    assert phone.page.inner_text("main") != asked
    assert phone.page.get_attribute("html", "data-address") == visit
