"""The door: from a file, a text or a mapping to a Survey, or to every question it raises at once."""

from __future__ import annotations

import itertools
from collections.abc import Mapping
from dataclasses import replace
from pathlib import Path as FilePath
from typing import Any

from triage.errors import BadSurvey, Place, Problem
from triage.knowledge.model import BUOYANCY, KnowledgeBase
from triage.parsing.documents import MAX_BYTES, Document, Path, document_of, read_document
from triage.parsing.forms import fill, fill_what_fits
from triage.parsing.quantities import NotAQuantity, in_unit
from triage.parsing.text import did_you_mean, same
from triage.survey.doubt import Doubt
from triage.survey.form import BoatForm, FindingForm, SurveyForm
from triage.survey.model import COULD_NOT_TELL, Boat, Finding, Happened, Reading, Survey
from triage.survey.names import Names, cause_names, event_names, scale_names, sign_names, zone_names
from triage.survey.readings import NotUnderstood, reading_of
from triage.survey.validity import MAX_FINDINGS, doubts, problem_of


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
    return _survey(read_document(text, source), kb)


def survey_from(mapping: Mapping[str, Any], kb: KnowledgeBase, *, source: str = "survey") -> Survey:
    """The survey in a mapping of the shape of a survey file, as a form or another program has it.

    Raises BadSurvey with every problem at once.
    """
    return _survey(document_of(mapping, source), kb)


def checked(survey: Survey, kb: KnowledgeBase) -> Survey:
    """A survey that was made in Python: each finding with an id, everything in it possible.

    Raises BadSurvey with every problem at once.
    """
    problems = [problem_of(doubt, survey.source or "the survey") for doubt in doubts(kb, survey)]
    if problems:
        raise BadSurvey(problems)
    return survey if all(finding.id for finding in survey.findings) else with_ids(survey)


def _survey(document: Document, kb: KnowledgeBase) -> Survey:
    if document.broken:  # half a survey would be full of mistakes that nobody made
        raise BadSurvey(document.problems)
    survey = _Reader(kb, document, *_forms(document)).survey()
    if document.problems:
        raise BadSurvey(document.problems)
    return with_ids(survey.in_walk_order(kb))


def _forms(document: Document) -> tuple[SurveyForm, dict[int, FindingForm]]:
    """The form and its findings, those that have the right shape; the others become problems and hide nothing else."""
    value = {} if document.value is None else document.value
    entries = value.get("findings", []) if isinstance(value, dict) else []
    if not isinstance(entries, list) or len(entries) > MAX_FINDINGS:
        entries = []
    rest = {**value, "findings": []} if entries else value
    form = fill(SurveyForm, rest, document) or SurveyForm(boat=BoatForm(name="a boat"))
    findings = {
        index: fill_what_fits(FindingForm, entry, document, ("findings", index)) for index, entry in enumerate(entries)
    }
    return form, {index: finding for index, finding in findings.items() if finding is not None}


class _Reader:
    """Turns what has the right shape of one survey into the words and levels of the knowledge."""

    def __init__(
        self, kb: KnowledgeBase, document: Document, form: SurveyForm, findings: dict[int, FindingForm]
    ) -> None:
        self.kb, self.document, self.form, self.findings = kb, document, form, findings
        self.zones, self.signs, self.scales = zone_names(kb), sign_names(kb), scale_names(kb)
        self.rows: list[int] = []
        self.spelt: dict[Path, Path] = {}

    def ask(self, path: Path, what: str, hint: str = "") -> None:
        self.document.problems.append(self.document.problem(path, what, hint))

    def survey(self) -> Survey:
        """The survey, as far as it was understood; what it says that cannot be is asked about as well."""
        boat, history, visit = self.boat(), self.history(), self.form.visit
        findings = []
        for index, form in self.findings.items():
            self.rows.append(index)
            findings.append(self.finding(("findings", index), form))
        left = self.form.conversation
        talk = left.model_dump(mode="json", exclude_unset=True) if left else {}
        survey = Survey(boat, tuple(findings), visit.on, visit.by, visit.note, self.document.source, history, talk)
        survey = replace(survey, events=self.events(), asked=visit.asked)
        for doubt in doubts(self.kb, survey):
            self.ask(self.as_spelt(doubt.path), self.what(doubt), doubt.hint)
        return survey

    def what(self, doubt: Doubt) -> str:
        """What cannot be, with the line of what it contradicts."""
        if not doubt.beside:
            return doubt.what
        place = self.document.place(self.as_spelt(doubt.beside))
        return f"{doubt.what} in line {place.line}" if place.line else f"{doubt.what} at {place}"

    def as_spelt(self, path: Path) -> Path:
        """Where it stands in the document, whose findings and names may be others."""
        if len(path) > 1 and path[0] == "findings" and isinstance(path[1], int):
            path = (path[0], self.rows[path[1]], *path[2:])
        return self.spelt.get(path, path)

    def word(self, path: Path, text: str, names: Names) -> str | None:
        """The id of what is called so; None after asking back."""
        found = names.find(text)
        if found is None:
            self.ask(path, *names.unknown(text))
        return found

    def history(self) -> dict[str, str]:
        names = cause_names(self.kb)
        found = {}
        for said, answer in self.form.history.items():
            cause = self.word(("history", said), said, names)
            if cause is not None and cause in found:
                self.ask(("history", said), f'"{said}" is answered twice', "Keep one of the answers.")
            elif cause is not None:
                found[cause] = str(answer)
        return {cause: found[cause] for cause in self.kb.causation.causes if cause in found}

    def events(self) -> tuple[Happened, ...]:
        """What happened; an event that nothing is called stays as it was said, to be asked about."""
        names = event_names(self.kb)
        return tuple(
            Happened(names.find(one.event) or one.event, one.force or "", one.when or "", one.on, one.side, one.said)
            for one in self.form.happened
        )

    def boat(self) -> Boat:
        form = self.form.boat
        facts, attempted = self.facts()
        buoyant = {}
        for said, answer in form.encloses_buoyancy.items():
            path: Path = ("boat", "encloses_buoyancy", said)
            zone = self.word(path, said, self.zones)
            self.spelt["boat", "encloses_buoyancy", str(zone)] = path
            if zone in buoyant or (BUOYANCY, zone) in attempted:
                self.ask(path, f'"{said}" is answered twice', "Keep one of the answers.")
            elif zone is not None and answer == COULD_NOT_TELL:
                attempted.add((BUOYANCY, zone))
            elif zone is not None:
                buoyant[zone] = str(answer)
        facts = {fact: facts[fact] for fact in self.kb.facts if fact in facts}
        return Boat(form.name, facts, self.length(form.length), dict(sorted(buoyant.items())), frozenset(attempted))

    def facts(self) -> tuple[dict[str, str], set[tuple[str, str]]]:
        facts = {}
        attempted = set()
        for key, said in self.form.boat.facts.items():
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
        return facts, attempted

    def length(self, said: str) -> float | None:
        if not said:
            return None
        try:
            return in_unit(said, "m")
        except NotAQuantity as error:
            hint = 'Write a length with its unit, such as "4.2 m" or "14 ft".'
            self.ask(("boat", "length"), f"{error}", hint)
            return None

    def finding(self, path: Path, form: FindingForm) -> Finding:
        """The finding; a place or a sign that nothing is called stays as it was said, to be asked about.

        What is not asked at the place any more judges nothing and stays in the note: rules change, and boats are kept.
        """
        zone, sign = self.zones.find(form.zone) or form.zone, self.signs.find(form.sign) or form.sign
        given = self.readings(path, form)
        idle = self.kb.zones[zone].not_asked if zone in self.kb.zones else frozenset()
        readings = {scale: given[scale] for scale in self.kb.scales if scale in given and scale not in idle}
        once_asked = [f"{self.kb.scales[one].name}: {given[one].said}." for one in given if one in idle]
        note = " ".join([*([form.note] if form.note else []), *once_asked])
        return Finding(form.id, zone, sign, form.side, readings, note, tuple(form.photos), form.on)

    def readings(self, path: Path, form: FindingForm) -> dict[str, Reading]:
        seen: dict[str, str] = {}
        found: dict[str, Reading] = {}
        for key, answer in form.readings.items():
            here = (*path, "readings", key)
            name = self.word(here, key, self.scales)
            if name is None:
                continue
            if name in seen:
                self.ask(here, f'"{key}" and "{seen[name]}" are the same reading', "Keep one of them.")
            seen[name] = key
            self.spelt[*path, "readings", name] = here
            try:
                found[name] = reading_of(self.kb.scales[name], answer)
            except NotUnderstood as error:
                self.ask(here, error.what, error.hint)
        return found


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
