"""Hull numbers against 33 CFR 181.25 and worked examples that others have published."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from triage.buying.hull_number import (
    CALENDAR,
    HullNumber,
    Unreadable,
    differences,
    doubts,
    read_hull_number,
    taken_for,
)

TODAY = 2026


def read(text: str) -> HullNumber:
    number = read_hull_number(text, TODAY)
    assert isinstance(number, HullNumber), number
    return number


# Where each was read stands beside it (PPSR: the Australian register of personal property, ppsr.gov.au).
PUBLISHED = [
    ("ABC12345L495", "ABC", "12345", 12, (1994,), 1995, "an owners' list on 12-character numbers"),
    ("ABCD1234H394", "ABC", "D1234", 8, (1993,), 1994, "a maker's page of questions: …H394"),
    ("ABC12345K485", "ABC", "12345", 11, (1984,), 1985, "an owners' forum: …K485 is November 1984"),
    ("ABC12345C585", "ABC", "12345", 3, (1985,), 1985, "an owners' forum: …C585 is March 1985"),
    ("ABC12345M82H", "ABC", "12345", 3, (1982,), 1982, "an owners' forum: …M82H is March, model year 1982"),
    ("ABC123451272", "ABC", "12345", 12, (1972,), 1972, "an owners' forum: December 1972"),
    ("ABC123451278", "ABC", "12345", 12, (1978,), 1978, "PPSR: December 1978"),
]


@pytest.mark.parametrize(("text", "maker", "serial", "month", "built", "model", "source"), PUBLISHED)
def test_published_examples(
    text: str, maker: str, serial: str, month: int, built: tuple[int, ...], model: int, source: str
) -> None:
    number = read(text)

    assert (maker, serial, month, built, model) == (
        number.maker, number.serial, number.month, number.built, number.model_year
    ), source  # fmt: skip
    assert not list(doubts(number, TODAY))


def test_the_calendar_year_of_a_model_year_number_before_january_stays_open() -> None:
    """Published readings disagree: PPSR has M78D in 1978; the season from August has it in 1977."""
    assert (1977, 1978) == read("ABC12345M78D").built
    assert 12 == read("ABC12345M73E").month


@pytest.mark.parametrize(
    ("text", "why"),
    [
        ("ABC1O345L495", "its serial “1O345” has O"),  # 33 CFR 181.25(b)
        ("ABC1I3Q5L495", "has I and Q"),
        ("ABC12345M495", "“M495” is no date"),  # 33 CFR 181.25(c): no month M
        ("ABC12345L4", "it has 10 characters"),
        ("", "it has 0 characters"),
        ("12-ABC12345L495", "“12” is no country"),
    ],
)
def test_what_the_regulation_does_not_allow_is_refused(text: str, why: str) -> None:
    refused = read_hull_number(text, TODAY)

    assert isinstance(refused, Unreadable)
    assert any(why in reason for reason in refused.why)


def test_an_inconsistent_sample_is_noticed() -> None:
    """PPSR prints a sample that ends in H765: year figure 7 and model year 65 cannot both be."""
    number = read("AU-ABC48119H765")

    assert "AU" == number.country
    assert any("does not fit model year" in doubt for doubt in doubts(number, TODAY))


def test_look_alikes_are_suggested_and_never_taken() -> None:
    refused = read_hull_number("ABC123451495", TODAY)  # 1 for the I of September

    assert isinstance(refused, Unreadable)
    assert "ABC12345I495" in refused.perhaps


def test_i_is_a_month_although_it_is_in_no_serial() -> None:
    assert 9 == read("ABC12345I495").month


def test_two_plates_are_compared_part_by_part() -> None:
    assert () == differences(read("AU-ABC12345L495"), read("ABC12345L495"))
    assert ("the serial",) == differences(read("ABC12345L495"), read("ABC12348L495"))
    assert taken_for(read("ABC12345L495"), read("ABC1234SL495"))
    assert not taken_for(read("ABC12345L495"), read("ABC12346L495"))


@given(
    maker=st.text("ABCDEFGHJKLMNPRSTUVWXYZ", min_size=3, max_size=3),
    serial=st.text("ABCDEFGHJKLMNPRSTUVWXYZ0123456789", min_size=5, max_size=5),
    month=st.integers(0, 11),
    year=st.integers(1985, TODAY),
)
def test_every_number_of_the_current_layout_reads_back(maker: str, serial: str, month: int, year: int) -> None:
    model = year + 1 if month >= 7 else year

    number = read(f"{maker}{serial}{CALENDAR[month]}{year % 10}{model % 100:02}")

    assert (maker, serial, month + 1, (year,), model) == (
        number.maker, number.serial, number.month, number.built, number.model_year
    )  # fmt: skip
    assert not list(doubts(number, TODAY))


@given(st.text(max_size=40))
def test_no_text_is_too_odd_and_every_suggestion_can_be_read(text: str) -> None:
    found = read_hull_number(text, TODAY)

    if isinstance(found, Unreadable):
        assert found.why
        assert all(isinstance(read_hull_number(other, TODAY), HullNumber) for other in found.perhaps)
