"""Lessons, confusions and the sheet, from forms to frozen data; every name and every pairing is checked."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping

from triage.knowledge.forms.teaching import ConfusionForm, LessonCaseForm, LessonForm, LookalikeForm, SheetForm
from triage.knowledge.model.scale import Scale
from triage.knowledge.model.teaching import (
    Confusion,
    Lesson,
    LessonCase,
    LessonQuestion,
    LessonScore,
    LessonStep,
    Lookalike,
    Sheet,
    SheetFault,
    SheetItem,
    Teaching,
)
from triage.knowledge.readers.references import Loaded, Ontology, basis_of, known, known_scales, level_of, named
from triage.parsing.documents import Document, Path

HERE: Path = ("teaching",)


def read_teaching(files: Loaded, ontology: Ontology) -> Teaching:
    """All that is taught, in file order; problems go to the documents they stand in."""
    confusions = {
        key: _Confused(document, path, ontology).confusion(key, number, form)
        for number, (document, path, key, form) in enumerate(named(files, "confusions"), start=1)
    }
    lessons = {
        key: _Taught(document, path, ontology).lesson(key, number, form, confusions)
        for number, (document, path, key, form) in enumerate(named(files, "lessons"), start=1)
    }
    given = [(document, form.teaching) for document, form in files if form.teaching is not None]
    for document, _ in given[1:]:
        what = f"what holds for every lesson is already in {given[0][0].source}"
        document.problems.append(document.problem(HERE, what, "Keep one of them."))
    if not given:
        return Teaching(lessons, confusions)
    document, form = given[0]
    return Teaching(lessons, confusions, _sheet(document, form.sheet, ontology), tuple(form.cautions))


class _At:
    """What reads a part of a document."""

    def __init__(self, document: Document, path: Path, ontology: Ontology) -> None:
        self.document, self.path, self.ontology = document, path, ontology

    def complain(self, path: Path, what: str, hint: str) -> None:
        self.document.problems.append(self.document.problem(path, what, hint))

    def one_of(self, path: Path, word: str, allowed: Iterable[str], what: str) -> bool:
        return bool(known(self.document, path, [word], allowed, what))

    def mark(self, path: Path, zone: str, sign: str) -> bool:
        """Whether there is such a mark."""
        there = self.one_of((*path, "zone"), zone, self.ontology.zones, "zone")
        exists = self.one_of((*path, "sign"), sign, self.ontology.signs, "sign")
        if there and exists and sign not in self.ontology.offers[zone]:
            hint = f"There it can be: {', '.join(self.ontology.offers[zone])}."
            self.complain((*path, "sign"), f"{sign} cannot be met at {zone}", hint)
            return False
        return there and exists


class _Confused(_At):
    """Reads one confusion."""

    def confusion(self, key: str, number: int, form: ConfusionForm) -> Confusion:
        checks = known(self.document, (*self.path, "checks"), form.checks, self.ontology.checks, "check")
        pair = (self.lookalike("one", form.one, checks), self.lookalike("other", form.other, checks))
        if checks and pair[0].readings and pair[0].readings == pair[1].readings:
            what = "the checks find the same on both, so they separate nothing"
            self.complain((*self.path, "other", "readings"), what, "Say what they find on the other.")
        return Confusion(
            id=key,
            number=number,
            asks=form.asks,
            pair=pair,
            checks=checks,
            test=form.test,
            because=form.because,
            basis=basis_of(self.document, self.path, form, self.ontology),
            at_sight=form.at_sight,
            place=self.document.place(self.path),
        )

    def lookalike(self, which: str, form: LookalikeForm, checks: Iterable[str]) -> Lookalike:
        path = (*self.path, which)
        self.mark(path, form.zone, form.sign)
        scales = known_scales(self.document, (*path, "readings"), form.readings, self.ontology)
        read = {scale for check in checks for scale in self.ontology.checks[check].reads}
        for scale in scales:
            if checks and scale not in read:
                what = f"{scale} is read by none of the checks that separate the two"
                self.complain((*path, "readings", scale), what, f"They read: {', '.join(sorted(read))}.")
        levels = dict(self.levels((*path, "readings"), scales, form.readings))
        return Lookalike(form.name, form.drawing or form.sign, form.zone, form.sign, levels, form.tells)

    def levels(self, path: Path, scales: Iterable[str], said: Mapping[str, int | str]) -> Iterator[tuple[str, int]]:
        for scale in scales:
            known_scale: Scale = self.ontology.scales[scale]
            level = level_of(self.document, (*path, scale), known_scale, said[scale])
            if level is not None:
                yield scale, level


class _Taught(_At):
    """Reads one lesson."""

    def lesson(self, key: str, number: int, form: LessonForm, confusions: Mapping[str, Confusion]) -> Lesson:
        return Lesson(
            id=key,
            number=number,
            title=form.title,
            aim=form.aim,
            bring=tuple(form.bring),
            steps=tuple(self.steps(form)),
            cases=tuple(self.cases(form, confusions)),
            questions=tuple(LessonQuestion(one.ask, one.answer) for one in form.questions),
            looks_for=tuple(form.looks_for),
            cautions=tuple(form.cautions),
            scores=tuple(LessonScore(one.what, one.reached) for one in form.scores),
            basis=basis_of(self.document, self.path, form, self.ontology),
            place=self.document.place(self.path),
        )

    def steps(self, form: LessonForm) -> Iterator[LessonStep]:
        for index, step in enumerate(form.steps):
            if step.check:
                self.one_of((*self.path, "steps", index, "check"), step.check, self.ontology.checks, "check")
            yield LessonStep(step.minutes, step.do, step.check)

    def cases(self, form: LessonForm, confusions: Mapping[str, Confusion]) -> Iterator[LessonCase]:
        for index, case in enumerate(form.cases):
            path = (*self.path, "cases", index)
            if self.whole(path, case):
                if case.confusion:
                    self.one_of((*path, "confusion"), case.confusion, confusions, "confusion")
                else:
                    self.mark(path, case.zone, case.sign)
            yield LessonCase(case.zone, case.sign, case.confusion, case.count)

    def whole(self, path: Path, case: LessonCaseForm) -> bool:
        good = not (case.zone or case.sign) if case.confusion else bool(case.zone and case.sign)
        if not good:
            hint = "Write zone and sign, or confusion alone."
            self.complain(path, "a case is a mark at a place, or a confusion", hint)
        return good


def _sheet(document: Document, form: SheetForm, ontology: Ontology) -> Sheet:
    path: Path = (*HERE, "sheet")
    for key, fault in form.faults.items():
        if (fault.stops == "yes") + bool(fault.points) + (fault.most is not None) != 1:
            what, hint = f'"{key}" must do one thing to the points', "Write points, most, or stops: yes."
            document.problems.append(document.problem((*path, "faults", key), what, hint))
    return Sheet(
        items=tuple(SheetItem(key, one.name, one.points, one.full, one.part) for key, one in form.items.items()),
        faults=tuple(
            SheetFault(key, one.name, one.points, one.stops == "yes", one.because, one.most)
            for key, one in form.faults.items()
        ),
        says=tuple(form.says),
        basis=basis_of(document, path, form, ontology),
    )
