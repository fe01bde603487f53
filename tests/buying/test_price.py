"""The lines of a price: each can be traced, the buyer's own figures go before ours, and the sums are the sums."""

from __future__ import annotations

import itertools
import re
from dataclasses import replace
from typing import Any

import pytest

from tests.buying.yards import ALTERED, FADE, OPEN_ANCHOR, SEAM, WORN_TYRE, Advise, Finding, purchase
from triage.buying.advice import PurchaseAdvice
from triage.buying.price_lines import PriceLine
from triage.knowledge.model import KnowledgeBase, Wait
from triage.phrases import build_up, buying, prices


@pytest.fixture(scope="module")
def advise(kb: KnowledgeBase) -> Advise:
    return lambda *found, **changed: purchase(kb, *found, **changed)


def line(lines: tuple[PriceLine, ...], name: str) -> PriceLine:
    (found,) = (one for one in lines if name in one.name)
    return found


def test_every_line_of_damage_names_its_findings(advise: Advise) -> None:
    advice = advise(SEAM, OPEN_ANCHOR, missing=["cover"])
    known = {finding.id for finding in advice.assessment.findings}

    for one in advice.sums.lines:
        assert set(one.about) <= known
        assert bool(one.about) == (one.kind in ("mending", "risk"))


def test_a_range_of_ours_gets_the_margin_for_what_is_hidden(advise: Advise, kb: KnowledgeBase) -> None:
    advice = advise(SEAM)
    seam = line(advice.sums.lines, "crack along a seam")
    (job,) = (job for job in advice.assessment.jobs if job.findings == seam.about)
    assert job.mending is not None
    assert job.mending.repairer is not None

    assert seam.margin > 0
    assert job.mending.repairer[0] * (1 + seam.margin) == pytest.approx(seam.amount.least)
    assert job.mending.repairer[1] * (1 + seam.margin) == pytest.approx(seam.amount.most)


def test_a_fixed_quote_is_taken_as_it_is(advise: Advise) -> None:
    quote = {"for": "joint_bow", "price": [400, 600], "by": "Westkade boatyard"}
    open_, fixed = (advise(SEAM, quotes=[{**quote, "fixed": said}]) for said in ("no", "yes"))

    assert (400, 600) == tuple(getattr(line(fixed.sums.lines, "seam").amount, end) for end in ("least", "most"))
    assert 600 < line(open_.sums.lines, "seam").amount.most
    assert "your quote from Westkade boatyard" == line(fixed.sums.lines, "seam").rests_on


def test_a_quote_that_meets_no_damage_is_told_and_not_counted(advise: Advise) -> None:
    advice = advise(SEAM, quotes=[{"for": "mast_step", "price": 300}])

    assert ("mast step",) == advice.sums.unused_quotes
    assert "mast step" in prices.unused(advice)
    assert advice.sums.worth == advise(SEAM).sums.worth


def test_a_suspected_cover_costs_what_a_cover_costs(advise: Advise) -> None:
    wet = {"zone": "side_tank", "side": "port", "sign": "tank_wet", "readings": {"tank_water": 2}}
    suspected = [one for one in advise(wet, without=["hatch", "drains"]).sums.lines if "does not seal" in one.name]

    assert suspected
    assert all(one.amount.most < 120 for one in suspected)


def test_an_open_mark_is_a_risk_with_its_chance(advise: Advise) -> None:
    (risk,) = (one for one in advise(OPEN_ANCHOR).sums.lines if one.kind == "risk")

    assert 0.35 == risk.chance
    assert risk.otherwise is not None
    assert risk.otherwise.mean < risk.amount.mean


def test_own_prices_for_gear_override_ours(advise: Advise) -> None:
    own = advise(missing=["cover"], gear_prices={"cover": 90})

    assert 90 == line(own.sums.lines, "cover").mean
    assert "your figure" == line(own.sums.lines, "cover").rests_on


def test_what_comes_with_her_adds_and_what_is_missing_takes_off(advise: Advise) -> None:
    plain, more, less = advise(), advise(extra=["road trailer"]), advise(missing=["road trailer"])
    worths = [one.sums.worth.mean for one in (less, plain, more) if one.sums.worth]

    assert sorted(worths) == worths
    assert worths[1] - worths[0] == pytest.approx(worths[2] - worths[1], rel=0.01)


def test_worth_and_outlay_are_the_sums_of_their_lines(advise: Advise) -> None:
    advice = advise(SEAM, missing=["cover"], spent=["mainsail"])
    worth, outlay = advice.sums.worth, advice.sums.outlay
    assert worth is not None
    assert outlay is not None
    costs = sum(one.mean for one in advice.sums.lines)

    assert advice.offer.sound is not None
    assert advice.offer.sound.mean - costs == pytest.approx(worth.mean, abs=1)
    assert 2400 + costs == pytest.approx(outlay.mean, abs=1)


def test_another_currency_says_how_much_of_it_one_unit_is(advise: Advise) -> None:
    euro, crown = advise(SEAM, sound=None), advise(SEAM, currency="SEK", one_unit=11, asking=26400, sound=None)

    assert 11 * euro.sums.costs.mean == pytest.approx(crown.sums.costs.mean)
    assert euro.decision == crown.decision
    assert euro.sums.share == pytest.approx(crown.sums.share)


def test_a_professional_is_worth_more_the_more_is_at_stake(advise: Advise) -> None:
    cheap = advise(OPEN_ANCHOR, sound=900, asking=700).professional
    advice = advise(OPEN_ANCHOR, sound=9000, asking=8900, quotes=[{"for": "chainplate", "price": 4000}])
    dear = advice.professional
    assert cheap is not None
    assert dear is not None

    assert not cheap.pays
    assert dear.to_leave > cheap.to_leave
    assert 0 <= dear.to_leave <= dear.chance * dear.loss
    assert "It rests on" in prices.professional(dear, advice)
    assert prices.TRY_FIRST not in prices.professional(dear, advice)
    assert prices.professional(dear, advise(without=["bulkhead"])).endswith(prices.TRY_FIRST)


def test_a_professional_is_worth_what_a_hand_works_out(advise: Advise) -> None:
    """One thing may be hidden. Whoever is told of it leaves where she would lose by it, else nothing changes."""
    advice = advise(OPEN_ANCHOR, sound=3000, asking=2400, quotes=[{"for": "chainplate", "price": 4000, "fixed": "yes"}])
    one, worth = advice.professional, advice.sums.worth
    assert one is not None
    assert worth is not None
    (risk,) = (line for line in advice.sums.lines if line.chance < 1)
    assert risk.otherwise is not None
    loss = 4000 - risk.otherwise.mean
    price = min(2400, worth.mean)
    fine = worth.mean + 0.35 * loss - price  # what she brings where nothing is hidden
    without = max(0.0, fine - 0.35 * loss)
    told = 0.35 * 0.8
    silent = max(0.0, 0.65 * fine + 0.35 * 0.2 * (fine - loss))
    knowing = told * max(0.0, fine - loss) + silent

    assert [0.35, 0.8] == pytest.approx([one.chance, one.finds])
    assert loss == pytest.approx(one.loss)
    assert knowing - without == pytest.approx(one.to_leave, abs=5)
    assert one.to_leave > 500


def test_nothing_hidden_needs_no_professional(advise: Advise) -> None:
    assert advise(SEAM).professional is None


def test_wires_that_are_old_enough_count_as_spent_and_a_hull_never_does(advise: Advise) -> None:
    young, old = (advise(SEAM, spent=[], ages={"standing wires": years}).sums.lines for years in (9, 12))

    assert not any(one.kind == "spent" for one in young)
    assert ("spent", "12 years old") == (line(old, "standing wires").kind, line(old, "standing wires").rests_on)


def test_what_is_missing_has_no_age(advise: Advise) -> None:
    lines = advise(SEAM, missing=["standing wires"], spent=[], ages={"standing wires": 20}).sums.lines

    assert "missing" == line(lines, "standing wires").kind


def test_a_sound_price_from_a_new_one_is_the_product_and_its_lines_are_told(advise: Advise) -> None:
    advice = advise(SEAM, sound=None, new=8000, of_new=[30, 40, 50])
    assert advice.offer.sound is not None

    assert (2400, 3200, 4000) == (advice.offer.sound.least, advice.offer.sound.likely, advice.offer.sound.most)
    assert [
        ("A new one like her", "€8,000", "your figure"),
        ("Of that, used ones fetch", "30 to 50 %", "your figure"),
        ("The same boat, complete and sound", "€2,400 to €4,000", ""),
    ] == list(prices.start(advice.offer))
    assert advice.decision == advise(SEAM, sound=[2400, 3200, 4000]).decision


def test_our_part_of_a_new_price_is_taken_only_when_asked_for_and_decides_nothing(advise: Advise) -> None:
    own, ours, none = (
        advise(FADE, sound=None, asking=2400, **given)
        for given in ({"new": 1000, "of_new": [20, 40, 60]}, {"new": 1000, "of_new": "ours"}, {})
    )

    assert own.offer.sound == ours.offer.sound
    assert 1 == own.level  # worth far less than is asked, by figures of her own
    assert none.reasons == ours.reasons
    assert 0 == ours.level
    assert "our estimate" in " ".join(prices.sum_up(ours))


def test_a_number_that_is_odd_is_nothing_to_mend(advise: Advise) -> None:
    assert not advise(ALTERED).sums.unpriced


SEEN_STRANDS = {"zone": "shrouds", "side": "port", "sign": "wire_fray", "readings": {"wire_state": 2}}
TOLD_STRANDS = {"zone": "shrouds", "sign": "wire_fray"}


def shrouds(advice: PurchaseAdvice) -> list[str]:
    return [one.name for one in advice.sums.lines if one.name.startswith("shrouds")]


def behind(advice: PurchaseAdvice) -> list[str]:
    reasons = (*advice.reasons, *advice.others)
    return [thing.name for one in reasons for thing in one.behind if thing.name.startswith("shrouds")]


def test_a_damage_told_without_its_side_and_then_seen_at_one_is_paid_for_once(advise: Advise) -> None:
    once, again = advise(SEEN_STRANDS), advise(SEEN_STRANDS, TOLD_STRANDS)

    assert shrouds(once)
    assert shrouds(once) == shrouds(again)
    assert behind(once) == behind(again)
    assert once.sums.costs == again.sums.costs


def test_a_graver_damage_of_an_unknown_side_is_not_taken_for_the_milder_one(advise: Advise) -> None:
    graver = {**TOLD_STRANDS, "readings": {"wire_state": 2}}
    milder = {**SEEN_STRANDS, "readings": {}}

    assert 2 == len(shrouds(advise(milder, graver)))


def test_damage_on_both_sides_is_paid_for_twice(advise: Advise) -> None:
    assert 2 == len(shrouds(advise(SEEN_STRANDS, {**SEEN_STRANDS, "side": "starboard"})))


TORN = {"zone": "sails", "sign": "torn_pocket"}


def test_damage_to_gear_that_is_spent_is_paid_for_with_it(advise: Advise) -> None:
    torn, spent = advise(TORN), advise(TORN, spent=["mainsail"])
    (damage,) = (one for one in torn.sums.lines if one.zones == ("sails",))
    sail = line(spent.sums.lines, "mainsail")

    assert (damage.name,) == sail.takes_in
    assert damage.name not in {one.name for one in spent.sums.lines}
    assert damage.name in prices.line_detail(sail, "EUR")
    assert spent.sums.costs == advise(spent=["mainsail"], without=["sails"]).sums.costs


def test_what_is_mended_with_spent_gear_still_takes_its_part_of_the_price(advise: Advise) -> None:
    torn, spent = (advise(TORN, spent=gear, asking=300) for gear in ([], ["mainsail"]))

    assert torn.sums.share is not None
    assert spent.sums.share is not None
    assert torn.sums.share <= spent.sums.share


@pytest.mark.parametrize(
    ("gear", "found"), [("mainsail", TORN), ("standing_wires", SEEN_STRANDS), ("road_trailer", WORN_TYRE)]
)
def test_calling_gear_spent_makes_nothing_cheaper(advise: Advise, gear: str, found: Finding) -> None:
    plain, spent = advise(found), advise(found, spent=[gear], gear_prices={gear: 1})

    assert plain.sums.costs.mean == pytest.approx(spent.sums.costs.mean)


def test_a_quote_for_what_is_spent_stands_beside_it(advise: Advise) -> None:
    quoted = advise(TORN, spent=["mainsail"], quotes=[{"for": "sails", "price": 40}])

    names = {one.name for one in quoted.sums.lines if one.rests_on == "your quote"}
    assert names
    assert () == line(quoted.sums.lines, "mainsail").takes_in


def test_what_has_to_be_waited_for_is_told_beside_the_minutes(advise: Advise) -> None:
    reason = next(one for one in advise(OPEN_ANCHOR).reasons if one.scale == "open_main")
    thing = next(one for one in reason.behind if one.check)
    assert thing.check
    waiting = replace(thing, check=replace(thing.check, wait=Wait(96, "four days under cover")))

    assert f"{thing.check.minutes:g} minutes, plus four days under cover" in buying.turned_by(
        replace(reason, behind=(waiting,))
    )


def _whole(shown: str) -> float:
    return float(re.sub(r"[^\d.]", "", shown)) * (-1 if shown.startswith("−") else 1)


@pytest.mark.parametrize("asking", [2400, 60])
def test_the_lines_add_up_to_every_total_that_is_shown(kb: KnowledgeBase, asking: int) -> None:
    gear: dict[str, Any] = {"extra": ["road_trailer"], "missing": ["cover", "jib"], "spent": ["standing_wires"]}
    advice = purchase(kb, SEAM, OPEN_ANCHOR, without=["bulkhead", "pivot"], asking=asking, **gear)

    for rows in (list(build_up.rows(advice)), build_up.in_brief(advice, 2)):
        totals = [row for row in rows if row.total]
        assert build_up.TO_PAY == totals[0].name
        first = rows.index(totals[0])
        assert _whole(totals[0].counts) == sum(_whole(row.counts) for row in rows[:first])
    whole = list(build_up.rows(advice))
    signs = {"−": -1, "=": 0}
    starts = [at for at, row in enumerate(whole) if row.total]
    for begin, end in itertools.pairwise(starts):
        told = sum(signs.get(row.sign, 1) * _whole(row.counts) for row in whole[begin + 1 : end])
        assert _whole(whole[end].counts) == told
    assert 3 == len(starts)
    assert abs(_whole(whole[starts[0]].counts) - advice.sums.costs.mean) < build_up.STEP * len(advice.sums.lines)
