"""Rules, presumptions and their inline cases: from forms to frozen data."""

from __future__ import annotations

import itertools
from collections.abc import Mapping
from math import prod
from typing import Any as Anything
from typing import get_args

from triage.errors import Place
from triage.knowledge import model
from triage.knowledge.forms.rules import RuleForm
from triage.knowledge.model.conditions import All, Condition, Is
from triage.knowledge.model.promise import Said
from triage.knowledge.readers.conditions import ConditionReader
from triage.knowledge.readers.references import Ontology, basis_of, known, known_scales, level_of
from triage.parsing.documents import Document, Path
from triage.parsing.text import did_you_mean

MAX_CASES = 200
"""What the lists in one ``given`` may multiply out to."""

LoadedRules = list[tuple[Document, Path, RuleForm]]


def read_rules(forms: LoadedRules, ontology: Ontology) -> tuple[tuple[model.Rule, ...], tuple[model.Presumption, ...]]:
    """All rules and presumptions in file order; problems go to the documents they stand in."""
    rules, presumptions = [], []
    seen: dict[str, Place] = {}
    for order, (document, path, form) in enumerate(forms):
        here = (*path, "id")
        if form.id in seen:
            what = f'the id "{form.id}" is already used at {seen[form.id]}'
            document.problems.append(document.problem(here, what, "An id is never used twice."))
        seen[form.id] = document.place(here)
        reader = _RuleReader(document, path, form, ontology, order)
        if form.presumes:
            presumptions.append(reader.presumption())
        else:
            rules.append(reader.rule())
    return tuple(rules), tuple(presumptions)


class _RuleReader(ConditionReader):
    """Reads one rule."""

    def __init__(self, document: Document, path: Path, form: RuleForm, ontology: Ontology, order: int) -> None:
        super().__init__(document, ontology, "presumption" if form.presumes else "rule")
        self.path, self.form, self.order = path, form, order

    def rule(self) -> model.Rule:
        form = self.form
        if not (form.raises or form.suspects or form.advises):
            self.complain(self.path, f'"{form.id}" does nothing', "Give it raises, suspects, advises or presumes.")
        return model.Rule(
            id=form.id,
            order=self.order,
            when=self.when(),
            because=form.because,
            basis=basis_of(self.document, self.path, form, self.ontology),
            place=self.document.place(self.path),
            raises=self.effects("raises", form.raises, observed=False, least=1),
            suspects=self.suspects(),
            advises=self.advises(),
            cases=self.cases(),
        )

    def presumption(self) -> model.Presumption:
        form = self.form
        for key in ("raises", "suspects", "advises"):
            if getattr(form, key):
                hint = "Make two rules of it, each with an id of its own."
                self.complain((*self.path, key), f"a presumption cannot have {key} as well", hint)
        return model.Presumption(
            id=form.id,
            order=self.order,
            when=self.when(),
            because=form.because,
            basis=basis_of(self.document, self.path, form, self.ontology),
            place=self.document.place(self.path),
            presumes=self.effects("presumes", form.presumes, observed=True, least=0),
            cases=self.cases(),
        )

    def effects(
        self, key: str, given: Mapping[str, int | str], *, observed: bool, least: int
    ) -> tuple[tuple[str, int], ...]:
        """``raises`` or ``presumes`` as (scale, level) pairs."""
        found = []
        for scale in known_scales(self.document, (*self.path, key), given, self.ontology, observed=observed):
            level = level_of(self.document, (*self.path, key, scale), self.ontology.scales[scale], given[scale])
            top = self.ontology.scales[scale].top
            if level is not None and not least <= level <= top - (1 - least):
                what = f"{scale} starts at 0, so raising it to 0" if least else f"to presume the worst of {scale}"
                hint = "Name a worse level, or take it out." if least else "Name a better level, or take it out."
                self.complain((*self.path, key, scale), f"{what} does nothing", hint)
            elif level is not None:
                found.append((scale, level))
        return tuple(found)

    def suspects(self) -> tuple[model.Suspect, ...]:
        found = []
        for index, suspect in enumerate(self.form.suspects):
            path = (*self.path, "suspects", index)
            zones = known(self.document, (*path, "zone"), [suspect.zone], self.ontology.zones, "zone")
            signs = known(self.document, (*path, "sign"), [suspect.sign], self.ontology.signs, "sign")
            if zones and signs and suspect.sign not in self.ontology.offers[suspect.zone]:
                hint = f"There it can be: {', '.join(self.ontology.offers[suspect.zone])}."
                self.complain(path, f"{suspect.sign} cannot be met at {suspect.zone}", hint)
            elif zones and signs:
                found.append(model.Suspect(suspect.zone, suspect.sign))
        return tuple(found)

    def advises(self) -> tuple[model.Advice, ...]:
        found: list[model.Advice] = []
        for index, advice in enumerate(self.form.advises):
            said = [(kind, text) for kind, text in advice if kind in get_args(Said) and text]
            if len(said) != 1:
                what = "several sentences in one entry of advises" if said else "an entry of advises without a sentence"
                hint = "Write each as {caution: …}, {do: …}, {never: …} or {recheck: …}."
                self.complain((*self.path, "advises", index), what, hint)
            if advice.weeks and not advice.recheck:
                self.complain((*self.path, "advises", index), "weeks without a recheck", "Leave out weeks.")
            found.extend(model.Advice(kind, text, advice.weeks) for kind, text in said)
        return tuple(found)

    def when(self) -> Condition:
        if isinstance(self.form.when, str):
            return All(())
        if not self.form.when:
            self.complain((*self.path, "when"), '"when" is empty', "Write when: always, or say when.")
        return self.condition((*self.path, "when"), self.form.when)

    def cases(self) -> tuple[model.Case, ...]:
        found: list[model.Case] = []
        for index, case in enumerate(self.form.cases):
            path = (*self.path, "cases", index)
            found.extend(self.case((*path, "given"), case.given, fires=case.expect == "fires"))
        for fires, name in ((True, "fires"), (False, "silent")):
            if not any(case.expect == name for case in self.form.cases) and (fires or self.form.when != "always"):
                what = "no case shows it firing" if fires else "no case shows it staying silent"
                self.complain((*self.path, "cases"), what, f"Add one with expect: {name}.")
        return tuple(found)

    def other(self, path: Path, given: Anything) -> list[model.Case]:
        """The other findings of a case."""
        if isinstance(given, dict):
            return self.case(path, given, fires=True)
        self.complain(path, "elsewhere lists other findings", "Write elsewhere: [{zone: …, sign: …}].")
        return []

    def case(self, path: Path, given: Mapping[str, Anything], *, fires: bool) -> list[model.Case]:
        """One case for each combination of the listed words."""
        choices: list[list[tuple[str, str | int]]] = []
        contexts: list[tuple[model.Case, ...]] = [()]
        for key, value in given.items():
            here = (*path, key)
            listed = value if isinstance(value, list) else [value]
            if key == "elsewhere":
                others = [self.other((*here, index), other) for index, other in enumerate(listed)]
                contexts = list(itertools.islice(itertools.product(*others), MAX_CASES + 1))
            elif key in self.values:
                condition = self.word(here, key, value)
                assert isinstance(condition, Is)
                choices.append([(key, word) for word in condition.values])
            elif key in self.ontology.scales:
                scale = self.ontology.scales[key]
                levels = [level_of(self.document, here, scale, said) for said in listed]
                choices.append([(key, level) for level in levels if level is not None])
            else:
                hint = did_you_mean(key, [*self.values, *self.ontology.scales, "elsewhere"])
                self.complain(here, f'unknown word "{key}"', hint or "Mend the word, or take it out.")
        if prod((len(contexts), *(len(choice) for choice in choices))) > MAX_CASES:
            self.complain(path, f"these lists make more than {MAX_CASES} cases", "Give fewer words at a time.")
            return []
        place = self.document.place(path)
        return [
            model.Case(
                words={key: value for key, value in chosen if isinstance(value, str)},
                levels={key: value for key, value in chosen if isinstance(value, int)},
                elsewhere=context,
                fires=fires,
                place=place,
            )
            for chosen in itertools.product(*choices)
            for context in contexts
        ]
