"""Repairs and what they share, from forms to frozen data."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import replace

from triage.knowledge.forms.repairs import RepairForm
from triage.knowledge.model import HANDS
from triage.knowledge.model.conditions import Condition, Elsewhere, parts
from triage.knowledge.model.repair import Hazard, Mending, Prices, Repair, Span
from triage.knowledge.readers.conditions import ConditionReader
from triage.knowledge.readers.references import Loaded, Ontology, basis_of, known, level_of, named
from triage.parsing.documents import Document, Path

LoadedRepairs = list[tuple[Document, Path, RepairForm]]


def read_mending(files: Loaded, forms: LoadedRepairs, ontology: Ontology) -> Mending:
    """All repairs in file order, with hazards and prices; problems go to the documents they stand in."""
    shared = Mending(
        hazards={key: Hazard(key, form.name, form.where, form.say) for _, _, key, form in named(files, "hazards")},
        workshop={key: text for _, _, key, text in named(files, "workshop")},
        stops={key: text for _, _, key, text in named(files, "stops")},
        prices=_prices(files),
    )
    seen: dict[str, Document] = {}
    repairs = []
    for order, (document, path, form) in enumerate(forms):
        if form.id in seen:
            what = f'the id "{form.id}" is already used in {seen[form.id].source}'
            document.problems.append(document.problem((*path, "id"), what, "An id is never used twice."))
        seen[form.id] = document
        repairs.append(_RepairReader(document, path, form, ontology).repair(order, shared))
    repairs = _covering(forms, repairs)
    return Mending(tuple(repairs), shared.hazards, shared.workshop, shared.stops, shared.prices)


def _covering(forms: LoadedRepairs, repairs: list[Repair]) -> list[Repair]:
    """The repairs with all that each covers; told is what covers itself, or what asks for more than what covers it."""
    direct = {form.id: form.covers for _, _, form in forms}
    by_id = {repair.id: repair for repair in repairs}
    covering = []
    for (document, path, form), repair in zip(forms, repairs, strict=True):
        here = (*path, "covers")
        known(document, here, form.covers, by_id, "repair")
        covered = tuple(id_ for id_ in _reached(form.id, direct) if id_ in by_id)
        if repair.id in covered:
            document.problems.append(document.problem(here, f"{repair.id} covers itself", "Take it out."))
        for id_ in covered:
            dearer = list(_asks_more(by_id[id_], repair))
            if dearer:
                what = f"{repair.id} covers {id_}, which asks for more: {', '.join(dearer)}"
                document.problems.append(document.problem(here, what, "Take it out, or raise what this one asks for."))
        covering.append(replace(repair, covers=covered))
    return covering


def _reached(repair: str, direct: Mapping[str, list[str]]) -> Iterator[str]:
    seen: set[str] = set()
    ahead = list(direct[repair])
    while ahead:
        one = ahead.pop()
        if one not in seen:
            seen.add(one)
            yield one
            ahead += direct.get(one, [])


def _asks_more(covered: Repair, covering: Repair) -> Iterator[str]:
    """Of what the covered repair asks for more, at the least or at the most, than the one which covers it."""
    if covered.who > covering.who:
        yield "who"
    for what in ("hours", "materials", "repairer"):
        its: Span | None = getattr(covered, what)
        own: Span | None = getattr(covering, what)
        if its and (own is None or its[0] > own[0] or its[1] > own[1]):
            yield what


def _prices(files: Loaded) -> Prices | None:
    given = [(document, form.prices) for document, form in files if form.prices is not None]
    for document, _ in given[1:]:
        what = f"prices are already counted in {given[0][0].source}"
        document.problems.append(document.problem(("prices",), what, "Keep one of them."))
    if not given:
        return None
    form = given[0][1]
    return Prices(form.year, form.unit, form.note, form.labour)


class _RepairReader(ConditionReader):
    """Reads one repair."""

    def __init__(self, document: Document, path: Path, form: RepairForm, ontology: Ontology) -> None:
        super().__init__(document, ontology, "rule")
        self.path, self.form = path, form

    def repair(self, order: int, shared: Mending) -> Repair:
        form, here = self.form, self.path
        who = None
        if HANDS in self.ontology.scales:
            who = level_of(self.document, (*here, "who"), self.ontology.scales[HANDS], form.who)
        return Repair(
            id=form.id,
            order=order,
            name=form.name,
            when=self.when(),
            who=who or 0,
            outline=tuple(form.outline),
            meanwhile=form.meanwhile,
            basis=basis_of(self.document, here, form, self.ontology),
            place=self.document.place(here),
            hours=self.span("hours", form.hours),
            materials=self.span("materials", form.materials),
            repairer=self.span("repairer", form.repairer),
            per=form.per,
            wait=form.wait,
            holding=form.holding,
            lets=tuple(form.lets),
            workshop=known(self.document, (*here, "workshop"), form.workshop, shared.workshop, "rule of the workshop"),
            hazards=known(self.document, (*here, "hazards"), form.hazards, shared.hazards, "hazard"),
            stop_when=known(self.document, (*here, "stop_when"), form.stop_when, shared.stops, "reason to stop"),
        )

    def when(self) -> Condition:
        condition = self.condition((*self.path, "when"), self.form.when)
        if any(isinstance(part, Elsewhere) for part in parts(condition)):
            self.complain((*self.path, "when"), "a repair looks at one finding only", "Take elsewhere out.")
        return condition

    def span(self, key: str, given: Span | None) -> Span | None:
        if given is not None and not 0 <= given[0] <= given[1]:
            self.complain((*self.path, key), f"{key} does not run from the least to the most", "Write [least, most].")
        return given
