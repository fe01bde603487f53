"""Limits and the words of their levels say the same of what is exactly at them."""

from __future__ import annotations

from dataclasses import replace

import pytest

from triage.knowledge.model import KnowledgeBase
from triage.lint.limits import misworded_limits


def test_the_words_of_the_shipped_levels_agree_with_their_limits(kb: KnowledgeBase) -> None:
    assert not list(misworded_limits(kb))


@pytest.mark.parametrize(
    ("scale", "over", "said"),
    [
        ("tank_water", {1.0}, "tank_water 3 begins at 5, and its words say over it"),
        ("hole_wear", {25.0}, "hole_wear 1 begins at 5, and its words say over it"),
        ("crack_length", {15.0, 150.0}, "crack_length 1 begins over 15, and its words say at it"),
    ],
)
def test_words_on_the_other_side_of_a_limit_are_told(
    kb: KnowledgeBase, scale: str, over: set[float], said: str
) -> None:
    known = kb.scales[scale]
    assert known.measure is not None
    spoilt = replace(known, measure=replace(known.measure, over=frozenset(over)))

    assert [said] == [one.what for one in misworded_limits(replace(kb, scales={**kb.scales, scale: spoilt}))]
