"""A mark that stands from an earlier visit and is looked at again: it counts as seen at this one."""

from __future__ import annotations

import contextlib
from collections.abc import Collection, Iterator

from triage.dialogue.edits import Edit, SeeOn, SetReading, apply_all, find
from triage.knowledge.model import KnowledgeBase, Scale
from triage.survey.model import Finding, Reading, Survey
from triage.survey.readings import NotUnderstood, reading_of


def seen_again(
    kb: KnowledgeBase, survey: Survey, mark: str, measured: Collection[str] = ()
) -> tuple[Survey, tuple[Edit, ...]]:
    """The mark as one of this visit, and what takes that back. What was measured then stays as its level: only the
    scales in ``measured`` were measured anew, and a length of last time must not be compared as one of today.
    """
    return apply_all(kb, survey, _edits(kb, survey, find(survey, mark), measured))


def seen_by_answers(kb: KnowledgeBase, survey: Survey, backs: Collection[Edit]) -> tuple[Survey, tuple[Edit, ...]]:
    """The survey with every mark as seen that was answered about, by what takes these answers back."""
    answered = [edit for edit in backs if isinstance(edit, SetReading)]
    standing = {one.id for one in survey.marks if survey.stands_from_before(one)}
    for mark in dict.fromkeys(edit.mark for edit in answered if edit.mark in standing):
        scales = {edit.scale for edit in answered if edit.mark == mark}
        survey, more = seen_again(kb, survey, mark, scales)
        backs = (*more, *backs)
    return survey, tuple(backs)


def _edits(kb: KnowledgeBase, survey: Survey, finding: Finding, measured: Collection[str]) -> Iterator[Edit]:
    for scale, reading in finding.readings.items():
        if reading.measured is not None and scale not in measured:
            yield SetReading(finding.id, scale, _not_measured(kb.scales[scale], reading))
    yield SeeOn(finding.id, survey.seen_on)


def _not_measured(scale: Scale, reading: Reading) -> Reading:
    """The same levels, in words that say no quantity."""
    assert reading.low is not None
    assert reading.high is not None
    ends = dict.fromkeys((reading.low, reading.high))
    for words in (" to ".join(scale.levels[end].name for end in ends), " to ".join(map(str, ends))):
        with contextlib.suppress(NotUnderstood):
            said = reading_of(scale, words)
            if (said.low, said.high, said.measured) == (reading.low, reading.high, None):
                return said
    return Reading(reading.low, reading.high, " to ".join(map(str, ends)))
