"""The page in a real browser: the first question, no network, a killed browser, and the very reports of the host."""

from __future__ import annotations

import os
import random
import signal
from collections.abc import Iterator, Mapping
from contextlib import suppress
from hashlib import sha256
from pathlib import Path
from typing import TYPE_CHECKING

import pytest

from tests.benchmarks.__main__ import some_boat
from tests.browser.phone import STORY, Phone
from tests.browser.served import WebSpace
from tests.conftest import ROOT
from triage.concluding.assess import assess_survey
from triage.errors import BadSurvey
from triage.knowledge.model import KnowledgeBase
from triage.page.build import build_one, gzipped
from triage.survey.model import Survey
from triage.survey.read import survey_from_text
from triage.survey.write import survey_text
from triage.views.report import render

if TYPE_CHECKING:
    from playwright.sync_api import Browser, BrowserContext

pytestmark = [pytest.mark.browser, pytest.mark.xdist_group("page")]  # whoever shares the work builds it once

CHROMIUM = Path("/usr/bin/chromium")
SURVEYS, SEED = int(os.environ.get("TRIAGE_PAGE_SURVEYS", "30")), 17
MOST_GZIPPED = 10_000_000


def test_the_page_stays_within_what_a_telephone_takes(built: Path) -> None:
    files = {file.name: file.read_bytes() for file in built.iterdir()}

    fetched = {name: body for name, body in files.items() if name != "experta.whl"}  # it lies there for its licence
    assert gzipped(fetched) < MOST_GZIPPED
    assert {"index.html", "sw.js", "manifest.webmanifest", "icon-192.png", "licences.txt", "experta.whl"} <= set(files)


def test_what_is_typed_while_python_starts_is_answered_and_the_console_stays_empty(
    context: BrowserContext, space: WebSpace
) -> None:
    phone = Phone(context.new_page())
    phone.opens(space.address)

    assert phone.page.get_attribute("html", "data-python") == "starting"
    phone.tells(STORY)

    assert "Shroud anchor" in phone.page.inner_text("main")
    assert phone.said == []


def test_without_a_network_and_a_server_it_goes_on_where_it_was(context: BrowserContext, space: WebSpace) -> None:
    phone = Phone(context.new_page())
    phone.opens(space.address)
    phone.tells(STORY)
    phone.is_ready("offline")
    phone.chooses_first()
    asked = phone.page.inner_text("main")

    space.end()
    context.set_offline(True)
    phone.opens(space.address)

    assert phone.page.inner_text("main") == asked  # before Python is there
    phone.page.wait_for_selector("html[data-shown]")
    phone.chooses_first()
    assert phone.page.inner_text("main") != asked
    assert phone.said == []


def test_a_report_is_shown_with_its_own_looks_and_a_way_back(context: BrowserContext, space: WebSpace) -> None:
    phone = Phone(context.new_page())
    phone.opens(space.address)
    visit = phone.tells(STORY)

    phone.page.goto(f"{space.address}#/{visit}report.html")
    phone.page.wait_for_selector(".page-bar")
    size = "getComputedStyle(document.querySelector('.page-bar button')).minHeight"
    assert phone.page.evaluate(size) == "48px"
    assert phone.page.evaluate("document.adoptedStyleSheets.length") == 1
    phone.page.click("[data-page=back]")
    phone.page.wait_for_selector("html:not(:has(.page-bar))")

    assert phone.page.get_attribute("html", "data-address") == visit
    assert phone.said == []


def test_a_lesson_opens_on_the_phone_with_its_own_looks(context: BrowserContext, space: WebSpace) -> None:
    phone = Phone(context.new_page())
    phone.opens(space.address)
    phone.is_ready()

    phone.page.goto(f"{space.address}#/teach/lesson-1-handout.html")
    phone.page.wait_for_selector(".page-bar")

    assert "What a dinghy is made of" in phone.page.inner_text("main, body")
    assert phone.said == []


def test_two_windows_lose_nothing(context: BrowserContext, space: WebSpace) -> None:
    one, two = Phone(context.new_page()), Phone(context.new_page())
    one.opens(space.address)
    one.is_ready()
    two.opens(space.address)
    visit = two.tells("Soft foredeck.")
    one.tells(STORY)

    got = one.page.evaluate("async (to) => (await window.page.ask({ method: 'GET', address: to })).status", visit)

    assert got == 200


def test_every_answer_outlives_a_browser_that_is_killed(browser: Browser, space: WebSpace, tmp_path: Path) -> None:
    from playwright.sync_api import Error

    profile = tmp_path / "profile"
    killed = browser.browser_type.launch_persistent_context(profile, executable_path=str(CHROMIUM))
    phone = Phone(killed.pages[0])
    phone.opens(space.address)
    visit = phone.tells(STORY)
    phone.is_ready("offline")
    phone.chooses_first()
    asked = _shown(phone)
    assert _kill(profile)
    with suppress(Error):  # there is nothing left to close
        killed.close()

    space.end()
    for lock in profile.glob("Singleton*"):
        lock.unlink()
    with browser.browser_type.launch_persistent_context(profile, executable_path=str(CHROMIUM)) as context:
        phone = Phone(context.pages[0])
        phone.opens(f"{space.address}#/{visit}")
        phone.page.wait_for_selector("html[data-shown]")
        assert _shown(phone) == asked


def _shown(phone: Phone) -> list[str]:
    """What can be seen of the screen: the line that is read out aloud comes and goes."""
    return phone.page.locator("main > :not(.unseen)").all_inner_texts()


def _kill(profile: Path) -> int:
    """End the browser that has this profile, at once; how many processes it was."""
    own = []
    for folder in Path("/proc").iterdir():
        try:
            if folder.name.isdigit() and str(profile).encode() in (folder / "cmdline").read_bytes():
                own.append(int(folder.name))
        except OSError:
            continue
    for process in own:
        try:
            os.kill(process, signal.SIGKILL)
        except ProcessLookupError:
            continue
    return len(own)


IN_THE_PAGE = """
(texts) => {
  const { python } = program;
  python.globals.set("texts", JSON.stringify(texts));
  return JSON.parse(python.runPython(`
import hashlib, json
from triage.concluding.assess import assess_survey
from triage.survey.read import survey_from_text
from triage.views.report import render

def report(text):
    assessment = assess_survey(survey_from_text(text, kb), kb)
    return [hashlib.sha256(render(assessment, kind).encode()).hexdigest() for kind in ("html", "text", "json")]

json.dumps({name: report(text) for name, text in json.loads(texts).items()})
`));
}
"""


def test_reports_of_the_page_are_those_of_the_host_byte_for_byte(
    context: BrowserContext, space: WebSpace, kb: KnowledgeBase
) -> None:
    examples = {file.name: file.read_text(encoding="utf-8") for file in sorted((ROOT / "examples").glob("*.yaml"))}
    texts = {name: text for name, text in examples.items() if _reads(text, kb)} | dict(_random_surveys(kb))
    phone = Phone(context.new_page())
    phone.opens(space.address)
    phone.is_ready()

    there = phone.page.workers[0].evaluate(IN_THE_PAGE, texts)

    assert {name for name, told in _reports(texts, kb).items() if told != there[name]} == set()
    assert len(texts) > SURVEYS


def _random_surveys(kb: KnowledgeBase) -> Iterator[tuple[str, str]]:
    chance, number = random.Random(SEED), 0
    while number < SURVEYS:
        boat, findings = some_boat(kb, chance.randint(1, 4), chance)
        text = survey_text(Survey(boat, tuple(findings)))
        if _reads(text, kb):
            number += 1
            yield str(number), text


def _reads(text: str, kb: KnowledgeBase) -> bool:
    try:
        survey_from_text(text, kb)
    except BadSurvey:
        return False
    return True


def _reports(texts: Mapping[str, str], kb: KnowledgeBase) -> Mapping[str, list[str]]:
    told = {}
    for name, text in texts.items():
        assessment = assess_survey(survey_from_text(text, kb), kb)
        told[name] = [sha256(render(assessment, kind).encode()).hexdigest() for kind in ("html", "text", "json")]
    return told


def test_one_file_opens_from_a_disk(context: BrowserContext, kb: KnowledgeBase, tmp_path: Path) -> None:
    build_one(kb, tmp_path / "triage.html")
    phone = Phone(context.new_page())
    phone.opens((tmp_path / "triage.html").as_uri())
    visit = phone.tells(STORY)

    phone.page.reload()
    phone.page.wait_for_selector("html[data-shown]")

    assert phone.page.get_attribute("html", "data-address") == visit
    assert "Shroud anchor" in phone.page.inner_text("main")
    assert phone.said == []


def test_the_page_may_be_put_on_the_home_screen(context: BrowserContext, space: WebSpace) -> None:
    page = context.new_page()
    page.goto(space.address)
    errors = context.new_cdp_session(page).send("Page.getInstallabilityErrors")

    assert {error["errorId"] for error in errors["installabilityErrors"]} <= {"in-incognito"}
