"""From a survey file to a Survey, or to every question it raises at once."""

from __future__ import annotations

import datetime
import itertools
from dataclasses import replace
from pathlib import Path as FilePath

from triage.errors import BadSurvey, Place, Problem
from triage.knowledge.model import BUOYANCY, KnowledgeBase, Zone
from triage.parsing.documents import MAX_BYTES, Document, Path, read_document
from triage.parsing.forms import fill
from triage.parsing.quantities import NotAQuantity, in_unit
from triage.parsing.text import did_you_mean, same
from triage.survey.answers import COULD_NOT_TELL, LONGEST_BOAT, Answers, Names
from triage.survey.form import MOST_FINDINGS, BoatForm, FindingForm, SurveyForm
from triage.survey.model import Boat, Finding, Survey

SHORTEST, LONGEST = 2.0, 8.0
"""Metres. Outside these a boat is not the kind of small open dinghy that the knowledge is about."""


def read_survey(file: FilePath | str, kb: KnowledgeBase) -> Survey:
    """The survey in a YAML or JSON file. Raises BadSurvey with every problem, or when the file cannot be opened."""
    try:
        with FilePath(file).open("rb") as opened:
            raw = opened.read(MAX_BYTES + 1)  # of a file without an end no more than is needed to see that it is one
    except OSError as error:
        hint = "Check the name and the folder."
        raise BadSurvey([Problem(Place(str(file)), f"cannot be opened: {error.strerror}", hint)]) from None
    return survey_from_text(raw, kb, source=str(file))


def survey_from_text(text: str | bytes, kb: KnowledgeBase, *, source: str = "survey") -> Survey:
    """The survey in a text. Raises BadSurvey with every problem at once."""
    document = read_document(text, source)
    if document.broken:  # half a survey would be full of mistakes that nobody made
        raise BadSurvey(document.problems)
    survey = _Reader(kb, document, *_forms(document)).survey()
    if document.problems:
        raise BadSurvey(document.problems)
    return survey


def _forms(document: Document) -> tuple[SurveyForm, dict[int, FindingForm]]:
    """The form and its findings, those that have the right shape; the others become problems and hide nothing else."""
    value = {} if document.value is None else document.value
    entries = value.get("findings", []) if isinstance(value, dict) else []
    if not isinstance(entries, list) or len(entries) > MOST_FINDINGS:
        entries = []
    rest = {**value, "findings": []} if entries else value
    form = fill(SurveyForm, rest, document) or SurveyForm(boat=BoatForm(name="a boat"))
    findings = {index: fill(FindingForm, entry, document, ("findings", index)) for index, entry in enumerate(entries)}
    return form, {index: finding for index, finding in findings.items() if finding is not None}


class _Reader:
    """Reads what has the right shape of one survey."""

    def __init__(
        self, kb: KnowledgeBase, document: Document, form: SurveyForm, findings: dict[int, FindingForm]
    ) -> None:
        self.kb, self.document, self.form, self.findings = kb, document, form, findings
        self.answers = Answers(kb, document)

    def ask(self, path: Path, what: str, hint: str = "") -> None:
        self.document.problems.append(self.document.problem(path, what, hint))

    def survey(self) -> Survey:
        boat = self.boat()
        longest = LONGEST_BOAT if boat.length is None else boat.length * 1000
        self.has_come(("visit", "on"), self.form.visit.on)
        self.ids_apart()
        findings = [
            finding
            for index, form in self.findings.items()
            if (finding := self.finding(("findings", index), form, boat, longest)) is not None
        ]
        visit = self.form.visit
        source = self.document.source
        survey = Survey(boat, tuple(findings), visit.on, visit.by, visit.note, source, self.history())
        return with_ids(survey.in_walk_order(self.kb))

    def history(self) -> dict[str, str]:
        names = Names((cause.id, (cause.name,)) for cause in self.kb.causation.causes.values())
        found = {}
        for said, answer in self.form.history.items():
            cause = self.answers.word(("history", said), said, names, "cause")
            if cause is not None and cause in found:
                self.ask(("history", said), f'"{said}" is answered twice', "Keep one of the answers.")
            elif cause is not None:
                found[cause] = str(answer)
        return {cause: found[cause] for cause in self.kb.causation.causes if cause in found}

    def has_come(self, path: Path, date: datetime.date | None) -> None:
        tomorrow = datetime.date.today() + datetime.timedelta(days=1)  # it is already tomorrow somewhere
        if date is not None and date > tomorrow:
            self.ask(path, f"{date} has not come yet", "Check the date.")

    def ids_apart(self) -> None:
        first: dict[str, int] = {}
        for index, form in self.findings.items():
            if form.id and first.setdefault(form.id, index) != index:
                line = self.document.place(("findings", first[form.id], "id")).line
                what = f'the id "{form.id}" is already that of the finding in line {line}'
                self.ask(("findings", index, "id"), what, "Give each its own, or take the line out.")

    def boat(self) -> Boat:
        form = self.form.boat
        facts = {}
        attempted = set()
        for key, said in form.facts.items():
            path: Path = ("boat", "facts", key)
            fact = self.kb.facts.get(key)
            if fact is None:
                self.ask(path, f'no boat fact is called "{key}"', did_you_mean(key, self.kb.facts))
                continue
            value = {same(name): name for name in fact.values}.get(same(said))
            if value is not None:
                facts[key] = value
            elif same(said) == COULD_NOT_TELL:
                attempted.add((key, ""))
            elif same(said) not in ("unknown", "?"):
                told = "; ".join(f"{name} = {meaning}" for name, meaning in fact.values.items())
                self.ask(path, f'{key} cannot be "{said}"', f"It can be {told}; or unknown.")
        buoyant = {}
        for said, answer in form.encloses_buoyancy.items():
            zone = self.answers.word(("boat", "encloses_buoyancy", said), said, self.answers.zones, "zone")
            if zone in buoyant or (BUOYANCY, zone) in attempted:
                self.ask(("boat", "encloses_buoyancy", said), f'"{said}" is answered twice', "Keep one of the answers.")
            elif zone is not None and answer == COULD_NOT_TELL:
                attempted.add((BUOYANCY, zone))
            elif zone is not None:
                buoyant[zone] = str(answer)
        facts = {fact: facts[fact] for fact in self.kb.facts if fact in facts}
        return Boat(form.name, facts, self.length(form.length), dict(sorted(buoyant.items())), frozenset(attempted))

    def length(self, said: str) -> float | None:
        if not said:
            return None
        path: Path = ("boat", "length")
        try:
            length = in_unit(said, "m")
        except NotAQuantity as error:
            self.ask(path, f"{error}", 'Write a length with its unit, such as "4.2 m" or "14 ft".')
            return None
        if not SHORTEST <= length <= LONGEST:
            hint = f"This knowledge is about open sailing dinghies of {SHORTEST:g} to {LONGEST:g} m."
            self.ask(path, f"a boat of {length:g} m?", hint)
        return length

    def finding(self, path: Path, form: FindingForm, boat: Boat, longest: float) -> Finding | None:
        mark = self.mark(path, form)
        self.has_come((*path, "on"), form.on)
        if form.on and self.form.visit.on and form.on > self.form.visit.on:
            self.ask((*path, "on"), f"seen on {form.on}, after the visit on {self.form.visit.on}", "Check both dates.")
        given = dict(self.answers.readings((*path, "readings"), mark, form.readings, longest))
        if mark is None:
            return None
        zone, sign = mark
        self.can_be_there(path, form, self.kb.zones[zone], boat)
        readings = {scale: given[scale] for scale in self.kb.scales if scale in given}
        return Finding(form.id, zone, sign, form.side, readings, form.note, tuple(form.photos), form.on)

    def mark(self, path: Path, form: FindingForm) -> tuple[str, str] | None:
        """Its zone and sign; None after asking back."""
        some = " or ".join(f"“{zone.name}”" for zone in list(self.kb.zones.values())[:2])
        hint = f"Name a part of the boat, such as {some}."
        zone = self.answers.word((*path, "zone"), form.zone, self.answers.zones, "zone", hint)
        offered = ", ".join(self.kb.offers[zone]) if zone else ""
        hint = f"There it can be: {offered}." if zone else ""
        sign = self.answers.word((*path, "sign"), form.sign, self.answers.signs, "sign", hint)
        if zone is None or sign is None:
            return None
        if sign not in self.kb.offers[zone]:
            what = f"“{self.kb.signs[sign].name}” is not a sign that is met at “{self.kb.zones[zone].name}”"
            self.ask((*path, "sign"), what, hint)
            return None
        return zone, sign

    def can_be_there(self, path: Path, form: FindingForm, place: Zone, boat: Boat) -> None:
        """Ask about a place that this boat does not have, or a side of a part that is one."""
        if not boat.has(place):
            missing = next(fact for fact, value in place.only_if.items() if boat.facts.get(fact, value) != value)
            what = f"a mark at “{place.name}”, yet {missing} is “{boat.facts[missing]}”: these two cannot both be"
            self.ask((*path, "zone"), what, "Mend the fact about the boat, or look where the mark is.")
        if form.side and not place.sided:
            hint = "Take the line out, and say in the note where on it the mark is."
            self.ask((*path, "side"), f"“{place.name}” is one part, not one on each side", hint)


def with_ids(survey: Survey) -> Survey:
    """The survey with an id for every finding: its own, or one made of place, side and sign."""
    taken = {finding.id for finding in survey.findings}
    findings = []
    for finding in survey.findings:
        name = finding.id
        if not name:
            made = ".".join(part for part in (finding.zone, finding.side, finding.sign) if part)
            numbered = itertools.chain([made], (f"{made}.{number}" for number in itertools.count(2)))
            name = next(name for name in numbered if name not in taken)
            taken.add(name)
        findings.append(replace(finding, id=name))
    return replace(survey, findings=tuple(findings))
