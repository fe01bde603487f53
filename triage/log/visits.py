"""A visit as it is kept, wherever that is: a line for lists, and the survey as the text of a survey file."""

from __future__ import annotations

import datetime
import itertools
import json
import secrets
from collections.abc import Container, Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Any, get_args

from triage.errors import BadSurvey, CannotWork, Place, Problem
from triage.knowledge.model import KnowledgeBase
from triage.log.boats import BoatEntry, Entry, Kept, VisitEntry, What
from triage.parsing.documents import MAX_BYTES
from triage.survey.merge import Clash, merge
from triage.survey.model import Survey
from triage.survey.read import checked, survey_from
from triage.survey.write import survey_entries

NO_BOAT = "This boat is not kept here any more."
NO_VISIT = "This visit is not kept here any more."
NO_PHOTO = "This photograph is not kept here any more."
SPOILT = "The disk does not give back what was kept of this visit. Look after it, and open a copy of her file."


@dataclass(frozen=True)
class Visit:
    """A visit as plain words and numbers. ``number`` counts the visits of all boats as they were begun."""

    id: str
    boat: str
    number: int
    version: int
    name: str
    day: str
    marks: int
    said: str
    clashes: str
    survey: str

    def kept(self, kb: KnowledgeBase) -> Kept:
        """The visit as it was kept. Raises BadSurvey where newer rules do not know what it says; CannotWork where the
        disk does not give back what was kept.
        """
        try:
            said, told = tuple(json.loads(self.said)), json.loads(self.survey)
            clashes = tuple(Clash(*one) for one in json.loads(self.clashes))
        except (ValueError, TypeError):
            raise CannotWork(SPOILT) from None
        survey = replace(survey_from(told, kb, source=f"the visit to {self.name}"), source="")
        return Kept(self.id, self.boat, survey, self.version, said, clashes)


def begun(kb: KnowledgeBase, survey: Survey, boat: str, id_: str, number: int) -> Visit:
    """A new visit. Raises BadSurvey when the survey is none that could be read again."""
    return _with(Visit(id_, boat, number, 0, "", "", 0, "", "", ""), _fit(kb, survey), (), ())


def saved(kb: KnowledgeBase, last: Visit, opened: Kept, survey: Survey, said: Sequence[str]) -> Visit | None:
    """What becomes of a visit that was last kept so, when somebody who had opened it keeps ``survey``.

    None when what both made of it cannot be one survey. Raises BadSurvey when the new one could not be read again.
    """
    fit = _fit(kb, survey)
    if last.version == opened.version:
        return _with(last, fit, said, ())
    both, clashes = merge(opened.survey, fit, last.kept(kb).survey)
    try:
        return _with(last, _fit(kb, both), said, clashes)
    except BadSurvey:
        return None


def listed(visits: Iterable[Visit]) -> tuple[BoatEntry, ...]:
    """The boats of these visits, the one that was last visited first; she is called what she was called last."""
    newest = sorted(visits, key=lambda one: (one.day, one.number), reverse=True)
    found: dict[str, list[Visit]] = {}
    for visit in newest:
        found.setdefault(visit.boat, []).append(visit)
    return tuple(BoatEntry(boat, its[0].name, tuple(map(_entry, its))) for boat, its in found.items())


def entry_words(entry: Entry) -> dict[str, str]:
    """A line of a diary as plain words."""
    return {word: str(value or "") for word, value in vars(entry).items()}


def entry_of(words: Mapping[str, Any]) -> Entry:
    """The line of a diary that was kept so. Raises ValueError, KeyError."""
    what = next((one for one in get_args(What) if one == words["what"]), None)
    if what is None:
        raise ValueError(words["what"])
    day = datetime.date.fromisoformat(words["on"])
    mark = words.get("mark", "")  # earlier lines named none
    return Entry(words["zone"], words["side"] or None, words["sign"], what, day, words["by"], mark)


def plain_survey(survey: Survey) -> str:
    """A survey as it is kept: the entries of a survey file, in JSON."""
    return _text(survey_entries(survey))


def free_id(taken: Container[str]) -> str:
    """An id that nobody can guess, for a boat or a visit."""
    return next(one for one in (secrets.token_hex(6) for _ in itertools.count()) if one not in taken)


def photo_name(number: int) -> str:
    """What the photograph of this number is called among those of its visit."""
    return f"photo-{number}.jpg"


def _entry(visit: Visit) -> VisitEntry:
    return VisitEntry(visit.id, datetime.date.fromisoformat(visit.day) if visit.day else None, visit.marks)


def _with(visit: Visit, survey: Survey, said: Sequence[str], clashes: Sequence[Clash]) -> Visit:
    return replace(
        visit,
        version=visit.version + 1,
        name=survey.boat.name,
        day=survey.seen_on.isoformat() if survey.seen_on else "",
        marks=len(survey.marks),
        said=_text(list(said)),
        clashes=_text([[one.mark, one.ask, one.kept, one.other] for one in clashes]),
        survey=plain_survey(survey),
    )


def _fit(kb: KnowledgeBase, survey: Survey) -> Survey:
    """The survey as it will be read again. Raises BadSurvey when it would not.

    What could be taken back is left out where it would get too large with it.
    """
    survey = replace(checked(survey, kb), source="").in_walk_order(kb)
    if len(plain_survey(survey).encode("utf-8", "replace")) > MAX_BYTES:
        survey = replace(survey, conversation={**survey.conversation, "undo": []})
    if replace(survey_from(json.loads(plain_survey(survey)), kb, source="the survey"), source="") != survey:
        raise BadSurvey([Problem(Place("the survey"), "it would not read back as what it is")])
    return survey


def _text(plain: Any) -> str:
    return json.dumps(plain, ensure_ascii=False, separators=(",", ":"), default=datetime.date.isoformat)
