"""A mark that stands at a visit since an earlier one: taken out when it was mended, back in when that was not so."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from triage.app.screen import Program
from triage.app.visiting import keep, state_of
from triage.dialogue.edits import AddFinding, RemoveFinding, apply_all, with_id
from triage.dialogue.step import joined
from triage.log.again import Thread, as_it_stands, kind_of
from triage.survey.model import Survey


def let_go(asked: Program, visits: Sequence[str], thread: Thread) -> None:
    """The mark counts at none of these visits any more, unless it was looked at there."""
    for visit in visits:
        opened = asked.boats.open(visit)
        gone = [RemoveFinding(one) for one in _standing(opened.survey, thread)]
        if gone:
            survey, _ = apply_all(asked.kb, opened.survey, gone)
            keep(asked, opened, joined(asked.kb, state_of(asked, opened), survey))


def take_up(asked: Program, visits: Sequence[str], thread: Thread) -> None:
    """The mark counts again at these visits, as it was when somebody last looked at it."""
    for visit in visits:
        opened = asked.boats.open(visit)
        survey, day = opened.survey, opened.survey.seen_on
        there = thread.seen[-1].visit == visit or _standing(survey, thread)
        mark = None if there or day is None else as_it_stands(asked.kb, thread, survey.boat, day)
        if mark is not None:
            taken = {one.id for one in survey.findings}
            named = mark if mark.id not in taken else with_id(survey, replace(mark, id=""))
            survey, _ = apply_all(asked.kb, survey, [AddFinding(named)])
            keep(asked, opened, joined(asked.kb, state_of(asked, opened), survey))


def _standing(survey: Survey, thread: Thread) -> list[str]:
    """The ids under which the mark stands there since an earlier visit."""
    ids = {one.finding.id for one in (*thread.seen, *thread.stands)}
    marks = [one for one in survey.marks if one.id in ids and kind_of(one) == thread.kind]
    return [one.id for one in marks if survey.stands_from_before(one) and one.seen_on == thread.seen[-1].day]
