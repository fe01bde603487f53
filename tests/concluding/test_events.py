"""What happened to her: which events demand a look, which only advise one, and that none makes an answer milder."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.laws.ranges import shipped
from tests.strategies import boats_with_findings
from triage.concluding.assess import assess_survey
from triage.conclusions.assessment import Assessment
from triage.knowledge.model import KnowledgeBase
from triage.phrases.boat import headline
from triage.survey.model import Boat, Finding, Happened, Reading, Survey
from triage.views.report import render

NOTHING_FOUND = Survey(Boat("Wagtail"), (Finding("seen", "cockpit_floor", "nothing_seen"),))


def after(kb: KnowledgeBase, *events: Happened) -> Assessment:
    return assess_survey(replace(NOTHING_FOUND, events=events), kb)


def waits_for(told: Assessment) -> set[str]:
    return {one.zone for one in told.suspicions}


@pytest.mark.parametrize(
    ("told", "zones"),
    [
        (Happened("mast_in_mud"), {"mast_low", "mast_step", "chainplate"}),
        (Happened("hit_bottom", force="hard"), {"case_root", "pivot", "board"}),
        (Happened("mast_down"), {"forestay_anchor", "mast_step", "chainplate", "spreaders"}),
        (Happened("dropped"), {"bottom", "joint_stern", "case_root"}),
    ],
    ids=lambda value: getattr(value, "event", ""),
)
def test_she_waits_for_what_a_trainer_would_insist_on(kb: KnowledgeBase, told: Happened, zones: set[str]) -> None:
    assessment = after(kb, told)

    assert waits_for(assessment) == zones
    assert all(one.events == (told.event,) and not one.come_from for one in assessment.suspicions)
    assert {line.zone for stop in assessment.plan for line in stop.lines if line.suspects} == zones


@pytest.mark.parametrize(
    "told",
    [
        Happened("capsized"),
        Happened("hit_bottom", force="light"),
        Happened("hit_bottom"),
        Happened("bad_road"),
        Happened("dropped", force="light"),
        Happened("mast_down", when="earlier"),
        Happened("tightened", when="today"),
    ],
    ids=lambda told: f"{told.event} {told.force}{told.when}",
)
def test_a_usual_thing_keeps_nobody_ashore(kb: KnowledgeBase, told: Happened) -> None:
    bare, assessment = assess_survey(NOTHING_FOUND, kb), after(kb, told)

    assert not assessment.suspicions
    for one, other in (
        (assessment.verdict, bare.verdict),
        (assessment.afloat, bare.afloat),
        (assessment.tow, bare.tow),
    ):
        assert one == other


def test_what_is_advised_stands_in_the_plan_with_the_event_as_its_reason(kb: KnowledgeBase) -> None:
    lines = [line for stop in after(kb, Happened("capsized")).plan for line in stop.lines]

    assert [line.zone for line in lines] == ["side_tank"]
    assert lines[0].reasons[0].path[0] == "She capsized"
    assert not lines[0].suspects


def test_a_side_that_was_told_is_the_only_one_looked_at(kb: KnowledgeBase) -> None:
    told = after(kb, Happened("hit_by_boat", force="hard", side="port"))

    assert {(one.zone, one.side) for one in told.suspicions} == {("topside", "port"), ("joint_side", "port")}


def test_an_event_makes_its_cause_likely_and_nobody_is_asked_about_it_again(kb: KnowledgeBase) -> None:
    cause = next(one for one in after(kb, Happened("hit_bottom")).causes if one.id == "grounding")

    assert cause.likelihood in ("likely", "very likely")
    assert cause.answer == "yes"
    assert cause.speaks_for[0].event == "she hit a rock or the ground under water"


def test_a_boat_with_events_only_is_open_on_what_they_demand(kb: KnowledgeBase) -> None:
    told = assess_survey(Survey(Boat("Wagtail"), (), events=(Happened("mast_in_mud", when="today"),)), kb)

    assert waits_for(told) == {"mast_low", "mast_step", "chainplate"}
    assert not told.verdict.settled
    assert headline(told) == "Nothing was looked at; 3 to look at because of what happened"
    assert "She turned over and her mast stuck in the bottom (today). Before she sails" in render(told, "full")


@pytest.mark.parametrize(
    ("said", "suspected", "now"),
    [
        (Reading.at(0), {"mast_low", "chainplate"}, "not yet"),
        (Reading.attempted(), {"mast_low", "mast_step", "chainplate"}, "ashore"),
    ],
    ids=["found well", "tried in vain"],
)
def test_the_check_that_a_suspicion_asks_for_can_be_answered(
    kb: KnowledgeBase, said: Reading, suspected: set[str], now: str
) -> None:
    flexed = Finding("seen", "mast_step", "nothing_seen", readings={"crack_opening": said})
    told = assess_survey(Survey(Boat("Wagtail"), (flexed,), events=(Happened("mast_in_mud"),)), kb)

    assert waits_for(told) == suspected
    assert told.afloat.now == now


def test_the_time_of_an_event_counts_from_the_visit() -> None:
    import datetime

    day = datetime.date(2026, 6, 1)
    ages = [Happened("dropped", on=day - datetime.timedelta(days=days)).ago(day) for days in (0, 30, 400)]

    assert ages == ["today", "this season", "earlier"]


@settings(max_examples=12, deadline=None)
@given(data=st.data())
def test_an_event_never_makes_an_answer_milder(data: st.DataObject) -> None:
    kb = shipped()
    boat, found = data.draw(boats_with_findings(kb, most=3))
    events = data.draw(st.lists(st.sampled_from(list(kb.happenings.events)), min_size=1, max_size=3, unique=True))
    told = tuple(
        Happened(
            event,
            force=data.draw(st.sampled_from(["", "light", "hard"])),
            when=data.draw(st.sampled_from(["", "today", "earlier"])),
        )
        for event in events
    )
    before, then = (assess_survey(Survey(boat, found, events=some), kb) for some in ((), told))

    for one, other in (
        (before.verdict, then.verdict),
        (before.afloat.range, then.afloat.range),
        (before.tow.range, then.tow.range),
    ):
        assert one.levels[0] == other.levels[0]
        assert one.levels[1] <= other.levels[1]
    assert before.findings == then.findings
