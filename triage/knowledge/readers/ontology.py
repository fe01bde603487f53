"""From the forms of the files to the Ontology, with every mistake told."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from triage.knowledge import model
from triage.knowledge.forms.ontology import CheckForm, SignForm
from triage.knowledge.readers.references import Loaded, Ontology, basis_of, known, known_scales, level_of, named
from triage.knowledge.readers.scales import read_scale
from triage.knowledge.readers.zones import read_zones
from triage.parsing.documents import Document, Path
from triage.parsing.text import same


def read_ontology(files: Loaded) -> Ontology:
    """The ontology of all files together; problems go to the documents they stand in."""
    ontology = Ontology()
    for _, _, key, source in named(files, "sources"):
        ontology.sources[key] = model.Source(key, source.title, source.seen, source.note, source.about)
    for document, path, key, fact in named(files, "facts"):
        ontology.facts[key] = model.Fact(key, fact.asks, fact.values, fact.find_out, document.place(path))
    for document, path, key, scale in named(files, "scales"):
        ontology.scales[key] = read_scale(document, path, key, scale, ontology)
    read_zones(files, ontology)
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
