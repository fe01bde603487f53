"""The page for a buyer: it stands by itself, draws what she may be worth, and shows where each line comes from."""

from __future__ import annotations

import re

import pytest

from tests.buying.yards import FADE, SEAM, purchase
from triage.buying.advice import PurchaseAdvice
from triage.knowledge.model import KnowledgeBase
from triage.phrases import money
from triage.views.price_picture import price_picture, price_text
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
    assert "budget of €2,600" in page


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


def test_the_text_draws_what_the_page_draws_but_for_the_sound_boat(seam: PurchaseAdvice, kb: KnowledgeBase) -> None:
    rows = price_text(seam)

    assert ["What is to pay", "As she lies", "asking €2,400 |"] == [rows[0][:14], rows[1][:11], rows[2].strip()]
    (column,) = {row.index("|") for row in rows}
    assert all(row in render_purchase(seam) for row in rows)
    assert column > rows[0].rindex("=")
    assert "The same boat, complete and" in render_purchase(seam)
    assert all(len(f"  {row}") <= 80 for row in rows)
    assert [] == price_text(purchase(kb, FADE, sound=None, asking=None))


def test_money_is_written_in_one_way(seam: PurchaseAdvice) -> None:
    """Every figure of money carries its currency, on the screen of text as on the page."""
    for form in ("text", "html"):
        told = re.sub(r"<style>.*?</style>|<svg.*?</svg>|<[^>]+>", " ", render_purchase(seam, form), flags=re.DOTALL)
        assert "€2,400" in told
        assert not re.search(r"(?<![€,\w.])\d,?\d{3}(?![\w-])", re.sub(r"of 20\d\d|on 20\d\d", "", told))


def test_a_currency_without_a_sign_stands_behind() -> None:
    assert "24,000 to 33,000 SEK" == money.span(24000, 33000, "SEK")
    assert "−€450" == money.money(-450, "EUR")
    assert "0 SEK" == money.money(0.2, "SEK")
    assert "2,425 SEK" == money.exactly(2425, "SEK")
    assert "$2,425" == money.exactly(2425, "USD")
