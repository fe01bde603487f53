"""Promises, from forms to frozen data."""

from __future__ import annotations

from collections.abc import Iterable

from triage.knowledge.forms.atoms import Levels
from triage.knowledge.forms.rules import PromiseForm
from triage.knowledge.model import Presumption, Rule
from triage.knowledge.model.conditions import All, Condition
from triage.knowledge.model.promise import Promise
from triage.knowledge.readers.conditions import ConditionReader
from triage.knowledge.readers.references import Ontology, known_scales, level_of
from triage.parsing.documents import Document, Path

LoadedPromises = list[tuple[Document, Path, PromiseForm]]


def read_promises(
    forms: LoadedPromises, ontology: Ontology, rules: Iterable[Rule | Presumption]
) -> tuple[Promise, ...]:
    """All promises in file order; problems go to the documents they stand in. No rule may have the id of one."""
    seen = {rule.id: rule.place for rule in rules}
    promises = []
    for order, (document, path, form) in enumerate(forms):
        if form.id in seen:
            what = f'the id "{form.id}" is already used at {seen[form.id]}'
            document.problems.append(document.problem((*path, "id"), what, "An id is never used twice."))
        seen[form.id] = document.place((*path, "id"))
        promises.append(_PromiseReader(document, path, form, ontology).promise(order))
    return tuple(promises)


class _PromiseReader(ConditionReader):
    """Reads one promise."""

    def __init__(self, document: Document, path: Path, form: PromiseForm, ontology: Ontology) -> None:
        super().__init__(document, ontology, "rule")
        self.path, self.form = path, form

    def promise(self, order: int) -> Promise:
        form = self.form
        if not (form.at_least or form.worst_at_least or form.at_most or form.advises):
            hint = "Give it at_least, worst_at_least, at_most or advises."
            self.complain(self.path, f'"{form.id}" promises nothing', hint)
        return Promise(
            id=form.id,
            order=order,
            when=self.when(),
            says=form.says,
            because=form.because,
            place=self.document.place(self.path),
            not_answered=() if isinstance(form.not_answered, str) else self.unanswered(form.not_answered),
            named_checks_missing=form.not_answered == "named checks",
            passing_checks_missing=form.not_answered == "passing checks",
            answered_well=form.answered == "well",
            of_suspicions=form.speaks_of == "suspicions",
            at_least=self.levels("at_least", form.at_least),
            worst_at_least=self.levels("worst_at_least", form.worst_at_least),
            at_most=self.levels("at_most", form.at_most),
            advises=tuple(form.advises),
        )

    def when(self) -> Condition:
        if isinstance(self.form.when, str):
            return All(())
        if not self.form.when:
            self.complain((*self.path, "when"), '"when" is empty', "Write when: always, or say when.")
        return self.condition((*self.path, "when"), self.form.when)

    def unanswered(self, scales: list[str]) -> tuple[str, ...]:
        return known_scales(self.document, (*self.path, "not_answered"), scales, self.ontology)

    def levels(self, key: str, given: Levels) -> tuple[tuple[str, int], ...]:
        found = []
        for scale in known_scales(self.document, (*self.path, key), given, self.ontology, observed=False):
            level = level_of(self.document, (*self.path, key, scale), self.ontology.scales[scale], given[scale])
            if level == 0 and key != "at_most":
                self.complain((*self.path, key, scale), f"{scale} is always at level 0 or worse", "Take the line out.")
            elif key == "at_most" and level == self.ontology.scales[scale].top:
                self.complain((*self.path, key, scale), f"{scale} is never worse than that", "Take the line out.")
            elif level is not None:
                found.append((scale, level))
        return tuple(found)
