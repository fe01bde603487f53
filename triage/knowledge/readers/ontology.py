"""From the forms of the files to the Ontology, with every mistake told."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import replace
from typing import Any, Literal

from triage.knowledge import model
from triage.knowledge.forms.ontology import CheckForm, LevelForm, ScaleForm, SignForm, ZoneForm
from triage.knowledge.readers.observations import read_words
from triage.knowledge.readers.references import Loaded, Ontology, basis_of, known, known_scales, level_of, named
from triage.knowledge.readers.ways import read_ways
from triage.parsing.documents import Document, Path
from triage.parsing.quantities import is_unit, unit_names
from triage.parsing.text import did_you_mean, same


def read_ontology(files: Loaded) -> Ontology:
    """The ontology of all files together; problems go to the documents they stand in."""
    ontology = Ontology()
    for _, _, key, source in named(files, "sources"):
        ontology.sources[key] = model.Source(key, source.title, source.seen, source.note, source.about)
    for document, path, key, fact in named(files, "facts"):
        ontology.facts[key] = model.Fact(key, fact.asks, fact.values, fact.find_out, document.place(path))
    for document, path, key, scale in named(files, "scales"):
        ontology.scales[key] = _scale(document, path, key, scale, ontology)
    _read_zones(files, ontology)
    _read_signs(files, ontology)
    _read_offers(files, ontology)
    for document, path, key, check in named(files, "checks"):
        ontology.checks[key] = _check(document, path, key, check, ontology)
    for section in ("zones", "signs", "scales"):
        _names_apart(files, section)
    return ontology


def _names_apart(files: Loaded, section: str) -> None:
    """Surveys may use plain and trade names, so no two entries may share one."""
    taken: dict[str, str] = {}
    for document, path, key, entry in named(files, section):
        if getattr(entry, "kind", "observed") == "observed":
            trade = getattr(entry, "trade", "").split(",")
            for where, name in [(path, key), ((*path, "name"), entry.name), *(((*path, "trade"), t) for t in trade)]:
                if name and taken.setdefault(same(name), key) != key:
                    what = f'"{name.strip()}" is already a name of {taken[same(name)]}'
                    document.problems.append(document.problem(where, what, "Find another one."))


def _read_roles(document: Document, path: Path, key: str, form: ScaleForm) -> None:
    """Every role that the program needs is played by one level, and no level plays one that it does not know."""
    played: dict[str, int] = {}
    for number, level in enumerate(form.levels):
        here = (*path, "levels", number, "role")
        if not level.role or not known(document, here, [level.role], model.ROLES.get(key, ()), f"role of {key}"):
            continue
        if played.setdefault(level.role, number) != number:
            what = f'the role "{level.role}" is already played by level {played[level.role]}'
            document.problems.append(document.problem(here, what, "Let one level play it."))
    for role in model.NEEDED_ROLES.get(key, ()):
        if role not in played:
            hint = f"Add role: {role} to the level that means it."
            document.problems.append(document.problem((*path, "levels"), f'no level plays the role "{role}"', hint))


def _scale(document: Document, path: Path, key: str, form: ScaleForm, ontology: Ontology) -> model.Scale:
    levels = tuple(_level(level) for level in form.levels)
    _read_roles(document, path, key, form)
    read_words(document, path, form)
    if len({level.name for level in levels}) < len(levels):
        document.problems.append(document.problem((*path, "levels"), "two levels have the same name", "Rename one."))
    measure = None
    if form.unit or form.limits:
        if len(form.limits) != len(levels) - 1 or not form.unit:
            what = "unit and limits belong together, with one limit for each level from 1 up"
            needed = f"{len(levels) - 1} limits" if len(levels) > 2 else "1 limit"
            hint = f"{len(levels)} levels need {needed}; write none for a level without a figure."
            document.problems.append(document.problem((*path, "limits"), what, hint))
        if form.unit and not is_unit(form.unit):
            hint = did_you_mean(form.unit, unit_names()) or "It can be: mm, L, L/h, %, deg."
            document.problems.append(document.problem((*path, "unit"), f'nobody measures in "{form.unit}"', hint))
        smaller = form.worse == "smaller"
        limits = tuple(_limit(said, smaller=smaller) for said in form.limits)
        measure = model.Measure(form.unit, limits, smaller, form.measures, form.most, frozenset(form.over))
        figures = [limit for limit in limits if isinstance(limit, float)]
        if figures != sorted(figures, reverse=measure.smaller_is_worse):
            what = f"the limits do not run from mild to grave, although {form.worse} is worse"
            hint = "Put them in order, from level 1 up, or change worse."
            document.problems.append(document.problem((*path, "limits"), what, hint))
    _read_over(document, path, form)
    observed = form.kind == "observed"
    if observed and not form.asks:
        hint = 'Add a line "asks: …" with the question that it answers.'
        document.problems.append(document.problem(path, '"asks" is missing', hint))
    basis = replace(basis_of(document, path, form, ontology), argued=form.argued) if form.basis else None
    ways = read_ways(document, path, form, len(levels))
    return model.Scale(key, form.name, observed, levels, form.asks, measure, basis, document.place(path), ways)


def _read_over(document: Document, path: Path, form: ScaleForm) -> None:
    for number, figure in enumerate(form.over):
        if form.worse == "smaller" or figure not in form.limits:
            what = f"no level begins over {figure:g}" if form.worse == "larger" else "levels begin below their limits"
            hint = "Write a figure that stands under limits." if form.worse == "larger" else "Take it out."
            document.problems.append(document.problem((*path, "over", number), what, hint))


def _level(form: LevelForm) -> model.Level:
    seen = tuple(model.Observation(one.say, tuple(one.heard)) for one in form.seen)
    return model.Level(form.name, form.phrase, form.means, form.role, form.kept_for, seen)


def _limit(said: float | Literal["any", "always", "none"], *, smaller: bool) -> float | None:
    match said:
        case "any":
            return 0.0
        case "always":
            return math.inf if smaller else -math.inf
        case "none":
            return None
        case figure:
            return figure


def _read_zones(files: Loaded, ontology: Ontology) -> None:
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


def _read_signs(files: Loaded, ontology: Ontology) -> None:
    ids = {key for _, form in files for key in form.signs}
    for document, path, key, sign in named(files, "signs"):
        ontology.signs[key] = _sign(document, path, key, sign, ontology, ids)


def _sign(document: Document, path: Path, key: str, form: SignForm, ontology: Ontology, ids: set[str]) -> model.Sign:
    scales = known_scales(document, (*path, "scales"), form.scales, ontology)
    caps = {}
    for scale in known(document, (*path, "caps"), form.caps, scales, "scale of this sign"):
        cap = form.caps[scale]
        level = level_of(document, (*path, "caps", scale), ontology.scales[scale], cap.at_most)
        known(document, (*path, "caps", scale, "else"), [cap.otherwise], ids, "sign")
        caps[scale] = model.Cap(level or 0, cap.otherwise)
    least = {}
    for scale in known(document, (*path, "least"), form.least, scales, "scale of this sign"):
        least[scale] = level_of(document, (*path, "least", scale), ontology.scales[scale], form.least[scale]) or 0
    measured = [scale.id for scale in ontology.scales.values() if scale.observed and scale.measure]
    return model.Sign(
        id=key,
        name=form.name,
        picture=form.picture,
        not_this=form.not_this,
        scales=scales,
        about=known_scales(document, (*path, "about"), form.about, ontology),
        about_in=_scales_in(document, (*path, "about_in"), form.about_in, ontology),
        scales_in=_scales_in(document, (*path, "scales_in"), form.scales_in, ontology),
        caps=caps,
        least=least,
        above_zero=known(document, (*path, "above_zero"), form.above_zero, measured, "scale that can be measured"),
        named_checks=form.named_checks,
        also_named=known_scales(document, (*path, "also_named"), form.also_named, ontology),
        harmless=form.harmless,
        place=document.place(path),
    )


def _scales_in(
    document: Document, path: Path, said: Mapping[str, list[str]], ontology: Ontology
) -> dict[str, tuple[str, ...]]:
    zones = known(document, path, said, ontology.zones, "zone")
    return {zone: known_scales(document, (*path, zone), said[zone], ontology) for zone in zones}


def _read_offers(files: Loaded, ontology: Ontology) -> None:
    offered: dict[str, dict[str, None]] = {zone: {} for zone in ontology.zones}
    for document, form in files:
        for index, offer in enumerate(form.offers):
            zones = known(document, ("offers", index, "zones"), offer.zones, ontology.zones, "zone")
            signs = known(document, ("offers", index, "signs"), offer.signs, ontology.signs, "sign")
            for zone in zones:
                offered[zone].update(dict.fromkeys(signs))
    ontology.offers = {zone: tuple(sign for sign in ontology.signs if sign in signs) for zone, signs in offered.items()}


def _check(document: Document, path: Path, key: str, form: CheckForm, ontology: Ontology) -> model.Check:
    values: Mapping[str, Any] = {
        "reads": known_scales(document, (*path, "reads"), form.reads, ontology),
        "only_in": known(document, (*path, "only_in"), form.only_in, ontology.zones, "zone"),
        "basis": basis_of(document, path, form, ontology),
        "wait": model.Wait(form.wait.hours, form.wait.say) if form.wait else None,
        "place": document.place(path),
    }
    return model.Check(
        id=key,
        name=form.name,
        steps=tuple(form.steps),
        tools=tuple(form.tools),
        minutes=form.minutes,
        dismantling=form.dismantling,
        helper=form.helper == "yes",
        loads=form.loads == "yes",
        care=form.care,
        misses=form.misses,
        false_alarms=form.false_alarms,
        **values,
    )
