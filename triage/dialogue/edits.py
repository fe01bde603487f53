"""What can be done to a survey, as data, and how each of it is undone.

    survey, back = apply(kb, survey, SetReading(mark, "fitting_play", Reading.at(0, "still")))
    survey, _ = apply(kb, survey, back)

An edit either gives a survey that passes the door or raises BadSurvey and changes nothing. The findings stand in the
order of the walk-round afterwards, so that undoing gives the very survey that was there before.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace

from triage.dialogue.facts import fact_of, with_fact
from triage.errors import BadSurvey, Place, Problem
from triage.knowledge.model import BUOYANCY, KnowledgeBase
from triage.phrases import conversation as phrases
from triage.survey.model import Day, Finding, Happened, Reading, Survey
from triage.survey.read import with_ids
from triage.survey.validity import doubts, doubts_of

HERE = Place("your answer")


@dataclass(frozen=True)
class AddFinding:
    """One more finding, which has an id that no other has."""

    finding: Finding


@dataclass(frozen=True)
class RemoveFinding:
    """A finding goes, with everything that was answered about it."""

    mark: str


@dataclass(frozen=True)
class SetReading:
    """What was read of a mark on a scale; None clears it."""

    mark: str
    scale: str
    reading: Reading | None


@dataclass(frozen=True)
class SetNote:
    """What was told of a mark in words."""

    mark: str
    note: str


@dataclass(frozen=True)
class SeeOn:
    """The mark was last looked at on this day; None: at this visit, whenever that was."""

    mark: str
    on: Day | None


@dataclass(frozen=True)
class AddPhoto:
    """A photograph of the mark, by the name under which it is kept."""

    mark: str
    name: str


@dataclass(frozen=True)
class RemovePhoto:
    """A photograph that shows something else."""

    mark: str
    name: str


@dataclass(frozen=True)
class SetFact:
    """A fact about the boat: its value, "could not tell", or None to clear it.

    ``zone`` says where, for the one fact that each place has of its own: whether it encloses buoyancy.
    """

    fact: str
    value: str | None
    zone: str = ""


@dataclass(frozen=True)
class NameBoat:
    """What she is called."""

    name: str


@dataclass(frozen=True)
class NoteVisit:
    """What is noted of the whole visit."""

    note: str


@dataclass(frozen=True)
class TellEvent:
    """Something that happened to her or was done; what was told of the same event before gives way."""

    happened: Happened


@dataclass(frozen=True)
class DropEvent:
    """It has not happened."""

    event: str


Edit = (
    AddFinding
    | RemoveFinding
    | SetReading
    | SetNote
    | SeeOn
    | AddPhoto
    | RemovePhoto
    | SetFact
    | NameBoat
    | NoteVisit
    | TellEvent
    | DropEvent
)


def apply(kb: KnowledgeBase, survey: Survey, edit: Edit) -> tuple[Survey, Edit]:
    """The survey after the edit, and the edit that takes it back. Raises BadSurvey for what cannot be."""
    match edit:
        case AddFinding(finding):
            after = replace(survey, findings=(*survey.findings, finding))
            back: Edit = RemoveFinding(finding.id)
        case RemoveFinding(mark):
            gone = find(survey, mark)
            after = replace(survey, findings=tuple(one for one in survey.findings if one is not gone))
            back = AddFinding(gone)
        case SetReading(mark, scale, reading):
            before = find(survey, mark)
            after = _with(survey, _reading_set(before, scale, reading))
            back = SetReading(mark, scale, before.readings.get(scale))
        case SetNote(mark, note):
            before = find(survey, mark)
            after = _with(survey, replace(before, note=note))
            back = SetNote(mark, before.note)
        case SeeOn(mark, on):
            before = find(survey, mark)
            after = _with(survey, replace(before, seen_on=on))
            back = SeeOn(mark, before.seen_on)
        case AddPhoto(mark, name):
            before = find(survey, mark)
            after = _with(survey, replace(before, photos=(*before.photos, name)))
            back = RemovePhoto(mark, name)
        case RemovePhoto(mark, name):
            before = find(survey, mark)
            after = _with(survey, replace(before, photos=tuple(one for one in before.photos if one != name)))
            back = AddPhoto(mark, name)
        case SetFact(fact, value, zone):
            if fact not in kb.facts and (fact != BUOYANCY or zone not in kb.zones):
                raise BadSurvey([Problem(HERE, f'no boat fact is called "{fact}"')])
            after = replace(survey, boat=with_fact(survey.boat, fact, value, zone))
            back = SetFact(fact, fact_of(survey.boat, fact, zone), zone)
        case NameBoat(name):
            after = replace(survey, boat=replace(survey.boat, name=name))
            back = NameBoat(survey.boat.name)
        case NoteVisit(note):
            after = replace(survey, note=note)
            back = NoteVisit(survey.note)
        case TellEvent(happened):
            after = replace(survey, events=(*_others(survey, happened.event), happened))
            back = _as_it_was(survey, happened.event)
        case DropEvent(event):
            after = replace(survey, events=_others(survey, event))
            back = _as_it_was(survey, event)
    _refuse_what_cannot_be(kb, after, edit)
    return after.in_walk_order(kb), back


def apply_all(kb: KnowledgeBase, survey: Survey, edits: Iterable[Edit]) -> tuple[Survey, tuple[Edit, ...]]:
    """All of them in their order, or none; and the edits that take them back, in theirs."""
    backs: list[Edit] = []
    for edit in edits:
        survey, back = apply(kb, survey, edit)
        backs.append(back)
    return survey, tuple(reversed(backs))


def find(survey: Survey, mark: str) -> Finding:
    """The finding with this id. Raises BadSurvey when there is none."""
    found = next((one for one in survey.findings if one.id == mark), None)
    if found is None:
        raise BadSurvey([Problem(HERE, phrases.NO_SUCH_MARK)])
    return found


def with_id(survey: Survey, finding: Finding) -> Finding:
    """The finding with an id that no other has, made of place, side and sign."""
    known = {one.id for one in survey.findings}
    named = with_ids(replace(survey, findings=(*survey.findings, finding))).findings
    return next(one for one in named if one.id not in known)


def _others(survey: Survey, event: str) -> tuple[Happened, ...]:
    return tuple(told for told in survey.events if told.event != event)


def _as_it_was(survey: Survey, event: str) -> Edit:
    before = next((told for told in survey.events if told.event == event), None)
    return DropEvent(event) if before is None else TellEvent(before)


def _with(survey: Survey, finding: Finding) -> Survey:
    return replace(survey, findings=tuple(finding if one.id == finding.id else one for one in survey.findings))


def _reading_set(finding: Finding, scale: str, reading: Reading | None) -> Finding:
    others = {name: told for name, told in finding.readings.items() if name != scale}
    return replace(finding, readings=others if reading is None else {**others, scale: reading})


def _refuse_what_cannot_be(kb: KnowledgeBase, survey: Survey, edit: Edit) -> None:
    """The whole survey is looked at, unless the edit cannot touch more than one mark."""
    if isinstance(edit, SetReading):
        found = list(doubts_of(kb, survey.boat, find(survey, edit.mark)))
    else:
        found = list(doubts(kb, survey))
    if found:
        raise BadSurvey(Problem(HERE, doubt.what, doubt.hint) for doubt in found)
