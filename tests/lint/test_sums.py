"""Sums that cannot be done are told."""

from __future__ import annotations

from dataclasses import replace

import pytest

from tests.laws.ranges import shipped
from triage.knowledge.model.sums import Asked, Sum, Told
from triage.lint.sums import sum_problems

PRESS = shipped().sums["press"]
WORSE: dict[str, tuple[Sum, str]] = {
    "another id": (replace(PRESS, id="pres"), "no formula has this id"),
    "a unit nobody knows": (
        replace(PRESS, asks={**PRESS.asks, "dip": Asked("x", "ell", 1, 2)}),
        "nobody knows the unit ell",
    ),
    "another name": (replace(PRESS, asks={"dipp": PRESS.asks["dip"], "twin": PRESS.asks["twin"]}), "takes other names"),
    "another result": (replace(PRESS, tells={"loss": Told("x", "%", "y")}), "tells something else"),
}


def test_the_shipped_sums_can_be_done() -> None:
    assert [] == list(sum_problems(shipped()))


@pytest.mark.parametrize("why", WORSE)
def test_each_way_of_spoiling_one_is_told(why: str) -> None:
    spoilt, words = WORSE[why]

    (problem,) = sum_problems(replace(shipped(), sums={spoilt.id: spoilt}))

    assert words in problem.what
