"""A plan for a viewing: it keeps to the minutes, takes what tells most, and goes bow to stern."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.buying.yards import OFFER, OPEN_ANCHOR, sound_boat
from triage.buying.read_offer import offer_from
from triage.buying.trying import ViewingLine
from triage.buying.viewing import MOST_ASKED, ViewingPlan, plan_viewing
from triage.concluding.assess import assess_survey
from triage.conclusions.assessment import Assessment
from triage.knowledge.model import KnowledgeBase
from triage.knowledge.model.purchase import SettingUp
from triage.lint.buying import buying_problems
from triage.phrases import viewing
from triage.survey.read import survey_from
from triage.views.purchase import render_viewing


def assessed(kb: KnowledgeBase, *found: dict[str, Any], **boat: Any) -> Assessment:
    return assess_survey(survey_from({"boat": {"name": "Sanderling", **boat}, "findings": list(found)}, kb), kb)


def planned(kb: KnowledgeBase, minutes: float, *found: dict[str, Any], **offer: Any) -> ViewingPlan:
    return plan_viewing(assessed(kb, *found), offer_from({**OFFER, **offer}, kb), kb, minutes, 2026)


def lines(plan: ViewingPlan) -> list[ViewingLine]:
    return [line for stop in plan.stops for line in stop.lines]


@settings(max_examples=15)
@given(minutes=st.integers(5, 240))
def test_it_keeps_to_the_minutes_and_to_the_order_of_the_walk(kb: KnowledgeBase, minutes: int) -> None:
    plan = planned(kb, minutes)
    orders = [kb.zones[line.zone].order for line in lines(plan)]

    setting_up = sum(stop.setting_up.minutes for stop in plan.stops if stop.setting_up)
    assert plan.used == sum(line.minutes for line in lines(plan)) + setting_up
    assert plan.used <= minutes
    assert sorted(orders) == orders
    assert sorted(line.rank for line in lines(plan)) == list(range(1, len(orders) + 1))


def test_more_minutes_leave_less_out(kb: KnowledgeBase) -> None:
    left = [len(planned(kb, minutes).left_out) for minutes in (20, 40, 90, 600)]

    assert sorted(left, reverse=True) == left
    assert left[0] > left[-1]


def test_a_mark_in_a_photograph_comes_before_what_nobody_suspects(kb: KnowledgeBase) -> None:
    without, seen = planned(kb, 40), planned(kb, 40, OPEN_ANCHOR)
    (anchor,) = (line for line in lines(seen) if line.zone == "chainplate")

    assert "chainplate" not in {line.zone for line in lines(without)}
    assert "Cracks from a fitting" == anchor.because
    assert anchor.rank <= 4


def test_one_check_is_brought_to_many_places_rather_than_every_check_to_a_few(kb: KnowledgeBase) -> None:
    forty, sixty = ({line.zone for line in lines(planned(kb, minutes))} for minutes in (40, 60))

    assert len(forty) >= 9
    assert {"identity", "chainplate", "forestay_anchor", "case_root", "rudder_fittings", "side_tank"} <= sixty


def test_a_place_that_is_not_wholly_tried_says_what_would_pass_it(kb: KnowledgeBase) -> None:
    (root,) = (line for line in lines(planned(kb, 40)) if line.zone == "case_root")
    whole = next(line for line in lines(planned(kb, 40)) if not line.left)

    assert "To pass it, also: dry tissue afloat." in viewing.line(root)
    assert "To pass it" not in viewing.line(whole)


def test_what_takes_a_night_or_the_water_is_nothing_for_forty_minutes(kb: KnowledgeBase) -> None:
    assert not any(check.wait for line in lines(planned(kb, 40)) for check in line.checks)
    assert any(check.wait for line in lines(planned(kb, 600)) for check in line.checks)


def test_the_number_is_always_worth_its_minutes_when_money_is_at_stake(kb: KnowledgeBase) -> None:
    assert "identity" in {line.zone for line in lines(planned(kb, 40))}


def test_at_most_eight_questions_with_those_about_marks_among_them(kb: KnowledgeBase) -> None:
    plan = planned(kb, 40, OPEN_ANCHOR)

    assert MOST_ASKED == len(plan.asks) + len(plan.about_marks)
    assert plan.about_marks


def test_what_she_has_not_is_not_looked_at(kb: KnowledgeBase) -> None:
    has, has_not = (
        plan_viewing(assessed(kb, facts={"trapeze": told}), offer_from(OFFER, kb), kb, 600, 2026)
        for told in ("yes", "no")
    )

    assert "trapeze" in {line.zone for line in lines(has)}
    assert "trapeze" not in {line.zone for line in lines(has_not)}


def test_what_was_passed_is_not_tried_again(kb: KnowledgeBase) -> None:
    plan = plan_viewing(assess_survey(survey_from(sound_boat(), kb), kb), offer_from(OFFER, kb), kb, 600, 2026)

    assert [] == lines(plan)


def test_a_number_of_another_year_is_told_before_the_drive(kb: KnowledgeBase) -> None:
    text = render_viewing(planned(kb, 40, number="QQXYZ00123E595", claimed_year=2010))

    assert "another year" in text
    assert "Ask; there may be a plain reason." in " ".join(text.split())


@pytest.mark.parametrize("said", ["cannot show whether a panel gives", "no deposit", "has done nothing wrong"])
def test_the_page_says_what_photographs_cannot_and_stays_polite(kb: KnowledgeBase, said: str) -> None:
    assert said in " ".join(render_viewing(planned(kb, 40)).split())


def test_she_is_rolled_once(kb: KnowledgeBase) -> None:
    (under,) = [stop for stop in planned(kb, 600).stops if stop.setting_up]

    assert under.setting_up
    assert (under.leg, under.setting_up.minutes) == ("Underneath", 8)


def test_what_the_advert_tells_is_not_asked_for_again(kb: KnowledgeBase) -> None:
    ages = {"standing wires": 4, "mainsail": 9}
    offers: list[dict[str, Any]] = [{}, {"ages": {"mainsail": 9}}, {"ages": ages, "number": "QQ-XYZ00123E526"}]

    assert [8, 8, 6] == [len(planned(kb, 40, **offer).asks) for offer in offers]


def test_what_is_set_up_for_no_part_of_the_walk_is_told(kb: KnowledgeBase) -> None:
    assert kb.purchase.viewing is not None
    viewing = replace(kb.purchase.viewing, setting_up={"attic": SettingUp("Climbing up", 3)})
    spoiled = replace(kb, purchase=replace(kb.purchase, viewing=viewing))

    (problem,) = [one for one in buying_problems(spoiled) if "attic" in one.what]
    assert "underside" in problem.hint


def test_gear_that_is_said_to_be_at_no_place_is_told(kb: KnowledgeBase) -> None:
    gear = {**kb.purchase.gear, "board": replace(kb.purchase.gear["board"], at=("bord",))}
    spoiled = replace(kb, purchase=replace(kb.purchase, gear=gear))

    (problem,) = [one for one in buying_problems(spoiled) if "bord" in one.what]
    assert "board" in problem.hint


@pytest.mark.parametrize("asking", [None, 300])
def test_whose_she_is_is_looked_at_however_little_time_there_is(kb: KnowledgeBase, asking: int | None) -> None:
    told = {} if asking is None else {"asking": asking}

    assert "identity" in {line.zone for line in lines(planned(kb, 15, **told))}


def test_damage_that_is_told_for_certain_is_looked_at(kb: KnowledgeBase) -> None:
    strands = {"zone": "shrouds", "sign": "wire_fray", "readings": {"wire_state": 2}}
    (line,) = [one for one in lines(planned(kb, 40, strands)) if one.zone == "shrouds"]

    assert line.because


def test_a_boat_in_the_water_is_neither_turned_nor_wheeled(kb: KnowledgeBase) -> None:
    ashore, moored = (planned(kb, 600, lives=lives) for lives in ("Saltmere, ashore", "on a mooring at Saltmere"))
    beyond = {zone.id for zone in kb.zones.values() if zone.leg in ("underside", "wheels")}

    assert {line.zone for line in lines(ashore)} & beyond
    assert not {line.zone for line in lines(moored)} & beyond
    said = " ".join(render_viewing(moored).split())
    assert "edges of the board slot" in said.split("Not to be reached now:")[1]
    assert not any(word in said for word in ("trolley", "turn her on her side", "roll her", "Rolling her"))
    assert "Could she be brought ashore" in said
    assert MOST_ASKED >= len(moored.asks)
    assert () == ashore.beyond


@pytest.mark.parametrize("lives", ["", "Saltmere, dinghy park", "Saltmere, not on a mooring"])
def test_nobody_takes_a_boat_for_afloat_that_nobody_said_is(kb: KnowledgeBase, lives: str) -> None:
    assert planned(kb, 40, lives=lives).afloat is None


def test_what_was_noticed_of_the_sale_is_asked_about(kb: KnowledgeBase) -> None:
    plan = planned(kb, 40, sale=["selling because", "osmosis treated"])

    assert "Who treated her for blisters" in " ".join(plan.asks)
    assert "Since when has she been for sale" in " ".join(plan.asks)
    assert MOST_ASKED >= len(plan.asks)


def test_gear_that_does_not_come_with_her_is_not_there_to_be_tried(kb: KnowledgeBase) -> None:
    zones = ({line.zone for line in lines(planned(kb, 600, missing=gone))} for gone in ([], ["rudder"]))
    there, without = zones
    assert {"rudder_head", "rudder_blade"} & there
    assert not {"rudder_head", "rudder_blade"} & without


def test_every_check_of_a_printed_plan_says_once_how_it_is_done(kb: KnowledgeBase) -> None:
    plan = planned(kb, 90)
    said = " ".join(render_viewing(plan).split())

    for check in {check.id: check for line in lines(plan) for check in line.checks}.values():
        assert 1 == said.count(f"{check.name}: {check.steps[0]}"), check.id
