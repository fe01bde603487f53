"""Several boats laid side by side: what they have in common."""

from __future__ import annotations

from typing import Any

from tests.app.conftest import Person
from triage.app.screens.common import MOST_BOATS
from triage.knowledge.model import KnowledgeBase
from triage.log.held import HeldBoats
from triage.phrases import common as says
from triage.phrases import screens as words
from triage.survey.read import survey_from

RUN = {"zone": "aft_run", "sign": "flat_worn", "readings": {"depth": 1}}
CHINE = {"zone": "chine", "side": "port", "sign": "scuff"}
ROPE = {"zone": "halyards", "sign": "rope_wear", "readings": {"rope_state": 0}}


def kept(boats: HeldBoats, kb: KnowledgeBase, name: str, *marks: dict[str, Any]) -> None:
    boats.begin(survey_from({"survey": 1, "boat": {"name": name}, "findings": list(marks)}, kb))


def test_a_cause_that_two_boats_share_is_told_with_its_cure(
    person: Person, boats: HeldBoats, kb: KnowledgeBase
) -> None:
    kept(boats, kb, "Tern", RUN, CHINE)
    kept(boats, kb, "Teal", RUN)
    person.go("/boats")
    assert words.IN_COMMON in person.read

    seen = person.go("/boats/common")

    cause = kb.causation.causes["slip_drag"]
    assert cause.name in seen
    assert cause.still_at_work is not None
    assert cause.still_at_work.cure in seen
    assert says.likelihood("Tern", "very likely") in seen
    assert "Teal:" in seen


def test_boats_with_nothing_in_common_are_said_to_have_nothing(
    person: Person, boats: HeldBoats, kb: KnowledgeBase
) -> None:
    assert says.ONE_BOAT in person.go("/boats/common")
    kept(boats, kb, "Tern", RUN, CHINE)
    assert says.ONE_BOAT in person.go("/boats/common")
    kept(boats, kb, "Teal", ROPE)
    assert says.NOTHING in person.go("/boats/common")


def test_of_many_boats_those_last_visited_are_taken_and_that_is_said(
    person: Person, boats: HeldBoats, kb: KnowledgeBase
) -> None:
    for number in range(MOST_BOATS + 1):
        kept(boats, kb, f"Boat {number}", ROPE)
    assert says.of_boats(MOST_BOATS, MOST_BOATS + 1) in person.go("/boats/common")
