"""Minutes of work and waiting are told apart: in what is printed, and in which question comes first."""

from __future__ import annotations

from dataclasses import replace

from triage.asking.effort import trouble
from triage.asking.told import open_check
from triage.knowledge.model import KnowledgeBase, Wait
from triage.phrases.words import plus_waiting
from triage.survey.model import Finding

FOUR_DAYS, A_NIGHT = Wait(96, "four days under cover"), Wait(12, "a night")


def test_of_several_waits_the_longest_is_told_because_one_waits_for_all_at_once() -> None:
    assert plus_waiting(A_NIGHT, None, FOUR_DAYS) == ", plus four days under cover"
    assert plus_waiting(None) == plus_waiting() == ""


def test_waiting_is_trouble_but_no_minutes(kb: KnowledgeBase) -> None:
    check = kb.checks["dry_and_tape"]
    at_once = replace(check, wait=None)

    assert check.wait
    assert trouble(check, check.minutes) > trouble(at_once, check.minutes)
    assert open_check(kb, Finding("a", "stem", "brown_weep"), "wet_weep", check).wait == check.wait


def test_a_check_of_days_is_dearer_than_any_check_of_minutes_with_a_cover_off(kb: KnowledgeBase) -> None:
    days = trouble(kb.checks["dry_and_tape"], kb.checks["dry_and_tape"].minutes)
    others = [one for one in kb.checks.values() if one.wait is None and one.dismantling != "off"]

    assert all(trouble(one, one.minutes) < days for one in others)
