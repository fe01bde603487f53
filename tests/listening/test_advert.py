"""The words of an advert: what is told is understood and quoted, and no price and no year is made up."""

from __future__ import annotations

from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from triage.buying.read_offer import offer_from
from triage.knowledge.model import KnowledgeBase
from triage.listening.advert import hear_advert

YEAR = 2026
WHOLE = """1998 14 ft sailing dinghy, blue hull. £1,450 ono. Comes with launching trolley, cover and road trailer.
Mainsail and jib 6 years old, spinnaker included. Standing rigging replaced 2019. New sails cost £900.
Small crack on the foredeck, otherwise sound. Lying Saltmere, ashore under cover. HIN QQ-XYZ00123E526.
First to see will buy!"""


def told(kb: KnowledgeBase, text: str) -> dict[str, Any]:
    return hear_advert(text, kb, YEAR).offer()


def test_a_whole_advert_is_understood_and_every_word_of_it_is_somewhere(kb: KnowledgeBase) -> None:
    heard = hear_advert(WHOLE, kb, YEAR)

    assert heard.offer() == {
        "currency": "GBP",
        "asking": 1450,
        "claimed_year": 1998,
        "number": "QQ-XYZ00123E526",
        "lives": "Saltmere, ashore under cover",
        "extra": ["road_trailer", "light_sail"],
        "ages": {"mainsail": 6, "standing_wires": 7},
    }
    assert ("Small crack on the foredeck, otherwise sound",) == heard.marks
    assert ("blue hull", "First to see will buy") == heard.rest
    assert "£1,450 ono" in {one.words for one in heard.facts if one.word == "asking"}


@pytest.mark.parametrize(
    ("text", "asking"),
    [
        ("he wants $1200", 1200),
        ("They are asking two grand for her.", 2000),
        ("Price: 1,200", 1200),
        ("Was £1,800, now £1,450", 1450),
        ("Boat £900, new sails cost £600 in May", 900),
        ("OIRO 1.450 EUR", 1450),
        ("£950 ono, or £850", 950),
    ],
)
def test_the_price_is_what_is_called_so(kb: KnowledgeBase, text: str, asking: float) -> None:
    assert asking == told(kb, text)["asking"]


@pytest.mark.parametrize(
    "text",
    [
        "A lovely boat, offers please.",
        "£700, or £900 with the trailer.",
        "New sails cost £900.",
        "Cover £90.",
        "I paid £2,000 for her.",
        "Sail number 1450, 14 ft, 2 sails.",
        "£1,000 to £1,200 depending on what you take.",
        "Somewhere around a thousand.",
    ],
)
def test_no_price_is_made_up(kb: KnowledgeBase, text: str) -> None:
    assert "asking" not in told(kb, text)


def test_two_prices_are_told_as_not_clear(kb: KnowledgeBase) -> None:
    heard = hear_advert("Asking £700. With the trailer the price is £900.", kb, YEAR)

    assert "asking" not in heard.offer()
    assert {"Asking £700", "With the trailer the price is £900"} == set(heard.unclear)


@pytest.mark.parametrize(
    ("text", "year"),
    [
        ("Built in 1998, repainted 2020.", 1998),
        ("Year: 1994", 1994),
        ("1987 dinghy with road trailer.", 1987),
        ("About 20 years old.", None),
        ("Sails 2019, cover 2021.", None),
        ("Painted in 2020.", None),
        ("2019 sails, good condition.", None),
        ("Built 1998. Year of build 1996.", None),
        ("Built in 2090.", None),
    ],
)
def test_the_year_is_what_is_said_to_be_hers(kb: KnowledgeBase, text: str, year: int | None) -> None:
    assert year == told(kb, text).get("claimed_year")


@pytest.mark.parametrize(
    ("text", "offer"),
    [
        ("No trolley or cover.", {"missing": ["trolley", "cover"]}),
        ("Comes with no trailer.", {}),
        ("Road trailer not included.", {}),
        ("Sails are tired.", {"spent": ["mainsail", "jib"]}),
        ("With spare mainsail.", {"extra": ["spare_sails"]}),
        ("The rudder is missing. Rudder included.", {}),
        ("Mainsail new in 2021.", {"ages": {"mainsail": 5}}),
        ("Must go today.", {"sale": ["haste"]}),
        ("asking 1450, my budget is 2000", {"asking": 1450, "budget": 2000}),
        ("Others like her sell for 1900 to 2300", {"sound": [1900, 2300]}),
    ],
)
def test_what_comes_with_her_is_what_is_told(kb: KnowledgeBase, text: str, offer: dict[str, Any]) -> None:
    assert offer == told(kb, text)


def test_what_a_seller_says_of_her_state_is_no_fact_of_an_offer(kb: KnowledgeBase) -> None:
    heard = hear_advert("Hull solid, no leaks, tanks dry, nothing to do.", kb, YEAR)

    assert ({}, ()) == (heard.offer(), heard.marks)


@given(text=st.text(alphabet="0123456789,.;:£$€-()\n no asking cover built year sails trailer HIN", max_size=120))
def test_whatever_is_pasted_is_an_offer_once_a_currency_is_named(kb: KnowledgeBase, text: str) -> None:
    offer = told(kb, text)

    offer_from({"currency": "EUR"} | {key: value for key, value in offer.items() if key != "currency"}, kb)


@pytest.mark.parametrize(
    "text",
    [
        "Takes in a cupful of water.",
        "Leaks slightly at the transom.",
        "Chips and cracks to the gelcoat, mast straight.",
        "Osmosis treated in 2015.",
        "Rudder repaired, stronger than new.",
    ],
)
def test_damage_that_is_told_vaguely_or_beside_her_gear_is_damage_all_the_same(kb: KnowledgeBase, text: str) -> None:
    assert (text.rstrip("."),) == hear_advert(text, kb, YEAR).marks


@pytest.mark.parametrize(
    ("text", "rest"),
    [
        ("Lovely boat, £950", ("Lovely boat",)),
        ("The main is crispy, raced in spring, jib 2021.", ("raced in spring",)),
        ("Trolley and road trailer.", ()),
        ("£950, ono", ()),
    ],
)
def test_words_beside_what_was_understood_are_not_dropped(kb: KnowledgeBase, text: str, rest: tuple[str, ...]) -> None:
    assert rest == hear_advert(text, kb, YEAR).rest


def test_gear_alone_is_no_damage(kb: KnowledgeBase) -> None:
    assert () == hear_advert("Trolley and road trailer, jib, rudder.", kb, YEAR).marks


@pytest.mark.parametrize(
    ("text", "year"),
    [
        ("Nice little boat, 1994, with cover", 1994),
        ("Sailing dinghy\n1994\n£900", 1994),
        ("Nice little boat, built 1994. Refit, 2019, all ropes", 1994),
        ("Nice little boat, 1994, refit, 2019, all ropes", None),
        ("Nice little boat. Paid 1994 for her", None),
    ],
)
def test_a_year_that_stands_by_itself_is_hers_where_no_other_is(kb: KnowledgeBase, text: str, year: int | None) -> None:
    assert year == told(kb, text).get("claimed_year")


@pytest.mark.parametrize(
    ("text", "lives"),
    [
        ("£900. On a mooring at Saltmere.", "On a mooring at Saltmere"),
        ("Lying Saltmere. She is afloat.", "Saltmere, She is afloat"),
        ("Kept on a mooring at Saltmere", "a mooring at Saltmere"),
        ("Never on a mooring.", None),
        ("Mooring fees £300 a year", None),
    ],
)
def test_where_she_lies_is_told_by_being_in_the_water_too(kb: KnowledgeBase, text: str, lives: str | None) -> None:
    assert lives == told(kb, text).get("lives")


def test_a_reason_for_selling_is_asked_about_and_counts_for_nothing(kb: KnowledgeBase) -> None:
    assert ["reason_for_sale"] == told(kb, "£900. Selling because of a new baby.")["sale"]
    assert "" == kb.purchase.sale["reason_for_sale"].counts
