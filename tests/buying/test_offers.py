"""Offers as people write them: what is understood, and what is asked back, all of it at once."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.buying.yards import OPEN_ANCHOR, SEAM, purchase
from tests.conftest import ROOT
from triage.buying.read_offer import offer_from, read_offer
from triage.errors import BadOffer
from triage.knowledge.model import KnowledgeBase
from triage.views.purchase import render_purchase

LEAST = {"offer": 1, "currency": "EUR"}


def test_the_example_is_understood(kb: KnowledgeBase) -> None:
    offer = read_offer(ROOT / "examples" / "offers" / "sanderling.yaml", kb)

    assert (2200, 3000) == (offer.asking, offer.budget)
    assert ("standing_wires",) == offer.spent
    assert "Westkade boatyard" == offer.quotes[0].by


def test_an_offer_may_name_nothing_at_all(kb: KnowledgeBase) -> None:
    offer = offer_from(LEAST, kb)

    assert (None, None, None) == (offer.sound, offer.asking, offer.budget)


@pytest.mark.parametrize(
    ("given", "told"),
    [
        ({"currency": "groat"}, '"groat" is no currency in three letters'),
        ({"currency": "$"}, "dollars are of several countries"),
        ({"currency": "C$"}, "how much of CAD"),
        ({"currency": "SEK"}, "how much of SEK"),
        ({"asking": -5}, "cannot be -5"),
        ({"asking": "cheap"}, '"asking" should be a number'),
        ({"sound": [3000, 2000]}, "does not run from the least to the most"),
        ({"sound": 0}, "a sound boat costs something"),
        ({"missing": ["covr"]}, 'Did you mean "cover"?'),
        ({"missing": ["cover"], "spent": ["cover"]}, "spent and missing at once"),
        ({"quotes": [{"for": "mast stepp", "price": 5}]}, 'no zone is called "mast stepp"'),
        ({"quotes": [{"for": "mast_step", "price": 5}] * 2}, "two quotes are for the same place"),
        ({"sale": ["raining"]}, 'no sign of a sale is called "raining"'),
        ({"second_number": "QQXYZ00123E595"}, "a second number and no first"),
        ({"askin": 5}, 'Did you mean "asking"'),
        ({"new": 9000}, "Or write ours, for our estimate: 20 to 60."),
        ({"of_new": [30, 50]}, "it is not said what a new one costs"),
        ({"new": 9000, "of_new": "theirs"}, '"of_new" should be a number or a list or "ours", not "theirs"'),
        ({"sound": ["much", 3000]}, 'entry 1 of "sound" should be a number, not "much"'),
        ({"new": 9000, "of_new": [50, 30]}, "does not run from the least to the most"),
        ({"new": 9000, "of_new": 40, "sound": 3000}, "one worked out from a new one"),
        ({"claimed_year": 1066}, "cannot be 1066"),
    ],
)
def test_what_cannot_be_is_asked_about(kb: KnowledgeBase, given: dict[str, Any], told: str) -> None:
    with pytest.raises(BadOffer) as raised:
        offer_from({**LEAST, **given}, kb)

    assert told in str(raised.value)


def test_everything_is_asked_at_once(kb: KnowledgeBase) -> None:
    with pytest.raises(BadOffer) as raised:
        offer_from({**LEAST, "missing": ["covr", "gib"], "sale": ["raining"]}, kb)

    assert 3 == len(raised.value.problems)


def test_a_file_that_is_not_there_is_told(kb: KnowledgeBase, tmp_path: Path) -> None:
    with pytest.raises(BadOffer, match="cannot be opened"):
        read_offer(tmp_path / "nothing.yaml", kb)


FIGURE = st.sampled_from([None, 0, 0.01, 1, 250, 2400, 9_000_000])


@settings(max_examples=10)
@given(asking=FIGURE, budget=FIGURE, sound=FIGURE.filter(lambda said: said != 0), kinds=st.sets(st.integers(0, 14)))
def test_whatever_the_figures_are_the_screen_can_be_read(
    kb: KnowledgeBase, asking: float | None, budget: float | None, sound: float | None, kinds: set[int]
) -> None:
    gear = [id_ for number, id_ in enumerate(kb.purchase.gear) if number in kinds]
    advice = purchase(kb, SEAM, OPEN_ANCHOR, asking=asking, budget=budget, sound=sound, missing=gear)
    screen = render_purchase(advice)

    assert 80 >= max(map(len, screen.splitlines()))
    assert "nan" not in screen
    assert "inf" not in screen.replace("information", "")
    assert render_purchase(advice, "html")
