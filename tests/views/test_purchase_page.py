"""What a buyer is given to read and to print: everything traceable, what nobody opened, the same each time."""

from __future__ import annotations

import io
import json
from collections.abc import Mapping
from typing import Any

import pytest

from tests.app.conftest import plain
from tests.buying.yards import OPEN_ANCHOR, SEAM, purchase
from triage.knowledge.model import KnowledgeBase
from triage.views.pdf import as_pdf
from triage.views.purchase import render_purchase

TRIED = {"repair_quality": 0, "tap_dull": 0, "panel_give": 0}
PATCH: Mapping[str, Any] = {"zone": "topside", "side": "port", "sign": "old_repair", "readings": TRIED}
WET = {"blistering": 2, "wet_weep": 3, "tap_dull": 0, "panel_give": 0}
BLISTERS: Mapping[str, Any] = {"zone": "bottom", "sign": "blister", "readings": WET}
PINHEADS: Mapping[str, Any] = {"zone": "bottom", "sign": "blister", "readings": {"blistering": 0}}
BAND: Mapping[str, Any] = {
    "zone": "side_deck",
    "side": "starboard",
    "sign": "dull_tap",
    "readings": {"tap_dull": "60 mm"},
}


def page(kb: KnowledgeBase, *found: Mapping[str, Any], without: tuple[str, ...] = ()) -> str:
    return plain(render_purchase(purchase(kb, *found, without=without), "html"))


def test_an_old_clean_patch_costs_nothing_and_its_story_is_asked_for(kb: KnowledgeBase) -> None:
    advice = purchase(kb, PATCH)

    assert (0, ()) == (advice.level, advice.sums.lines)
    assert "Ask what happened, who mended it and how, and look at the nearest seam or rib." in page(kb, PATCH)


def test_wet_blisters_are_upkeep_with_cost_and_drying_and_pinheads_are_looks(kb: KnowledgeBase) -> None:
    advice, read = purchase(kb, BLISTERS), page(kb, BLISTERS)

    assert 0 == advice.level
    assert ["mending"] == [line.kind for line in advice.sums.lines]
    assert "weeks of drying" in read
    assert "€25 to €170" in read
    assert () == purchase(kb, PINHEADS).sums.lines


def test_a_dull_band_is_not_settled_and_is_pressed(kb: KnowledgeBase) -> None:
    read = page(kb, BAND)

    assert "Something that may be structural has not been cleared" in read
    assert "Press and compare" in read
    assert "parted core" not in read.casefold()


def test_every_line_of_the_page_leads_to_the_tests_it_rests_on(kb: KnowledgeBase) -> None:
    advice, read = purchase(kb, SEAM, OPEN_ANCHOR), page(kb, SEAM, OPEN_ANCHOR)

    for line in advice.sums.lines:
        for id_ in line.about:
            assert 2 <= read.count(id_), "in the price and where it was found"
    assert "“Length of the line” came out at 80 mm" in read
    assert "It may have been:" in read


def test_what_was_not_opened_is_named_and_no_suspicion_hides_it(kb: KnowledgeBase) -> None:
    advice = purchase(kb, SEAM, OPEN_ANCHOR, without=("mast_step", "end_tank"))
    read = page(kb, SEAM, OPEN_ANCHOR, without=("mast_step", "end_tank"))

    assert "mast_step" in {one.zone for one in advice.untried}
    assert "tep where the foot of the mast stands" in read.partition("Not tried")[2].partition("What was found")[0]
    opened = read.partition("Not opened up, not looked at, not tried")[2]
    assert "closed spaces at bow, stern or under the floor" in opened
    assert "step where the foot of the mast stands" in opened


def test_what_was_tried_in_vain_is_told_as_that(kb: KnowledgeBase) -> None:
    anchor = {**OPEN_ANCHOR, "readings": {"crack_length": "25 mm", "backing": "could not tell"}}

    assert "Tried, and nobody could tell: shroud anchor on deck, port (backing)" in page(kb, anchor)


def test_the_same_inputs_give_the_same_page(kb: KnowledgeBase) -> None:
    first, second = (render_purchase(purchase(kb, SEAM, BAND), "html") for _ in range(2))

    assert first == second


def test_the_data_say_of_which_shape_they_are(kb: KnowledgeBase) -> None:
    data = json.loads(render_purchase(purchase(kb, SEAM, OPEN_ANCHOR), "json"))

    assert 3 == data["format"]
    assert {"beyond", "own_beyond"} <= set(data["sums"])
    assert {"to_leave", "off_the_price", "price", "risks", "chance", "loss", "finds", "fee"} == set(
        data["professional"]
    )
    lines = {"kind", "name", "about", "amount", "chance", "otherwise", "cause", "margin", "rests_on", "counted"}
    assert lines | {"accepted", "basis", "note", "zones", "gear", "takes_in"} == set(data["sums"]["lines"][0])


@pytest.mark.slow
def test_the_decision_is_one_printed_page_and_all_of_it_is_five_at_most(kb: KnowledgeBase) -> None:
    import pypdf

    advice = purchase(kb, SEAM, OPEN_ANCHOR, PATCH, BLISTERS, without=("mast_step", "end_tank"), budget=2600)
    pages = [one.extract_text() for one in pypdf.PdfReader(io.BytesIO(as_pdf(render_purchase(advice, "html")))).pages]

    assert 5 >= len(pages)
    for needed in ("asking €2,400", "To turn it", "In writing"):
        assert needed in pages[0]
    assert "Not opened up, not looked at, not tried" in pages[-1]
