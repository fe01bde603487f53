"""What is due: on which day another look is, and of what none is asked."""

from __future__ import annotations

import datetime

import pytest

from triage.concluding.assess import assess_survey
from triage.knowledge.model import KnowledgeBase
from triage.log.calendar import Due
from triage.survey.model import Boat, Finding, Reading, Survey
from triage.views.due import dues

DAY = datetime.date(2026, 5, 3)
EARLIER = DAY - datetime.timedelta(days=40)


def at_its_best(kb: KnowledgeBase, sign: str, seen_on: datetime.date | None = None) -> Finding:
    """The mark at the stem with every answer as mild as it can be."""
    readings = {scale: Reading.at(kb.best(sign, scale)) for scale in kb.applicable("stem", sign)}
    return Finding("mark", "stem", sign, None, readings, seen_on=seen_on)


def looks_due(kb: KnowledgeBase, mark: Finding) -> list[Due]:
    assessment = assess_survey(Survey(Boat("Wagtail"), (mark,), DAY), kb)
    return [one for one in dues(kb, assessment, (), "visit", DAY) if "/open" not in one.key]


@pytest.mark.parametrize(("seen_on", "since"), [(None, DAY), (EARLIER, EARLIER)])
def test_the_weeks_run_from_the_day_on_which_the_mark_was_really_seen(
    kb: KnowledgeBase, seen_on: datetime.date | None, since: datetime.date
) -> None:
    (due,) = looks_due(kb, at_its_best(kb, "gouge_fibre", seen_on))

    assert since + datetime.timedelta(weeks=1) == due.day


def test_what_is_known_to_be_weakened_is_mended_and_not_looked_at_again(kb: KnowledgeBase) -> None:
    mark = at_its_best(kb, "hole_through")
    (job,) = assess_survey(Survey(Boat("Wagtail"), (mark,), DAY), kb).jobs

    assert any(note.kind == "recheck" and note.weeks for note in job.notes)
    assert [] == looks_due(kb, mark)
