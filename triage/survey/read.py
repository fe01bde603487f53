"""From a survey file to a Survey, or to every question it raises at once."""

from __future__ import annotations

import datetime
from collections import Counter
from dataclasses import replace
from pathlib import Path as FilePath

from triage.documents import Document, Path, read_document
from triage.errors import BadSurvey, Place, Problem, did_you_mean
from triage.forms import fill
from triage.knowledge.model import KnowledgeBase
from triage.quantities import NotAQuantity, in_unit
from triage.survey.answers import LONGEST_BOAT, Answers, same
from triage.survey.form import FindingForm, SurveyForm
from triage.survey.model import Boat, Finding, Survey

SHORTEST, LONGEST = 2.0, 8.0
"""Metres. Outside these a boat is not the kind of small open dinghy that the knowledge is about."""


def read_survey(file: FilePath | str, kb: KnowledgeBase) -> Survey:
    """The survey in a YAML or JSON file. Raises BadSurvey with every problem, or when the file cannot be opened."""
    try:
        raw = FilePath(file).read_bytes()
    except OSError as error:
        hint = "Check the name and the folder."
        raise BadSurvey([Problem(Place(str(file)), f"cannot be opened: {error.strerror}", hint)]) from None
    return survey_from_text(raw, kb, source=str(file))


def survey_from_text(text: str | bytes, kb: KnowledgeBase, *, source: str = "survey") -> Survey:
    """The survey in a text. Raises BadSurvey with every problem at once."""
    document = read_document(text, source)
    form = fill(SurveyForm, {} if document.value is None else document.value, document)
    survey = _Reader(kb, document, form).survey() if form else None
    if document.problems or survey is None:
        raise BadSurvey(document.problems)
    return survey


class _Reader:
    """Reads one survey whose shape is right."""

    def __init__(self, kb: KnowledgeBase, document: Document, form: SurveyForm) -> None:
        self.kb, self.document, self.form = kb, document, form
        self.answers = Answers(kb, document)

    def ask(self, path: Path, what: str, hint: str = "") -> None:
        self.document.problems.append(self.document.problem(path, what, hint))

    def survey(self) -> Survey:
        boat = self.boat()
        longest = LONGEST_BOAT if boat.length is None else boat.length * 1000
        today = datetime.date.today() + datetime.timedelta(days=1)  # it is already tomorrow somewhere
        if self.form.visit.on and self.form.visit.on > today:
            self.ask(("visit", "on"), f"{self.form.visit.on} has not come yet", "Check the date.")
        findings = [
            finding
            for index, form in enumerate(self.form.findings)
            if (finding := self.finding(("findings", index), form, longest)) is not None
        ]
        visit = self.form.visit
        survey = Survey(boat, tuple(findings), visit.on, visit.by, visit.note, self.document.source)
        return _named(survey.in_walk_order(self.kb))

    def boat(self) -> Boat:
        form = self.form.boat
        facts = {}
        for key, said in form.facts.items():
            path: Path = ("boat", "facts", key)
            fact = self.kb.facts.get(key)
            if fact is None:
                self.ask(path, f'no boat fact is called "{key}"', did_you_mean(key, self.kb.facts))
                continue
            value = {same(name): name for name in fact.values}.get(same(said))
            if value is not None:
                facts[key] = value
            elif same(said) not in ("unknown", "could not tell", "?"):
                told = "; ".join(f"{name} = {meaning}" for name, meaning in fact.values.items())
                self.ask(path, f'{key} cannot be "{said}"', f"It can be {told}; or unknown.")
        buoyant = {}
        for said, answer in form.encloses_buoyancy.items():
            zone = self.answers.word(("boat", "encloses_buoyancy", said), said, self.answers.zones, "zone")
            if zone is not None:
                buoyant[zone] = str(answer)
        return Boat(form.name, facts, self.length(form.length), buoyant)

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

    def finding(self, path: Path, form: FindingForm, longest: float) -> Finding | None:
        zone = self.answers.word((*path, "zone"), form.zone, self.answers.zones, "zone")
        sign = self.answers.word((*path, "sign"), form.sign, self.answers.signs, "sign")
        if zone is None or sign is None:
            return None
        place = self.kb.zones[zone]
        if sign not in self.kb.offers[zone]:
            offered = ", ".join(self.kb.offers[zone])
            what = f"{self.kb.signs[sign].name} is not a sign that is met at “{place.name}”"
            self.ask((*path, "sign"), what, f"There it can be: {offered}.")
            return None
        if form.side and not place.sided:
            hint = "Take the line out, and say in the note where on it the mark is."
            self.ask((*path, "side"), f"“{place.name}” is one part, not one on each side", hint)
        if form.on and self.form.visit.on and form.on > self.form.visit.on:
            self.ask((*path, "on"), f"seen on {form.on}, after the visit on {self.form.visit.on}", "Check both dates.")
        readings = dict(self.answers.readings((*path, "readings"), zone, sign, form.readings, longest))
        return Finding(form.id, zone, sign, form.side, readings, form.note, tuple(form.photos), form.on)


def _named(survey: Survey) -> Survey:
    """The survey with an id for every finding: its own, or one made of place, side and sign."""
    taken: Counter[str] = Counter()
    findings = []
    for finding in survey.findings:
        name = finding.id or ".".join(part for part in (finding.zone, finding.side, finding.sign) if part)
        taken[name] += 1
        findings.append(replace(finding, id=name if taken[name] == 1 else f"{name}.{taken[name]}"))
    return replace(survey, findings=tuple(findings))
