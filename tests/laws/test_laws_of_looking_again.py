"""Another visit at which nothing is said is never milder than what stood after the last one."""

from __future__ import annotations

import datetime
from dataclasses import replace

from hypothesis import assume, given, settings

from tests.laws.ranges import shipped
from tests.suspecting import boats_round_a_suspicion
from triage.concluding.assess import assess_survey
from triage.log.again import next_visit
from triage.survey.model import Survey

KB = shipped()
DAY = datetime.date(2025, 5, 3)


@settings(max_examples=40, deadline=None)
@given(boats_round_a_suspicion(KB))
def test_a_later_visit_with_nothing_said_is_never_milder(survey: Survey) -> None:
    assume(survey.marks)
    last = replace(survey, findings=survey.marks, seen_on=DAY)
    later = next_visit(KB, [("a", last)], [], DAY + datetime.timedelta(days=300))

    before, after = assess_survey(last, KB), assess_survey(later, KB)

    for was, now in ((before.verdict, after.verdict), (before.afloat.range, after.afloat.range)):
        assert all(new >= old for new, old in zip(now.levels, was.levels, strict=True))
    assert before.tow.range.levels <= after.tow.range.levels
    assert {(one.zone, one.side, one.sign) for one in later.marks} == {
        (one.zone, one.side, one.sign) for one in survey.marks
    }
    assert all(later.stands_from_before(one) for one in later.marks)
