"""A chief instructor's month (JOURNEYS, J6), walked in a browser on a phone and before a projector."""

from __future__ import annotations

import datetime
import re
from collections.abc import Iterator
from pathlib import Path
from typing import TYPE_CHECKING, Any

import pytest
import yaml

from tests.browser.barriers import barriers
from tests.browser.served import served
from tests.log.keepers import wagtail
from triage.app.application import create_app
from triage.knowledge.model import KnowledgeBase
from triage.log.held import HeldBoats
from triage.phrases import classroom as room
from triage.phrases import common, screens
from triage.phrases import teaching as says
from triage.survey.model import Finding, Reading
from triage.survey.read import survey_from
from triage.survey.readings import reading_of

if TYPE_CHECKING:
    from playwright.sync_api import Browser, Page

pytestmark = pytest.mark.browser

BECAUSE = "The strip is a cover, and the wall behind it is bonded from the other side"
RUN = {"zone": "aft_run", "sign": "flat_worn", "readings": {"depth": 1}}
SEAM = {"zone": "joint_stern", "sign": "joint_crack", "readings": {"joint_gap": 1}}
STRIP = {"zone": "bulkhead", "sign": "lifted_bond", "readings": {"joint_gap": 2, "tap_dull": 1}}


@pytest.fixture
def boats(kb: KnowledgeBase) -> HeldBoats:
    """Three with worn runs and stern seams, one whose line grew, and one that was kept ashore."""
    kept, grown = HeldBoats(kb), None

    def told(name: str, *marks: dict[str, Any]) -> None:
        kept.begin(survey_from({"survey": 1, "boat": {"name": name}, "findings": list(marks)}, kb))

    for name in ("Tern", "Teal", "Knot"):
        told(name, RUN, SEAM)
    for days, length in ((42, "30 mm"), (0, "45 mm")):
        readings = {"crack_length": reading_of(kb.scales["crack_length"], length), "panel_give": Reading.at(0)}
        line = Finding("line", "side_deck", "hairline", "port", readings)
        grown = kept.begin(
            wagtail(line, on=datetime.date.today() - datetime.timedelta(days=days), name="Grown"), grown
        ).boat
    told("Rook", STRIP)
    return kept


@pytest.fixture
def address(kb: KnowledgeBase, boats: HeldBoats) -> Iterator[str]:
    with served(create_app(kb, boats)) as address:
        yield address


@pytest.mark.parametrize("width", [390, 1920])
def test_a_month_of_a_chief_instructor(
    browser: Browser, address: str, boats: HeldBoats, width: int, tmp_path: Path
) -> None:
    context = browser.new_context(viewport={"width": width, "height": 900}, accept_downloads=True)
    page, noise = context.new_page(), list[str]()
    page.on("pageerror", lambda error: noise.append(str(error)))
    page.goto(f"{address}boats")

    one_cause_for_three_boats(page)
    growth_in_millimetres_and_weeks(page, address)
    why_she_was_kept_ashore(page, address)
    before = {one.id: boats.open(one.visits[0].id).survey for one in boats.boats()}
    assistants_judge_first(page, address)
    a_disagreement_leaves_a_trace(page, tmp_path)
    lessons_stand_before_the_class(page, address)

    assert before == {one.id: boats.open(one.visits[0].id).survey for one in boats.boats()}
    assert noise == []
    context.close()


def fits(page: Page) -> None:
    assert barriers(page) == [], page.url
    assert page.evaluate("document.documentElement.scrollWidth - innerWidth") <= 0, page.url


def one_cause_for_three_boats(page: Page) -> None:
    page.get_by_role("link", name=screens.IN_COMMON).click()
    page.get_by_text(common.INTRO).wait_for()
    shared = page.locator("section.card").first
    for name in ("Tern", "Teal", "Knot"):
        assert shared.get_by_role("heading", name=f"{name}:").count()
    assert shared.get_by_text(common.CURE).count()
    assert shared.get_by_role("listitem").count()
    fits(page)


def growth_in_millimetres_and_weeks(page: Page, address: str) -> None:
    page.goto(f"{address}boats")
    card = page.locator("section.card", has=page.get_by_role("heading", name="Grown"))
    card.get_by_role("link", name="Since last time").click()
    page.locator("main[data-screen=again]").wait_for()
    told = page.locator("main").inner_text()
    assert "15 mm more in 6 weeks." in told
    fits(page)


def why_she_was_kept_ashore(page: Page, address: str) -> None:
    page.goto(f"{address}boats")
    card = page.locator("section.card", has=page.get_by_role("heading", name="Rook"))
    card.get_by_role("link", name=screens.FINISH).click()
    page.locator("main[data-screen=answer] summary", has_text="Why, and what would change it").click()
    told = page.locator("main").inner_text()
    assert "Foil goes in" in told
    assert "the wall holds nothing" in told


def assistants_judge_first(page: Page, address: str) -> None:
    page.goto(f"{address}teach/class/GULL-2/trainer")
    page.get_by_label(room.WHICH_MARK).select_option(label=next(_marks(page, "Rook")))
    page.get_by_role("button", name=room.MAKE_CASE).click()
    page.get_by_text("Case 1: Rook").wait_for()
    fits(page)
    page.get_by_role("link", name=room.AS_A_LEARNER).click()
    page.get_by_label(says.NICKNAME).first.fill("Kim")
    page.get_by_role("button", name=says.FIRST_CASE).click()
    page.get_by_role("heading", name=says.NAME_IT).wait_for()
    assert "the wall holds nothing" not in page.content()
    _first_choices(page)
    page.get_by_role("button", name=says.GO_ON).click()
    page.get_by_role("heading", name=says.WHICH_CHECK).wait_for()
    page.get_by_role("button", name="Foil in the joint").first.click()
    page.get_by_role("heading", name=says.RESULTS).wait_for()
    page.get_by_role("button", name=says.ENOUGH).click()
    page.get_by_role("heading", name=says.YOUR_VERDICT).wait_for()
    assert "the wall holds nothing" not in page.content()
    _first_choices(page)
    page.get_by_label(re.compile("How sure are you")).fill("70")
    page.get_by_role("button", name=says.DONE).click()
    page.get_by_role("heading", name=says.REASONS).wait_for()
    assert "the wall holds nothing" in page.locator("main").inner_text()
    fits(page)


def a_disagreement_leaves_a_trace(page: Page, folder: Path) -> None:
    page.locator("summary", has_text=says.WRITE_DOWN).click()
    form = page.locator("form[action$=otherwise]")
    form.get_by_role("radio", name="monitor").check()
    form.get_by_label(says.BECAUSE).fill(BECAUSE)
    form.get_by_label(says.WHO_SAYS).fill("Ines")
    form.get_by_role("button", name=says.WRITE_DOWN).click()
    page.get_by_text(says.against("Ines", says.case(1, says.OWN_CASES), "monitor", "structural")).wait_for()
    assert "It is structural" in page.locator("main").inner_text()
    fits(page)
    with page.expect_download() as loading:
        page.get_by_role("link", name=says.PROPOSALS).click()
    loading.value.save_as(folder / "proposals.yaml")
    text = (folder / "proposals.yaml").read_text()
    assert f"Because: {BECAUSE}." in text
    assert "silent" == yaml.safe_load(text)[0]["expect"]


def lessons_stand_before_the_class(page: Page, address: str) -> None:
    page.goto(f"{address}teach/lessons")
    fits(page)
    page.get_by_role("link", name=says.LARGE).nth(2).click()
    page.get_by_text("Looking and feeling").first.wait_for()
    page.wait_for_function("document.activeElement.id === 's1'")
    page.keyboard.press("Enter")
    page.wait_for_url("**#s2")
    fits(page)


def _marks(page: Page, boat: str) -> Iterator[str]:
    return (one for one in page.locator("#mark option").all_inner_texts() if one.startswith(boat))


def _first_choices(page: Page) -> None:
    for group in page.get_by_role("group").all():
        group.get_by_role("radio").first.check()
    for choice in page.locator("form.judge select").all():
        choice.select_option(index=1)
