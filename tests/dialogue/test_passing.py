"""What passes a part: only a test does, on the sides that were tried, and it is taken back like any step."""

from __future__ import annotations

import pytest

from triage.dialogue.events import Undo
from triage.dialogue.judged import judged_boat
from triage.dialogue.keeping import kept
from triage.dialogue.passing import look_at, looks_fine, not_looked, tried_fine, way_to_pass
from triage.dialogue.round import standing
from triage.dialogue.state import State
from triage.dialogue.step import begin, step
from triage.knowledge.model import SIDES, KnowledgeBase
from triage.survey.model import Boat, Finding, Reading, Survey

FACTS = {"deck": "single", "hull": "single", "spar": "alloy", "standing_rigging": "wire", "stayed": "yes"}
BOAT = State(Survey(Boat("Wagtail", FACTS), ()))


def status(kb: KnowledgeBase, state: State, zone: str, side: str = "") -> str:
    return standing(judged_boat(kb, state.survey).coverage, zone, side)


def test_the_test_that_is_named_passes_every_place_of_a_plain_boat(kb: KnowledgeBase) -> None:
    for zone in kb.zones.values():
        if BOAT.survey.boat.has(zone):
            sides = SIDES if zone.sided else ("",)
            tried = tried_fine(kb, BOAT, zone.id, sides)
            assert {status(kb, tried, zone.id, side) for side in sides} == {"passed"}, zone.id


def test_it_records_the_readings_of_one_whole_way_at_their_best_and_nothing_else(kb: KnowledgeBase) -> None:
    (look,) = tried_fine(kb, BOAT, "case_root", ("",)).survey.findings

    assert look.is_look
    assert tuple(look.readings) == way_to_pass(kb, BOAT.survey, "case_root").scales
    assert set(look.upper.values()) == {0}


@pytest.mark.parametrize("zone", ["stem", "case_wall", "hatch", "board"])
def test_a_look_passes_nothing(kb: KnowledgeBase, zone: str) -> None:
    sides = SIDES if kb.zones[zone].sided else ("",)
    looked = looks_fine(kb, BOAT, [(zone, side) for side in sides])

    assert {status(kb, looked, zone, side) for side in sides} == {"nothing found"}
    assert all(not look.readings for look in looked.survey.looks)


def test_one_side_says_nothing_of_the_other(kb: KnowledgeBase) -> None:
    tried = tried_fine(kb, BOAT, "topside", ("port",))

    assert status(kb, tried, "topside", "port") == "passed"
    assert status(kb, tried, "topside", "starboard") == "not looked at"


def test_a_part_of_a_boat_that_nobody_knows_waits_for_the_fact(kb: KnowledgeBase) -> None:
    unknown = State(Survey(Boat("Wagtail"), ()))

    assert status(kb, tried_fine(kb, unknown, "foredeck", ("",)), "foredeck") == "nothing found"
    assert not way_to_pass(kb, unknown.survey, "foredeck").passes


def test_a_mark_takes_the_shorter_way_away(kb: KnowledgeBase) -> None:
    marked = Survey(Boat("Wagtail", FACTS), (Finding("m", "rudder_blade", "foil_chip"),))

    assert way_to_pass(kb, marked, "rudder_blade").scales in kb.zones["rudder_blade"].passed_by


def test_a_change_of_mind_takes_the_test_out_and_keeps_what_nobody_could_tell(kb: KnowledgeBase) -> None:
    vain = Finding("look", "stem", "nothing_seen", readings={"tap_dull": Reading.attempted()})
    tried = tried_fine(kb, State(Survey(BOAT.survey.boat, (vain,))), "stem", ("",))

    looked = looks_fine(kb, tried, [("stem", "")])

    assert tuple(looked.survey.looks[0].readings) == ("tap_dull",)
    assert not_looked(kb, looked, [("stem", "")]).survey.findings == ()


def test_many_looks_are_one_step_that_is_taken_back_after_leaving_and_coming_back(kb: KnowledgeBase) -> None:
    looked = looks_fine(kb, BOAT, [("stem", ""), ("topside", "port"), ("topside", "starboard")])
    assert look_at(looked.survey, "topside", "starboard") is not None

    state, _ = begin(kb, kept(looked))
    state, _ = step(kb, state, Undo())

    assert state.survey.findings == ()
