"""Rules, presumptions and their inline cases: from forms to frozen data."""

from __future__ import annotations

import itertools
from collections.abc import Iterable, Mapping
from typing import Any as Anything
from typing import Literal

from triage.documents import Document, Path
from triage.errors import did_you_mean
from triage.knowledge import model
from triage.knowledge.conditions import All, Any, AtLeast, AtMost, Condition, Elsewhere, Is, Where
from triage.knowledge.schema import RuleForm
from triage.knowledge.vocabulary import Vocabulary, basis_of, known, level_of

Mode = Literal["rule", "presumption"]
_JOINERS = ("all", "any", "elsewhere")


LoadedRules = list[tuple[Document, Path, RuleForm]]


def read_rules(forms: LoadedRules, words: Vocabulary) -> tuple[tuple[model.Rule, ...], tuple[model.Presumption, ...]]:
    """All rules and presumptions in file order; problems go to the documents they stand in."""
    rules, presumptions = [], []
    seen: dict[str, Document] = {}
    for order, (document, path, form) in enumerate(forms):
        if form.id in seen:
            what = f'the id "{form.id}" is already used in {seen[form.id].source}'
            document.problems.append(document.problem((*path, "id"), what, "An id is never used twice."))
        seen[form.id] = document
        reader = _RuleReader(document, path, form, words, order)
        if form.presumes:
            presumptions.append(reader.presumption())
        else:
            rules.append(reader.rule())
    return tuple(rules), tuple(presumptions)


def word_values(words: Vocabulary) -> dict[str, list[str]]:
    """Every word that may be tested in a condition, with the values it can have."""
    return {
        "zone": list(words.zones),
        "sign": list(words.signs),
        "criticality": ["primary", "secondary", "none"],
        "load": sorted({zone.load for zone in words.zones.values()}),
        "group": list(words.groups),
        "below_water": ["no", "part", "yes"],
        "encloses_buoyancy": ["no", "yes"],
        "side": list(model.SIDES),
        **{fact.id: list(fact.values) for fact in words.facts.values()},
    }


class _RuleReader:
    """Reads one rule."""

    def __init__(self, document: Document, path: Path, form: RuleForm, words: Vocabulary, order: int) -> None:
        self.document, self.path, self.form, self.words, self.order = document, path, form, words, order
        self.values = word_values(words)
        self.mode: Mode = "presumption" if form.presumes else "rule"

    def rule(self) -> model.Rule:
        form = self.form
        if not (form.raises or form.suspects or form.advises):
            self.complain(self.path, f'"{form.id}" does nothing', "Give it raises, suspects, advises or presumes.")
        return model.Rule(
            id=form.id,
            order=self.order,
            when=self.when(),
            because=form.because,
            basis=basis_of(self.document, self.path, form, self.words),
            place=self.document.place(self.path),
            raises=self.effects("raises", form.raises, observed=False, least=1),
            suspects=self.suspects(),
            advises=self.advises(),
            cases=self.cases(),
        )

    def presumption(self) -> model.Presumption:
        form = self.form
        if form.raises or form.suspects or form.advises:
            self.complain((*self.path, "presumes"), "a presumption does nothing else", "Make two rules of it.")
        return model.Presumption(
            id=form.id,
            order=self.order,
            when=self.when(),
            because=form.because,
            basis=basis_of(self.document, self.path, form, self.words),
            place=self.document.place(self.path),
            presumes=self.effects("presumes", form.presumes, observed=True, least=0),
            cases=self.cases(),
        )

    def complain(self, path: Path, what: str, hint: str = "") -> None:
        self.document.problems.append(self.document.problem(path, what, hint))

    def effects(
        self, key: str, given: Mapping[str, int | str], *, observed: bool, least: int
    ) -> tuple[tuple[str, int], ...]:
        """``raises`` or ``presumes`` as (scale, level) pairs."""
        right = [scale.id for scale in self.words.scales.values() if scale.observed == observed]
        kind = "observed scale" if observed else "derived scale"
        found = []
        for scale in known(self.document, (*self.path, key), given, right, kind):
            level = level_of(self.document, (*self.path, key, scale), self.words.scales[scale], given[scale])
            top = self.words.scales[scale].top
            if level is not None and not least <= level <= top - (1 - least):
                end = "every scale starts at 0" if least else "its worst level presumes nothing"
                self.complain((*self.path, key, scale), f"{key} {scale} to {level} does nothing: {end}", "Take it out.")
            elif level is not None:
                found.append((scale, level))
        return tuple(found)

    def suspects(self) -> tuple[model.Suspect, ...]:
        found = []
        for index, suspect in enumerate(self.form.suspects):
            path = (*self.path, "suspects", index)
            zones = known(self.document, (*path, "zone"), [suspect.zone], self.words.zones, "zone")
            signs = known(self.document, (*path, "sign"), [suspect.sign], self.words.signs, "sign")
            if zones and signs and suspect.sign not in self.words.offers[suspect.zone]:
                self.complain(path, f"{suspect.sign} cannot be met at {suspect.zone}", "See offers.")
            elif zones and signs:
                found.append(model.Suspect(suspect.zone, suspect.sign))
        return tuple(found)

    def advises(self) -> tuple[model.Advice, ...]:
        found: list[model.Advice] = []
        for index, advice in enumerate(self.form.advises):
            said = [(kind, text) for kind, text in advice if text]
            if len(said) != 1:
                hint = "Write one of caution, do, never, recheck."
                self.complain((*self.path, "advises", index), "one sentence to a line", hint)
            found.extend(model.Advice(kind, text) for kind, text in said)
        return tuple(found)

    def when(self) -> Condition:
        if isinstance(self.form.when, str):
            return All(())
        if not self.form.when:
            self.complain((*self.path, "when"), '"when" is empty', "Write when: always, or say when.")
        return self.condition((*self.path, "when"), self.form.when)

    def condition(self, path: Path, given: Mapping[str, Anything], *, inside: bool = False) -> Condition:
        found: list[Condition] = []
        for key, value in given.items():
            here = (*path, key)
            if key in ("all", "any"):
                found.append(self.joined(here, key, value, inside=inside))
            elif key == "elsewhere":
                if inside or self.mode == "presumption":
                    self.complain(here, "elsewhere cannot stand here", "It looks at other findings, once, from a rule.")
                elif isinstance(value, dict):
                    found.append(self.elsewhere(here, value))
                else:
                    self.complain(here, "elsewhere holds a condition", "Write elsewhere: {zone: …, sign: …}.")
            elif key in self.values:
                found.append(self.word(here, key, value))
            elif key in self.words.scales:
                found.extend(self.level(here, key, value))
            else:
                hint = did_you_mean(key, [*self.values, *self.words.scales, *_JOINERS])
                self.complain(here, f'unknown word "{key}"', hint)
        return found[0] if len(found) == 1 else All(tuple(found))

    def joined(self, path: Path, key: str, value: Anything, *, inside: bool) -> Condition:
        if not isinstance(value, list) or not value or not all(isinstance(part, dict) for part in value):
            self.complain(path, f"{key} holds a list of conditions", f"Write {key}: [{{…}}, {{…}}].")
            return All(())
        parts = [self.condition((*path, index), part, inside=inside) for index, part in enumerate(value)]
        return All(tuple(parts)) if key == "all" else Any(tuple(parts))

    def elsewhere(self, path: Path, given: Mapping[str, Anything]) -> Condition:
        where: Where = "anywhere"
        if given.get("twin") == "yes":
            where = "twin"
        elif given.get("side") == "same":
            where = "same side"
        if given.get("twin", "yes") != "yes":
            self.complain((*path, "twin"), "twin can only be yes", "Take it out.")
        count = given.get("count", 1)
        if not isinstance(count, int) or not 1 <= count <= 9:
            self.complain((*path, "count"), f'count cannot be "{count}"', "It is a number from 1 to 9.")
            count = 1
        same = given.get("side") == "same"
        rest = {k: v for k, v in given.items() if k not in ("twin", "count") and not (k == "side" and same)}
        return Elsewhere(self.condition(path, rest, inside=True), count, where)

    def word(self, path: Path, key: str, value: Anything) -> Condition:
        values = value if isinstance(value, list) else [value]
        place = path if isinstance(value, list) else path[:-1]
        good = []
        for index, said in enumerate(values):
            here = (*place, index) if isinstance(value, list) else path
            if said in self.values[key]:
                good.append(said)
            else:
                self.complain(here, f'no {key} "{said}"', did_you_mean(str(said), self.values[key]))
        if len(set(map(str, values))) < len(values):
            self.complain(path, f"a word stands twice under {key}", "Keep one of them.")
        return Is(key, tuple(good))

    def level(self, path: Path, key: str, value: Anything) -> Iterable[Condition]:
        scale = self.words.scales[key]
        wanted = "at_least" if self.mode == "rule" else "at_most"
        if not isinstance(value, dict) or set(value) != {wanted}:
            reason = "a rule asks for a level or worse" if self.mode == "rule" else "a presumption needs a good answer"
            self.complain(path, f"{key} needs {{{wanted}: level}}: {reason}", f"Write {key}: {{{wanted}: 1}}.")
            return
        if self.mode == "presumption" and not scale.observed:
            self.complain(path, f"a presumption cannot rest on {key}, which rules raise", "Use what was observed.")
            return
        level = level_of(self.document, (*path, wanted), scale, value[wanted])
        if level is None:
            return
        if self.mode == "rule":
            if level == 0:
                self.complain(path, f"{key} is always at level 0 or worse", "Take the line out.")
            else:
                yield AtLeast(key, level)
        elif level == scale.top:
            self.complain(path, f"any answer to {key} would do", "Take the line out, or name a better level.")
        else:
            yield AtMost(key, level)

    def cases(self) -> tuple[model.Case, ...]:
        found: list[model.Case] = []
        for index, case in enumerate(self.form.cases):
            path = (*self.path, "cases", index)
            found.extend(self.case((*path, "given"), case.given, fires=case.expect == "fires"))
        for fires, name in ((True, "fires"), (False, "silent")):
            if not any(case.fires == fires for case in found) and (fires or self.form.when != "always"):
                self.complain((*self.path, "cases"), f"no case {name}", f"Add one with expect: {name}.")
        return tuple(found)

    def case(self, path: Path, given: Mapping[str, Anything], *, fires: bool) -> list[model.Case]:
        """One case for each combination of the listed words."""
        choices: list[list[tuple[str, str | int]]] = []
        others: tuple[model.Case, ...] = ()
        for key, value in given.items():
            here = (*path, key)
            listed = value if isinstance(value, list) else [value]
            if key == "elsewhere":
                others = tuple(
                    case
                    for index, other in enumerate(listed)
                    for case in self.case((*here, index), other if isinstance(other, dict) else {}, fires=True)
                )
            elif key in self.values:
                condition = self.word(here, key, value)
                assert isinstance(condition, Is)
                choices.append([(key, word) for word in condition.values])
            elif key in self.words.scales:
                scale = self.words.scales[key]
                levels = [level_of(self.document, here, scale, said) for said in listed]
                choices.append([(key, level) for level in levels if level is not None])
            else:
                hint = did_you_mean(key, [*self.values, *self.words.scales, "elsewhere"])
                self.complain(here, f'unknown word "{key}"', hint)
        place = self.document.place(path)
        return [
            model.Case(
                words={key: value for key, value in chosen if isinstance(value, str)},
                levels={key: value for key, value in chosen if isinstance(value, int)},
                elsewhere=others,
                fires=fires,
                place=place,
            )
            for chosen in itertools.product(*choices)
        ]
