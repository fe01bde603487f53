"""The page for a buyer: it stands by itself, draws what she may be worth, and shows where each line comes from."""

from __future__ import annotations

import re

import pytest

from tests.buying.yards import FADE, SEAM, purchase
from triage.buying.advice import PurchaseAdvice
from triage.knowledge.model import KnowledgeBase
from triage.views.price_picture import price_picture
from triage.views.purchase import render_purchase


@pytest.fixture(scope="module")
def seam(kb: KnowledgeBase) -> PurchaseAdvice:
    return purchase(kb, SEAM, budget=2600, missing=["cover"])


def test_the_page_stands_by_itself(seam: PurchaseAdvice) -> None:
    page = render_purchase(seam, "html")

    assert "<script" not in page
    assert "http" not in page.replace("http-equiv", "").replace("http://www.w3.org/2000/svg", "")
    assert "Rule buying/one-weak-main-part" in page
    assert "joint_bow.joint_crack" in page
    assert "budget of 2600" in page


def test_what_somebody_wrote_stays_text(kb: KnowledgeBase) -> None:
    advice = purchase(kb, SEAM, told={"boat": {"name": "<b>Wagtail</b>"}})

    assert "<b>Wagtail</b>" not in render_purchase(advice, "html")


def test_the_picture_shows_a_sound_one_and_her_and_what_is_asked(seam: PurchaseAdvice) -> None:
    picture = price_picture(seam)
    assert picture is not None

    assert "asking €2,400" in picture
    assert ["A sound one like her", "What is to pay", "As she lies"] == re.findall(r">([^<>]+) <tspan", picture)
    assert "Worth about" in picture
    assert picture in render_purchase(seam, "html")


def test_without_a_sound_price_the_picture_is_of_what_she_costs(kb: KnowledgeBase) -> None:
    picture = price_picture(purchase(kb, SEAM, sound=None))
    assert picture is not None
    assert ["What is to pay", "Bought as asked, all in"] == re.findall(r">([^<>]+) <tspan", picture)


def test_without_any_price_there_is_no_picture(kb: KnowledgeBase) -> None:
    assert price_picture(purchase(kb, FADE, sound=None, asking=None)) is None
    assert "<svg" not in render_purchase(purchase(kb, FADE, sound=None, asking=None), "html")
