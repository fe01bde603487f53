"""Money as people write and say it; what is no money is a bare number."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from triage.parsing.money import money_in


@pytest.mark.parametrize(
    ("text", "low", "high", "currency"),
    [
        ("he wants $1200", 1200, 1200, "USD"),
        ("£1,450 ono", 1450, 1450, "GBP"),
        ("EUR 1.450,00 as she lies", 1450, 1450, "EUR"),
        ("1 450 € VB", 1450, 1450, "EUR"),
        ("1.2k euros", 1200, 1200, "EUR"),
        ("about two grand", 2000, 2000, ""),
        ("a grand", 1000, 1000, ""),
        ("fifteen hundred dollars", 1500, 1500, "USD"),
        ("800 quid", 800, 800, "GBP"),
        ("A$900", 900, 900, "AUD"),
        ("1200GBP", 1200, 1200, "GBP"),
        ("£1,000-1,200", 1000, 1200, "GBP"),
        ("$900 to $1,100", 900, 1100, "USD"),
        ("two to three grand", 2000, 3000, ""),
        ("1 to 1.5k", 1000, 1500, ""),
        ("£950.50", 950.5, 950.5, "GBP"),
    ],
)
def test_money_is_read_as_it_is_said(text: str, low: float, high: float, currency: str) -> None:
    (one,) = money_in(text)

    assert (low, high, currency, False) == (one.low, one.high, one.currency, one.plain)


@pytest.mark.parametrize("text", ["built 1998", "asking 1450", "14 ft long", "sail 3024", "two hundred"])
def test_a_bare_number_says_so(text: str) -> None:
    assert all(one.plain for one in money_in(text))


@pytest.mark.parametrize("text", ["ABC12345L495", "QQ-XYZ00123E526", "2026-09-21", "1/2 inch", "5mm", "GRP"])
def test_letters_and_parts_of_numbers_are_none(text: str) -> None:
    assert not [one for one in money_in(text) if not one.plain]


@given(st.text(alphabet="0123456789,. £$€k-atonwgrdEURse\n", max_size=40))
def test_whatever_is_written_is_read_without_a_slip(text: str) -> None:
    for one in money_in(text):
        assert 0 <= one.low <= one.high
        assert text[one.start : one.end].strip()
