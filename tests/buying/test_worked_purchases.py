"""Fourteen purchases at Westkade, an invented harbour: what is told to buyers, and pairs that differ in one thing.

Unless it is said otherwise the boat is one whose every main place was tried and passed, 2400 are asked, and others like
her, complete and sound, were advertised for 2600 to 3000.
"""

from __future__ import annotations

from collections.abc import Sequence

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.buying.yards import ALTERED, CASE, FADE, OPEN_ANCHOR, SEAM, STEP, WORN_TYRE, Advise, purchase
from triage.buying.advice import PurchaseAdvice
from triage.knowledge.model import KnowledgeBase
from triage.phrases import buying, prices, seller

BUY, TERMS, WAIT, LEAVE = range(4)
INSIDE_AND_UNDERNEATH = (
    *("slot_rim", "case_wall", "case_root", "pivot", "bulkhead", "stiffener", "chainplate_under", "mast_step"),
    *("transom_inside", "side_tank", "end_tank", "foam_bag"),
)


@pytest.fixture(scope="module")
def advise(kb: KnowledgeBase) -> Advise:
    return lambda *found, **changed: purchase(kb, *found, **changed)


def rules(advice: PurchaseAdvice) -> Sequence[str]:
    return [one.rule.removeprefix("buying/") for one in (*advice.reasons, *advice.others)]


def test_1_ada_finds_nothing_but_looks_and_may_buy(advise: Advise) -> None:
    advice = advise(FADE, budget=2700)

    assert BUY == advice.level
    assert advice.decision.settled
    assert "Buy: nothing found speaks against it" == buying.headline(advice)
    assert () == advice.reasons


def test_2_bo_named_no_price_so_none_is_judged(advise: Advise) -> None:
    advice = advise(FADE, asking=None, sound=None)

    assert BUY == advice.level
    assert not advice.decision.settled
    assert buying.NO_PRICE_JUDGED == buying.headline(advice)
    assert ("sound", "asking", "budget") == advice.unnamed


def test_3_cleo_finds_a_parted_seam_and_buys_on_terms(advise: Advise) -> None:
    advice = advise(SEAM)

    assert TERMS == advice.level
    assert "one-weak-main-part" == rules(advice)[0]
    assert advice.conditions[0].startswith("A repairer's figure")


def test_4_cleo_accepts_the_seam_at_a_quoted_price(advise: Advise) -> None:
    """The pair of 3: nothing but an accepted quote. It is a term, and it counts for nothing that ends in leaving."""
    advice = advise(SEAM, quotes=[{"for": "joint_bow", "price": 450, "accepted": "yes"}], asking=2000)

    assert TERMS == advice.level
    assert ["accepted-at-a-price"] == rules(advice)
    assert 0 == advice.sums.share


def test_5_dov_cannot_see_behind_the_shroud_anchor_and_waits(advise: Advise) -> None:
    advice = advise(OPEN_ANCHOR)

    assert WAIT == advice.level
    assert "open-where-loads-enter" == rules(advice)[0]
    assert advice.reasons[0].behind[0].check is not None
    assert "minutes" in buying.turned_by(advice.reasons[0])
    assert advice.professional is not None


def test_6_dov_comes_back_with_a_mirror(advise: Advise) -> None:
    """The pair of 5: the same lines in the coat, and the back was seen, whole and with its pad."""
    readings = {"crack_length": "25 mm", "crack_opening": "stays shut", "fitting_play": "still", "backing": "full pad"}
    advice = advise({**OPEN_ANCHOR, "readings": readings})

    assert advice.level < WAIT


def test_what_was_found_is_told_by_itself_where_what_nobody_tried_makes_it_graver(advise: Advise) -> None:
    waits = advise(SEAM, without=INSIDE_AND_UNDERNEATH)
    fades = advise(FADE, without=INSIDE_AND_UNDERNEATH)

    assert WAIT == waits.level == fades.level
    assert "By what was found alone: buy on terms, in writing." == buying.by_what_was_found(waits)
    assert "What was found is only looks." == buying.by_what_was_found(fades)
    assert "" == buying.by_what_was_found(advise(SEAM))
    assert "" == buying.by_what_was_found(advise(OPEN_ANCHOR))


def test_7_eli_finds_three_weak_places_and_leaves(advise: Advise) -> None:
    advice = advise(SEAM, STEP, CASE)

    assert LEAVE == advice.level
    assert ["three-weak-main-parts"] == [one.rule.removeprefix("buying/") for one in advice.reasons]
    assert 4 >= len(advice.reasons)


def test_8_fay_is_shown_fresh_paint_and_wants_no_haste(advise: Advise) -> None:
    advice = advise(FADE, sale=["fresh paint", "wants it done today"])

    assert WAIT == advice.level
    assert ["odd-things-together"] == rules(advice)
    assert "Pay no deposit today." in advice.never


def test_9_fay_is_shown_fresh_paint_and_has_all_the_time_she_wants(advise: Advise) -> None:
    """The pair of 8: without the haste one odd thing is asked about, and no more."""
    advice = advise(FADE, sale=["fresh paint"])

    assert TERMS == advice.level
    assert ["one-odd-thing"] == rules(advice)


def test_10_gil_sees_where_a_number_was_and_leaves(advise: Advise) -> None:
    advice = advise(ALTERED)
    said = " ".join([*map(buying.reason, advice.reasons), *advice.never])

    assert LEAVE == advice.level
    assert "says nothing of who did it" in said
    assert not any(word in said for word in ("thief", "stole ", "fraud", "liar"))


def test_11_hana_did_not_look_inside_or_underneath(advise: Advise) -> None:
    advice = advise(without=INSIDE_AND_UNDERNEATH)

    assert WAIT == advice.level
    assert "much-not-tried" == rules(advice)[0]
    assert len(INSIDE_AND_UNDERNEATH) <= len(advice.untried) + 1
    assert "edges of the board slot" in buying.untried(advice)


def test_12_ivo_may_not_tow_home_what_is_a_good_boat(advise: Advise) -> None:
    advice = advise(WORN_TYRE)

    assert TERMS == advice.level
    assert "not-on-this-trailer" == rules(advice)[0]
    assert "Do not tow her home on it, whatever is agreed about the boat." in advice.never


def test_13_jo_is_not_sent_away_by_a_guess(advise: Advise) -> None:
    """Mending comes to most of the price, by our rough figures alone: she waits for a quote."""
    advice = advise(SEAM, asking=600)

    assert WAIT == advice.level
    assert "a-quote-decides" == rules(advice)[0]
    assert 60 < (advice.sums.share or 0)
    assert "A repairer's figure in writing: it decides" in buying.reason(advice.reasons[0])


def test_14_jo_has_a_quote_and_leaves(advise: Advise) -> None:
    """The pair of 13: the same damage at the same price, and a repairer has named his."""
    advice = advise(SEAM, asking=600, quotes=[{"for": "joint_bow", "price": [500, 700], "fixed": "yes"}])

    assert LEAVE == advice.level
    assert ["mending-is-most-of-it"] == [one.rule.removeprefix("buying/") for one in advice.reasons]


def test_nobody_is_told_to_leave_on_money_that_nobody_named(advise: Advise) -> None:
    """Whatever is found and asked: the same advice to leave, or none, as without any figure of money."""
    by_money = {"mending-is-most-of-it", "a-quote-decides", "mending-counts", "asked-too-much", "over-the-budget"}
    by_money |= {"beyond-the-budget", "budget-hangs-on-a-quote"}
    for found in ([SEAM], [SEAM, STEP], [SEAM, STEP, CASE]):
        asked, unnamed = advise(*found, asking=300), advise(*found, asking=None, sound=None, budget=None)

        assert (LEAVE == asked.level) == (LEAVE == unnamed.level)
        assert not by_money & set(rules(unnamed))


def test_a_boat_of_1985_and_one_of_2015_are_told_the_same(advise: Advise) -> None:
    old, new = (advise(SEAM, claimed_year=year) for year in (1985, 2015))

    assert old.decision == new.decision
    assert old.reasons == new.reasons
    assert old.sums == new.sums


def test_they_all_do_that_changes_nothing(advise: Advise) -> None:
    note = {**SEAM, "note": "The seller says they all do that."}

    assert advise(SEAM).decision == advise(note).decision
    assert advise(SEAM).sums == advise(note).sums


def test_a_budget_decides_by_what_is_certain_and_by_whose_figures(advise: Advise) -> None:
    """Enough; perhaps too little; certainly too little, by our figures; and by the buyer's own."""
    enough, little, less, none = (advise(SEAM, budget=budget) for budget in (6000, 2600, 2410, 2100))

    assert "over-the-budget" not in rules(enough)
    assert "over-the-budget" in rules(little)
    assert [TERMS, TERMS, WAIT, LEAVE] == [one.level for one in (enough, little, less, none)]
    assert "budget-hangs-on-a-quote" in rules(less)
    assert ["beyond-the-budget"] == [one.rule.removeprefix("buying/") for one in none.reasons]
    assert "€300 more than your budget of €2,100" in " ".join(prices.sum_up(none))


def test_what_a_bargain_may_take_off_sends_nobody_away(advise: Advise) -> None:
    """A figure of the buyer's own that exceeds the budget by less than that is no worse than a guess."""
    quoted = advise(SEAM, budget=2600, quotes=[{"for": "joint_bow", "price": 300, "fixed": "yes"}])

    assert quoted.sums.own_beyond is not None
    assert 0 < quoted.sums.own_beyond < 240
    assert TERMS == quoted.level


def test_a_seller_is_told_every_damage_whatever_decides(advise: Advise) -> None:
    """Four reasons are enough for a buyer; to a seller all that was found is told."""
    odd = advise(SEAM, OPEN_ANCHOR, WORN_TYRE, sale=["haste", "no_history"])

    told = "\n".join(seller.note(odd))

    assert "What I found" in told
    for place in ("along a seam", "cracks from a fitting", "tyre"):
        assert place in told.casefold(), told


def test_a_quote_turns_a_guess_about_the_budget_into_a_certainty(advise: Advise) -> None:
    quoted = advise(SEAM, budget=2410, quotes=[{"for": "joint_bow", "price": 300}])
    cheaper = advise(SEAM, budget=2410, quotes=[{"for": "joint_bow", "price": 5, "fixed": "yes"}])

    assert LEAVE == quoted.level
    assert cheaper.level < WAIT


def test_what_was_accepted_at_a_price_sends_nobody_away_over_a_budget(advise: Advise) -> None:
    quote = {"for": "joint_bow", "price": 300, "accepted": "yes"}
    assert TERMS == advise(SEAM, budget=2410, quotes=[quote]).level


def test_no_figure_is_certain_where_one_was_not_named(advise: Advise) -> None:
    for left_out in ({"asking": None}, {"budget": None}):
        assert advise(SEAM, **{"budget": 100, **left_out}).level < WAIT


def test_a_refusal_is_left_politely(advise: Advise) -> None:
    advice = advise(sale=["hatches refused"])

    assert LEAVE == advice.level
    assert "Thank you" in seller.says(advice)


def test_a_number_of_another_year_waits_for_an_answer(advise: Advise) -> None:
    fits = advise(number="QQXYZ00123E595", claimed_year=1995)
    other = advise(number="QQXYZ00123E595", claimed_year=2004)

    assert fits.level == BUY
    assert WAIT == other.level
    assert "another year" in buying.reason(other.reasons[0])


def test_one_place_left_out_is_said_and_no_more_than_terms(advise: Advise) -> None:
    advice = advise(without=["bulkhead"])

    assert TERMS == advice.level
    assert ["places-not-tried"] == rules(advice)
    assert ["bulkhead"] == [one.zone for one in advice.untried]


def test_a_mark_seen_in_a_photograph_alone_leaves_its_place_untried(advise: Advise) -> None:
    line = {"id": "scuff", "zone": "transom", "sign": "scuff"}
    there, photographed = advise(line), advise(line, only_in_photos=["scuff"])

    places = [[one.zone for one in advice.untried] for advice in (there, photographed)]
    assert [False, True] == ["transom" in zones for zones in places]
    assert there.level <= photographed.level
    assert "Only seen in a photograph" in buying.photographed(photographed)
    assert "" == buying.photographed(there)


def test_looking_without_trying_is_neither_better_nor_worse_than_not_looking(advise: Advise) -> None:
    looked, not_looked = advise({"zone": "bulkhead", "sign": "nothing_seen"}), advise(without=["bulkhead"])

    assert looked.decision == not_looked.decision
    assert rules(looked) == rules(not_looked)
    assert looked.sums.worth == not_looked.sums.worth


POOL = (SEAM, OPEN_ANCHOR, WORN_TYRE, ALTERED, FADE, STEP, CASE)


@settings(max_examples=12)
@given(fewer=st.sets(st.integers(0, len(POOL) - 1)), more=st.sets(st.integers(0, len(POOL) - 1)))
def test_more_found_never_makes_a_purchase_milder(kb: KnowledgeBase, fewer: set[int], more: set[int]) -> None:
    some, all_ = (purchase(kb, *(POOL[k] for k in sorted(which))) for which in (fewer, fewer | more))

    assert some.level <= all_.level


@settings(max_examples=8)
@given(order=st.permutations(POOL[:5]))
def test_the_order_in_which_things_were_found_changes_nothing(
    kb: KnowledgeBase, order: list[dict[str, object]]
) -> None:
    one, other = purchase(kb, *POOL[:5]), purchase(kb, *order)

    assert one.reasons == other.reasons
    assert one.sums == other.sums
