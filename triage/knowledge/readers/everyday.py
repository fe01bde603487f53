"""What is expected of everyday marks, from forms to frozen data."""

from __future__ import annotations

import re
from dataclasses import replace

from triage.knowledge.forms.everyday import EverydayForm, StricterForm
from triage.knowledge.model import VERDICT
from triage.knowledge.model.everyday import Everyday, EverydayMark, Outcome
from triage.knowledge.readers.references import Loaded, Ontology, known, level_of
from triage.parsing.documents import Document, Path

HERE: Path = ("everyday",)
_OUTCOME = re.compile(r"(\d) (\S.*)")
_NOTHING = Outcome(0, 0)


def read_everyday(files: Loaded, ontology: Ontology) -> Everyday:
    """The section, which stands in one file at most; problems go to the documents they stand in."""
    given = [(document, form.everyday) for document, form in files if form.everyday is not None]
    for document, _ in given[1:]:
        what = f"everyday marks are already given in {given[0][0].source}"
        document.problems.append(document.problem(HERE, what, "Keep one of them."))
    return _Reader(*given[0], ontology).everyday() if given else Everyday()


class _Reader:
    def __init__(self, document: Document, form: EverydayForm, ontology: Ontology) -> None:
        self.document, self.form, self.ontology = document, form, ontology

    def complain(self, path: Path, what: str, hint: str) -> None:
        self.document.problems.append(self.document.problem(path, what, hint))

    def everyday(self) -> Everyday:
        marks: dict[tuple[str, str], EverydayMark] = {}
        for sign in known(self.document, (*HERE, "marks"), self.form.marks, self.ontology.signs, "sign"):
            here = (*HERE, "marks", sign)
            for zone in known(self.document, here, self.form.marks[sign], self.ontology.zones, "zone"):
                if self.offered((*here, zone), zone, sign):
                    expected = self.outcome((*here, zone), self.form.marks[sign][zone])
                    place = self.document.place((*here, zone))
                    marks[zone, sign] = EverydayMark(zone, sign, expected, place=place)
        for index, entry in enumerate(self.form.stricter):
            path = (*HERE, "stricter", index)
            if (entry.zone, entry.sign) in marks:
                key = (entry.zone, entry.sign)
                marks[key] = self.stricter(path, marks[key], entry)
            else:
                self.complain(path, f"nothing is expected of {entry.sign} at {entry.zone}", "Add it to marks.")
        return Everyday(self.boat(), tuple(marks.values()))

    def boat(self) -> dict[str, str]:
        path, facts = (*HERE, "boat"), self.ontology.facts
        return {
            fact: self.form.boat[fact]
            for fact in known(self.document, path, self.form.boat, facts, "boat fact")
            if known(self.document, (*path, fact), [self.form.boat[fact]], facts[fact].values, fact)
        }

    def offered(self, path: Path, zone: str, sign: str) -> bool:
        there = self.ontology.offers[zone]
        if sign not in there:
            self.complain(path, f"{sign} cannot be met at {zone}", f"There it can be: {', '.join(there)}.")
        return sign in there

    def stricter(self, path: Path, mark: EverydayMark, form: StricterForm) -> EverydayMark:
        comes_to = self.outcome((*path, "comes_to"), form.comes_to)
        if comes_to == mark.expected:
            self.complain((*path, "comes_to"), "this is what is expected", "Take the entry out.")
        return replace(mark, comes_to=comes_to, because=form.because, place=self.document.place(path))

    def outcome(self, path: Path, said: str) -> Outcome:
        match = _OUTCOME.fullmatch(said)
        if not match:
            hint = "Write how many answers settle it and the verdict, such as: 2 cosmetic."
            self.complain(path, f'"{said}" is no number of answers with a verdict', hint)
            return _NOTHING
        if VERDICT not in self.ontology.scales:
            return _NOTHING
        return Outcome(int(match[1]), level_of(self.document, path, self.ontology.scales[VERDICT], match[2]) or 0)
