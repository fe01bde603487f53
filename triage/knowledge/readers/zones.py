"""From the forms of the files to the places of the boat and the walk round her, with every mistake told."""

from __future__ import annotations

from collections.abc import Mapping

from triage.knowledge import model
from triage.knowledge.forms.ontology import ZoneForm
from triage.knowledge.readers.references import Loaded, Ontology, known, known_scales, named
from triage.parsing.documents import Document, Path


def read_zones(files: Loaded, ontology: Ontology) -> None:
    """The zones, their groups and the walk round her, put into the ontology; its facts and scales are there already."""
    ids = {key for _, form in files for key in form.zones}
    for document, path, key, group in named(files, "groups"):
        zones = known(document, (*path, "zones"), group.zones, ids, "zone")
        ontology.groups[key] = model.Group(key, group.name, zones, document.place(path))
    legs = []
    order: dict[str, tuple[str, int]] = {}
    for document, form in files:
        for index, leg in enumerate(form.walk):
            zones = known(document, ("walk", index, "zones"), leg.zones, ids, "zone")
            for number, zone in enumerate(leg.zones):
                if zone in order:
                    what = f'"{zone}" is already reached in the leg "{order[zone][0]}"'
                    path = ("walk", index, "zones", number)
                    document.problems.append(document.problem(path, what, "Keep one of them."))
                order[zone] = (leg.leg, len(order))
            legs.append(model.Leg(leg.leg, leg.name, leg.stand, zones))
    ontology.walk = tuple(legs)
    found = {}
    for document, path, key, zone in named(files, "zones"):
        if key not in order:
            what = f'the walk-round never comes to "{key}"'
            document.problems.append(document.problem(path, what, "Add it to one leg of walk."))
        found[key] = _zone(document, path, key, zone, ontology, ids, order.get(key, ("", 0)))
    ontology.zones = dict(sorted(found.items(), key=lambda item: item[1].order))


def _zone(
    document: Document, path: Path, key: str, form: ZoneForm, ontology: Ontology, ids: set[str], at: tuple[str, int]
) -> model.Zone:
    beside = known_scales(document, (*path, "passed_with"), form.passed_with, ontology)
    ways = tuple(
        (*known_scales(document, (*path, "passed_by", index), way, ontology), *beside)
        for index, way in enumerate(form.passed_by)
    )
    named = form.criticality == "primary" if form.named_checks is None else form.named_checks == "yes"
    return model.Zone(
        id=key,
        name=form.name,
        trade=form.trade,
        leg=at[0],
        order=at[1],
        load=form.load,
        criticality=form.criticality,
        below_water=form.below_water,
        encloses_buoyancy=form.encloses_buoyancy,
        sided=form.sided == "yes",
        neighbours=known(document, (*path, "neighbours"), form.neighbours, ids, "zone"),
        groups=tuple(group.id for group in ontology.groups.values() if key in group.zones),
        reached=form.reached,
        trouble=form.trouble,
        compare=form.compare,
        passed_by=ways,
        how_passed=form.how_passed,
        also_open=known_scales(document, (*path, "also_open"), form.also_open, ontology),
        not_asked=frozenset(known_scales(document, (*path, "not_asked"), form.not_asked, ontology)),
        named_checks=named,
        only_if=_facts(document, (*path, "only_if"), form.only_if, ontology),
        passed_with=beside,
        passed_alone=tuple(
            model.Pass(
                known_scales(document, (*path, "passed_alone", index, "by"), way.by, ontology),
                _facts(document, (*path, "passed_alone", index, "where"), way.where, ontology),
            )
            for index, way in enumerate(form.passed_alone)
        ),
        place=document.place(path),
    )


def _facts(document: Document, path: Path, said: Mapping[str, str], ontology: Ontology) -> dict[str, str]:
    return {
        fact: said[fact]
        for fact in known(document, path, said, ontology.facts, "boat fact")
        if known(document, (*path, fact), [said[fact]], ontology.facts[fact].values, f"{fact}")
    }
