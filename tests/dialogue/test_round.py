"""The walk round her: every place once, what decides most first, progress, and where to go on."""

from __future__ import annotations

from dataclasses import replace

import pytest

from triage.dialogue.keeping import kept
from triage.dialogue.passing import looks_fine, tried_fine
from triage.dialogue.round import AS_LONG_AS_IT_TAKES, MINUTES, Round, planned, round_of
from triage.dialogue.state import State
from triage.dialogue.step import begin
from triage.knowledge.model import SIDES, KnowledgeBase
from triage.survey.model import Boat, Finding, Survey

YEAR = 2026
BARE = State(Survey(Boat("Wagtail"), ()))


def zones(round_: Round) -> list[str]:
    return [stop.zone.id for stretch in round_.stretches for stop in stretch.stops]


def test_with_all_the_time_every_place_comes_once_in_the_order_of_the_walk(kb: KnowledgeBase) -> None:
    round_ = round_of(kb, BARE.survey, AS_LONG_AS_IT_TAKES, YEAR)

    assert zones(round_) == [zone for leg in kb.walk for zone in leg.zones]
    assert (round_.looked, round_.places) == (0, len(kb.zones))


@pytest.mark.parametrize("minutes", MINUTES)
def test_within_the_minutes_the_most_decisive_of_each_leg_come_first_and_none_is_left_out(
    kb: KnowledgeBase, minutes: int
) -> None:
    round_ = round_of(kb, BARE.survey, minutes, YEAR)
    lines = planned(kb, BARE.survey, minutes, YEAR)

    assert sorted(zones(round_)) == sorted(kb.zones)
    for stretch in round_.stretches:
        ranks = [stop.rank for stop in stretch.stops if stop.rank]
        assert ranks == sorted(ranks)
        assert [stop.rank for stop in stretch.stops][: len(ranks)] == ranks
    assert 0 < sum(line.minutes for line in lines.values()) <= minutes


def test_a_place_that_she_has_not_is_not_come_to(kb: KnowledgeBase) -> None:
    without = Survey(Boat("Wagtail", {"bow_pole": "no"}), ())

    assert "bow_pole" not in zones(round_of(kb, without, 0, YEAR))


def test_the_plan_stays_while_nothing_is_found(kb: KnowledgeBase) -> None:
    looked = looks_fine(kb, BARE, [("stem", ""), ("case_wall", "")])
    tried = tried_fine(kb, looked, "mast_gate", ("",))

    assert planned(kb, tried.survey, 45, YEAR) == planned(kb, BARE.survey, 45, YEAR)


def test_progress_is_counted_by_place_and_a_place_by_its_sides(kb: KnowledgeBase) -> None:
    one_side = looks_fine(kb, BARE, [("topside", "port")])
    sides = round_of(kb, one_side.survey, 0, YEAR).stretch("sides")
    assert sides is not None
    assert (sides.looked, sides.progress) == (0, "part")

    papers = looks_fine(kb, BARE, [(zone, "") for zone in ("identity", "papers")])
    leg = round_of(kb, papers.survey, 0, YEAR).stretch("papers")
    assert leg is not None
    assert (leg.looked, leg.progress) == (2, "done")


def test_after_a_leg_comes_the_next_with_something_decisive_then_any_that_is_not_done(kb: KnowledgeBase) -> None:
    short = round_of(kb, BARE.survey, 30, YEAR)
    first = short.after("papers")
    assert first is not None
    assert any(stop.rank for stop in first.stops)

    long = round_of(kb, BARE.survey, AS_LONG_AS_IT_TAKES, YEAR)
    assert [one.leg.id for one in (long.after("papers"), long.after("wheels")) if one] == ["bow", "papers"]

    everything = [(zone.id, side) for zone in kb.zones.values() for side in (SIDES if zone.sided else ("",))]
    assert round_of(kb, looks_fine(kb, BARE, everything).survey, 30, YEAR).after("bow") is None


def test_minutes_count_what_the_plan_names_and_was_looked_at(kb: KnowledgeBase) -> None:
    lines = planned(kb, BARE.survey, 30, YEAR)
    tried = tried_fine(kb, BARE, "case_wall", ("",))

    assert round_of(kb, tried.survey, 30, YEAR).used == lines["case_wall"].minutes


def test_a_mark_stands_on_its_own_side(kb: KnowledgeBase) -> None:
    survey = Survey(Boat("Wagtail"), (Finding("m", "topside", "scuff", "port"),))
    stretch = round_of(kb, survey, 0, YEAR).stretch("sides")
    assert stretch is not None

    stop = next(stop for stop in stretch.stops if stop.zone.id == "topside")

    assert [(one.side, one.status, len(one.marks)) for one in stop.sides] == [
        ("port", "marked", 1),
        ("starboard", "not looked at", 0),
    ]


def test_the_minutes_are_kept_with_the_conversation(kb: KnowledgeBase) -> None:
    state, _ = begin(kb, kept(replace(BARE, minutes=45)))

    assert state.minutes == 45
