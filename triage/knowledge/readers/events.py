"""Events and the rules about them, from forms to frozen data; every name and every pairing is checked."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence

from triage.errors import Place
from triage.knowledge.forms.events import EventForm, EventRuleForm
from triage.knowledge.model.cause import Causation
from triage.knowledge.model.event import Event, EventCase, EventRule, Happenings, Look
from triage.knowledge.model.rule import Suspect
from triage.knowledge.readers.references import Loaded, Ontology, basis_of, known, named
from triage.parsing.documents import Document, Path


def read_happenings(files: Loaded, ontology: Ontology, causation: Causation) -> Happenings:
    """All events and their rules, in file order; problems go to the documents they stand in."""
    words = {name: said for _, form in files if form.telling for name, said in form.telling.words.items()}
    events = {
        key: _event(document, path, key, form, ontology, causation, words)
        for document, path, key, form in named(files, "events")
    }
    _each_heard_once(events, files)
    rules = tuple(_EventRuleReader(*entry, ontology, events).rule() for entry in _once(files))
    stood = {scale: level for one in _stood_before(files, ontology) for scale, level in one.items()}
    telling = [form.telling for _, form in files if form.telling is not None]
    return Happenings(
        events,
        rules,
        ago={key: tuple(said) for one in telling for key, said in one.ago.items()},
        force={key: tuple(said) for one in telling for key, said in one.force.items()},
        denied=frozenset(word for one in telling for word in one.denied),
        in_doubt=tuple(said for one in telling for said in one.in_doubt),
        held_true=frozenset(word for one in telling for word in one.held_true),
        asked=frozenset(word for one in telling for word in one.asked),
        stood_before=stood,
    )


def _stood_before(files: Loaded, ontology: Ontology) -> Iterator[dict[str, int]]:
    for document, form in files:
        if form.telling is not None:
            scales = known(document, ("telling", "stood_before"), form.telling.stood_before, ontology.scales, "scale")
            yield {scale: form.telling.stood_before[scale] for scale in scales}


def _event(
    document: Document,
    path: Path,
    key: str,
    form: EventForm,
    ontology: Ontology,
    causation: Causation,
    words: Mapping[str, Sequence[str]],
) -> Event:
    here = (*path, "speaks_for")
    told = causation.weights.told if causation.weights else {}
    causes = known(document, here, form.speaks_for, causation.causes, "cause")
    for cause in causes:
        known(document, (*here, cause), [form.speaks_for[cause]], told, "strength of what is told")
    return Event(
        id=key,
        name=form.name,
        kind=form.kind,
        said=tuple(form.said),
        basis=basis_of(document, path, form, ontology),
        speaks_for={cause: form.speaks_for[cause] for cause in causes},
        note=form.note,
        hides=frozenset(known(document, (*path, "hides"), form.hides, ontology.signs, "sign")),
        place=document.place(path),
        told=tuple(
            tuple(tuple(_step(document, (*path, "told", number), step, words)) for step in row.split())
            for number, row in enumerate(form.told)
        ),
    )


def _step(document: Document, path: Path, step: str, words: Mapping[str, Sequence[str]]) -> Iterator[str]:
    """The phrases of one step: itself, or those of a group in angle brackets, and of each between strokes."""
    for one in step.split("/"):
        if one.startswith("<") and one.endswith(">"):
            for group in known(document, path, [one[1:-1]], words, "group of words"):
                yield from words[group]
        else:
            yield one


def _each_heard_once(events: Mapping[str, Event], files: Loaded) -> None:
    """No phrase may mean two events."""
    heard: dict[str, str] = {}
    documents = {document.source: document for document, _ in files}
    for event in events.values():
        for number, phrase in enumerate(event.said):
            if heard.setdefault(phrase.casefold(), event.id) != event.id:
                document = documents[event.place.source]
                what = f'"{phrase}" already means {heard[phrase.casefold()]}'
                path: Path = ("events", event.id, "said", number)
                document.problems.append(document.problem(path, what, "Let it mean one of them."))


def _once(files: Loaded) -> Iterator[tuple[Document, Path, EventRuleForm]]:
    """Every rule about events; an id that is used twice is a problem."""
    seen: dict[str, Place] = {}
    for document, form in files:
        for index, rule in enumerate(form.event_rules):
            path: Path = ("event_rules", index)
            if rule.id in seen:
                what = f'the id "{rule.id}" is already used at {seen[rule.id]}'
                document.problems.append(document.problem((*path, "id"), what, "An id is never used twice."))
            seen.setdefault(rule.id, document.place((*path, "id")))
            yield document, path, rule


class _EventRuleReader:
    """Reads one rule about events."""

    def __init__(
        self, document: Document, path: Path, form: EventRuleForm, ontology: Ontology, events: Mapping[str, Event]
    ) -> None:
        self.document, self.path, self.form, self.ontology, self.events = document, path, form, ontology, events

    def complain(self, path: Path, what: str, hint: str) -> None:
        self.document.problems.append(self.document.problem(path, what, hint))

    def one_of(self, path: Path, word: str, allowed: Iterable[str], what: str) -> bool:
        return bool(known(self.document, path, [word], allowed, what))

    def rule(self) -> EventRule:
        form, here = self.form, self.path
        if not (form.suspects or form.looks):
            self.complain(here, f'"{form.id}" does nothing', "Give it suspects or looks.")
        happened = [form.when.happened] if isinstance(form.when.happened, str) else form.when.happened
        return EventRule(
            id=form.id,
            happened=known(self.document, (*here, "when", "happened"), happened, self.events, "event"),
            force=frozenset(form.when.force),
            ago=frozenset(form.when.ago),
            because=form.because,
            basis=basis_of(self.document, here, form, self.ontology),
            place=self.document.place(here),
            only_if=self.facts((*here, "only_if"), form.only_if),
            suspects=tuple(self.suspects()),
            looks=tuple(self.looks()),
            cases=tuple(self.cases()),
        )

    def suspects(self) -> Iterator[Suspect]:
        for index, form in enumerate(self.form.suspects):
            path = (*self.path, "suspects", index)
            zone = self.one_of((*path, "zone"), form.zone, self.ontology.zones, "zone")
            sign = self.one_of((*path, "sign"), form.sign, self.ontology.signs, "sign")
            if zone and sign and form.sign not in self.ontology.offers[form.zone]:
                hint = f"There it can be: {', '.join(self.ontology.offers[form.zone])}."
                self.complain(path, f"{form.sign} cannot be met at {form.zone}", hint)
            yield Suspect(form.zone, form.sign)

    def looks(self) -> Iterator[Look]:
        for index, form in enumerate(self.form.looks):
            path = (*self.path, "looks", index)
            zone = self.one_of((*path, "zone"), form.zone, self.ontology.zones, "zone")
            check = self.one_of((*path, "check"), form.check, self.ontology.checks, "check")
            there = self.ontology.checks_at(form.zone) if zone else ()
            if zone and check and form.check not in there:
                what = f'the check "{form.check}" reads nothing that is judged at "{form.zone}"'
                self.complain((*path, "check"), what, f"There it can be: {', '.join(there)}.")
            yield Look(form.zone, form.check)

    def cases(self) -> Iterator[EventCase]:
        for index, form in enumerate(self.form.cases):
            path, given = (*self.path, "cases", index), form.given
            self.one_of((*path, "given", "happened"), given.happened, self.events, "event")
            facts = self.facts((*path, "given", "facts"), given.facts)
            fires = form.expect == "fires"
            yield EventCase(given.happened, given.force, given.ago, facts, fires, self.document.place(path))
        for wanted, name in (("fires", "firing"), ("silent", "staying silent")):
            if not any(case.expect == wanted for case in self.form.cases):
                self.complain((*self.path, "cases"), f"no case shows it {name}", f"Add one with expect: {wanted}.")

    def facts(self, path: Path, given: Mapping[str, str]) -> dict[str, str]:
        return {
            fact: given[fact]
            for fact in known(self.document, path, given, self.ontology.facts, "boat fact")
            if self.one_of((*path, fact), given[fact], self.ontology.facts[fact].values, fact)
        }
