"""Lessons and confusions that teach nothing, and what in them has no drawing."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from triage.drawing.boat.draw import drawn_spots, plain_chart
from triage.drawing.svg import drawn
from triage.errors import Problem
from triage.inference.evaluate import evaluate
from triage.knowledge.model import VERDICT, KnowledgeBase
from triage.knowledge.model.teaching import Confusion, Lesson, Lookalike
from triage.survey.validity import doubts_of
from triage.teaching.confusions import marks_of
from triage.teaching.contradictions import contradictions
from triage.teaching.single import common_boat, single_finding

SHORTEST, LONGEST = 40, 60
"""Minutes of a lesson: less is no lesson, and a class on a slipway gets cold."""


def teaching_problems(kb: KnowledgeBase) -> Iterator[Problem]:
    """All of them, confusion by confusion, then lesson by lesson."""
    teaching = kb.teaching
    if not (teaching.confusions or teaching.lessons):
        return
    pictures = _Pictures(kb)
    practised = {case.confusion for lesson in teaching.lessons.values() for case in lesson.cases}
    for confusion in teaching.confusions.values():
        yield from _of_confusion(kb, confusion)
        yield from pictures.of_confusion(confusion)
        if teaching.lessons and confusion.id not in practised:
            yield Problem(confusion.place, f"no lesson practises {confusion.id}", "Make it a case of a lesson.")
    for lesson in teaching.lessons.values():
        yield from _of_lesson(lesson)
        yield from pictures.of_lesson(lesson)


def _of_confusion(kb: KnowledgeBase, confusion: Confusion) -> Iterator[Problem]:
    """Readings that cannot be, and two things that the readings do not tell apart."""
    told = [problem for one in confusion.pair for problem in _doubts(kb, confusion, one)]
    yield from told
    if not confusion.at_sight:
        yield from _told_at_sight(kb, confusion)
    if not told and len({_verdict(kb, one) for one in confusion.pair}) == 1:
        what = f"{confusion.id}: both come to the same verdict, so nobody needs to tell them apart"
        yield Problem(confusion.place, what, "Add the reading that separates them, or take it out.")


def _told_at_sight(kb: KnowledgeBase, confusion: Confusion) -> Iterator[Problem]:
    """A look-alike drawn with readings that the picture of its mark denies."""
    for zone, sign, readings in marks_of(kb, confusion):
        for one in contradictions(kb, single_finding(kb, zone, sign, readings)):
            what = f"{confusion.id}: the picture of {sign} says more than the eye sees. {one.because}"
            yield Problem(confusion.place, what, "Say under at_sight what both look like.")


def _doubts(kb: KnowledgeBase, confusion: Confusion, one: Lookalike) -> Iterator[Problem]:
    for doubt in doubts_of(kb, common_boat(kb), single_finding(kb, one.zone, one.sign, one.readings)):
        yield Problem(confusion.place, f"{confusion.id}, “{one.name}”: {doubt.what}", doubt.hint)


def _verdict(kb: KnowledgeBase, one: Lookalike) -> tuple[int, int]:
    finding = single_finding(kb, one.zone, one.sign, one.readings)
    if finding.is_look:
        return 0, 0
    return evaluate(kb, common_boat(kb), [finding])[0].interval(VERDICT)


def _of_lesson(lesson: Lesson) -> Iterator[Problem]:
    if not SHORTEST <= lesson.minutes <= LONGEST:
        what = f"{lesson.id} takes {lesson.minutes} minutes"
        yield Problem(lesson.place, what, f"A lesson takes {SHORTEST} to {LONGEST}: mend its steps.")


class _Pictures:
    """What is drawn, and what is missing of it."""

    def __init__(self, kb: KnowledgeBase) -> None:
        self.marks, self.checks = drawn("marks"), drawn("checks")
        self.places = frozenset(zone for zone, _ in drawn_spots(plain_chart(kb.zones)))

    def of_confusion(self, confusion: Confusion) -> Iterator[Problem]:
        needed = [(one.drawing, "mark", self.marks) for one in confusion.pair]
        needed += [(check, "check", self.checks) for check in confusion.checks]
        needed += [(one.zone, "place", self.places) for one in confusion.pair]
        return self._missing(confusion, needed)

    def of_lesson(self, lesson: Lesson) -> Iterator[Problem]:
        needed = [(step.check, "check", self.checks) for step in lesson.steps if step.check]
        needed += [(case.sign, "mark", self.marks) for case in lesson.cases if case.sign]
        needed += [(case.zone, "place", self.places) for case in lesson.cases if case.zone]
        return self._missing(lesson, needed)

    def _missing(
        self, taught: Confusion | Lesson, needed: Iterable[tuple[str, str, Iterable[str]]]
    ) -> Iterator[Problem]:
        for name, kind, there in needed:
            if name not in there:
                what = f"{taught.id}: the {kind} {name} has no drawing"
                yield Problem(taught.place, what, "Draw it (DEVELOPERS.md, “Add a drawing”), or name another.")
