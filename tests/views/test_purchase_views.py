"""The page for a buyer: it stands by itself, draws what she may be worth, and shows where each line comes from."""

from __future__ import annotations

import pytest

from tests.buying.yards import FADE, SEAM, purchase
from triage.buying.advice import PurchaseAdvice
from triage.knowledge.model import KnowledgeBase
from triage.views.purchase import render_purchase
from triage.views.worth_picture import BASE_LINE, WIDTH, worth_picture


@pytest.fixture(scope="module")
def seam(kb: KnowledgeBase) -> PurchaseAdvice:
    return purchase(kb, SEAM, budget=2600, missing=["cover"])


def test_the_page_stands_by_itself(seam: PurchaseAdvice) -> None:
    page = render_purchase(seam, "html")

    assert "<script" not in page
    assert "http" not in page.replace("http-equiv", "")
    assert "Rule buying/one-weak-main-part" in page
    assert "joint_bow.joint_crack" in page
    assert "budget of 2600" in page


def test_what_somebody_wrote_stays_text(kb: KnowledgeBase) -> None:
    advice = purchase(kb, SEAM, told={"boat": {"name": "<b>Wagtail</b>"}})

    assert "<b>Wagtail</b>" not in render_purchase(advice, "html")


def test_the_picture_shows_all_chances_and_what_is_asked(seam: PurchaseAdvice) -> None:
    picture = worth_picture(seam)
    assert picture is not None
    assert picture.asked is not None

    assert "asked 2400" == picture.asked.label
    assert 0 <= picture.asked.x <= WIDTH
    assert all(0 <= bar.y <= BASE_LINE and bar.height >= 0 for bar in picture.bars)
    assert {bar.below for bar in picture.bars if bar.x + bar.width < picture.asked.x} <= {True}
    assert "Worth about" in picture.says


def test_without_a_sound_price_there_is_no_picture(kb: KnowledgeBase) -> None:
    assert worth_picture(purchase(kb, FADE, sound=None, asking=None)) is None
    assert "<svg" not in render_purchase(purchase(kb, FADE, sound=None, asking=None), "html")
