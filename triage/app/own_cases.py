"""A trainer's own cases: a mark of a visit that is kept here, with its photographs, for a class to judge."""

from __future__ import annotations

import itertools
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from functools import lru_cache

from triage.app.screen import Program
from triage.errors import BadInput, BadSurvey, NoSuch, Place, Problem
from triage.knowledge.model import KnowledgeBase
from triage.log.runs import OwnCase
from triage.log.visits import free_id
from triage.parsing.text import plain
from triage.phrases import teaching as words
from triage.survey.model import Survey
from triage.survey.read import survey_from_text
from triage.survey.write import survey_text
from triage.teaching.cases import Case, case_from
from triage.teaching.run import State, begin

PREFIX = "own:"
"""What the name of such a case begins with; its id follows."""

MOST_VISITS, MOST_WORDS, MOST_CASES = 30, 300, 100


@dataclass(frozen=True)
class Choice:
    """A mark that may be made a case of: ``visit`` and ``mark`` as a form sends them, and its name, which tells."""

    value: str
    says: str


def choices(asked: Program) -> Iterator[Choice]:
    """The marks of the visits that were last kept."""
    entries = ((boat, visit) for boat in asked.boats.boats() for visit in boat.visits if visit.marks)
    for boat, visit in itertools.islice(entries, MOST_VISITS):
        for mark in _bare(asked.boats.open(visit.id).survey, "").marks:
            where, name = asked.kb.zones[mark.zone].name, asked.kb.signs[mark.sign].name
            yield Choice(f"{visit.id}/{mark.id}", words.mark_of(boat.name, visit.day, name, where, mark.side))


def made(asked: Program, code: str, form: Mapping[str, str]) -> OwnCase:
    """A case of the mark that was chosen, kept for the class. Raises BadInput and NoSuch."""
    visit, _, mark = form.get("mark", "").partition("/")
    told, known = " ".join(plain(form.get("told", "")).split()), asked.boats.own_cases(code)
    where = Place("the case")
    if not mark:
        raise BadInput([Problem(where, "no mark was chosen", "Choose one from the list.")])
    if len(told) > MOST_WORDS:
        raise BadInput([Problem(where, "what learners are told is too long", f"Say it in {MOST_WORDS} letters.")])
    if len(known) >= MOST_CASES:
        raise BadInput([Problem(where, f"this class has {MOST_CASES} of them", "Take some out first.")])
    survey = _bare(asked.boats.open(visit).survey, told)
    if mark not in {one.id for one in survey.marks}:
        raise BadInput([Problem(where, "the mark is not there any more", "Choose one from the list.")])
    case = OwnCase(free_id({one.id for one in known}), code, visit, mark, survey_text(survey))
    begun(asked.kb, case)
    asked.boats.keep_own_case(case)
    return case


def _bare(survey: Survey, told: str) -> Survey:
    """The visit with all its readings, and without what anybody wrote beside them: it might tell the answer."""
    numbered = enumerate(survey.findings, start=1)
    findings = tuple(replace(one, id=one.id or f"mark-{number}", note="") for number, one in numbered)
    return replace(survey, findings=findings, note=told, by="", conversation={})


def of_class(asked: Program, code: str, number: int) -> OwnCase:
    """The case of this number among those of the class; after the last the first comes again. Raises BadInput."""
    every = asked.boats.own_cases(code)
    if not every:
        raise BadInput([Problem(Place("what the cases are about"), words.NO_OWN_CASES, words.OTHER_CHOICE)])
    return every[(number - 1) % len(every)]


@lru_cache(maxsize=64)
def begun(kb: KnowledgeBase, own: OwnCase) -> State:
    """The case at its first question. Raises NoSuch when the rules of today cannot read it."""
    try:
        return begin(kb, case_of(kb, own))
    except BadSurvey:
        raise NoSuch(words.OTHER_RULES) from None


def case_of(kb: KnowledgeBase, own: OwnCase) -> Case:
    """What was kept, as a case. Raises BadSurvey."""
    return case_from(kb, survey_from_text(own.survey, kb), f"{PREFIX}{own.id}", own.mark)


def photos_of(asked: Program, own: OwnCase, case: Case) -> Sequence[str]:
    """The photographs of the mark to judge that are still kept with their visit."""
    return [name for name in case.mark.photos if photo(asked, own, name) is not None]


def photo(asked: Program, own: OwnCase, name: str) -> bytes | None:
    """A photograph; None for one that went with its visit."""
    try:
        return asked.boats.photo(own.visit, name)
    except NoSuch:
        return None
