"""Numbers as people say them, turned into figures."""

from __future__ import annotations

import pytest

from triage.parsing.number_words import in_figures


@pytest.mark.parametrize(
    ("said", "figures"),
    [
        ("half a litre", "1/2 litre"),
        ("Half a litre", "1/2 litre"),
        ("an inch and a half", "1 1/2 inch"),
        ("two and a half inches", "2 1/2 inches"),
        ("three-quarters of an inch", "3/4 inch"),
        ("two thirds of a bucket", "2/3 bucket"),
        ("half an hour", "1/2 hour"),
        ("two of six spin", "2 of 6 spin"),
        ("a quarter turn on four of six screws", "1/4 turn on 4 of 6 screws"),
        ("2 litres an hour", "2 litres per 1 hour"),
        ("5 mm/m", "5 mm per 1 m"),
        ("a couple of mm", "2 mm"),
        ("a dozen blisters", "12 blisters"),
        ("takes foil at a corner", "takes foil at a corner"),
        ("to the fibre", "to the fibre"),
    ],
)
def test_number_words_become_figures(said: str, figures: str) -> None:
    assert figures == in_figures(said)
