"""A case: one boat of which everything is known, and what of that a learner sees at first.

`triage.teaching.drawn` draws cases from the rules; `case_from` makes one of somebody's own survey, photographs and all.
The key to a case is the program's own assessment (`triage.teaching.key`).

    from triage import load_knowledge, survey_text
    from triage.teaching.drawn import draw_case
    from triage.teaching.key import key_of

    kb = load_knowledge()
    case = draw_case(kb, 17)
    print(survey_text(case.shown), key_of(kb, case).finding.verdict.best)
"""

from __future__ import annotations

import hashlib
from collections.abc import Mapping
from dataclasses import dataclass, replace
from functools import cached_property

from triage.errors import BadSurvey, Place, Problem
from triage.inference.compiled import compiled
from triage.knowledge.model import AFLOAT, NOTHING_SEEN, VERDICT, KnowledgeBase
from triage.survey.model import Finding, Reading, Survey
from triage.survey.write import survey_text

DIFFICULTIES = ("easy", "middling", "hard")
"""How far the answer hangs on one reading, and how many other marks it may be taken for."""

A_VISIT = 120.0
"""Hours. What no check gives within them is no reading of a first visit, so no case has it (estimate)."""


@dataclass(frozen=True)
class Case:
    """One mark to judge (``focus``, the id of a finding) on one boat.

    ``truth`` has every reading that a visit can give, ``shown`` none: the place, the side, the mark and the story.
    ``cause`` made the marks; empty where nothing happened, or nobody knows. ``name`` draws the case again, or is what
    its file is called; a trainer's own case has no ``difficulty``. ``at_sight`` is what the mark to judge looks like,
    where its own picture would say what only a check can tell.
    """

    name: str
    truth: Survey
    focus: str
    cause: str = ""
    difficulty: str = ""
    at_sight: str = ""

    @cached_property
    def shown(self) -> Survey:
        """What a learner sees first."""
        findings = tuple(replace(finding, readings={}) for finding in self.truth.findings)
        return replace(self.truth, findings=findings)

    @property
    def mark(self) -> Finding:
        """The mark to judge, with all its readings."""
        return self.finding(self.focus)

    def finding(self, id_: str) -> Finding:
        """The mark with this id, with all its readings. Raises StopIteration when there is none."""
        return next(finding for finding in self.truth.findings if finding.id == id_)

    def looks_like(self, finding: Finding) -> str:
        """What is said of a mark in place of its own picture; empty where that will do."""
        return self.at_sight if finding.id == self.focus else ""

    @property
    def digest(self) -> str:
        """The same for the same case, on any machine."""
        told = "\n".join((survey_text(self.truth), self.focus, self.cause, self.difficulty))
        return hashlib.sha256(told.encode()).hexdigest()[:12]


def first_visit(kb: KnowledgeBase, zone: str, sign: str) -> tuple[str, ...]:
    """The scales that a mark is judged by there and that some check reads within a visit."""
    return tuple(scale for scale in kb.applicable(zone, sign) if _within_a_visit(kb, scale, zone))


def _within_a_visit(kb: KnowledgeBase, scale: str, zone: str) -> bool:
    return any(not check.wait or check.wait.hours <= A_VISIT for check in kb.checks_for(scale, zone))


def case_from(kb: KnowledgeBase, survey: Survey, name: str, mark: str = "") -> Case:
    """A survey of one's own as a case: its readings are hidden, its photographs stay.

    ``mark`` is the id of the finding to judge; left out, the gravest. Raises BadSurvey when there is none.
    """
    survey = _named(survey.in_walk_order(kb))
    judged = [one for one in compiled(kb, survey.boat, survey.marks) if one.finding.sign != NOTHING_SEEN]
    among = [one for one in judged if not mark or one.finding.id == mark]
    if not among:
        what = f'no mark has the id "{mark}"' if mark else "there is no mark in it to judge"
        hint = f"There is {', '.join(one.finding.id for one in judged)}." if judged else "Write down what was found."
        raise BadSurvey([Problem(Place(survey.source or name), what, hint)])
    gravest = max(among, key=lambda one: (*one.interval(VERDICT), *one.interval(AFLOAT)))
    return Case(name, survey, gravest.finding.id)


def _named(survey: Survey) -> Survey:
    """The same with an id for every finding."""
    findings = [replace(one, id=one.id or f"mark-{number}") for number, one in enumerate(survey.findings, start=1)]
    return replace(survey, findings=tuple(findings))


def with_readings(survey: Survey, found: Mapping[tuple[str, str], Reading]) -> Survey:
    """The survey with what was found since, by the id of the finding and the scale."""
    findings = []
    for finding in survey.findings:
        more = {scale: reading for (id_, scale), reading in found.items() if id_ == finding.id}
        findings.append(replace(finding, readings={**finding.readings, **more}))
    return replace(survey, findings=tuple(findings))
