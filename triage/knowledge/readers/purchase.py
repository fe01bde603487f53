"""What is known of buying, from the files under ``buying/``: a small knowledge base of its own, figures and gear."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace

from triage.knowledge.compiled.strata import scale_cycle
from triage.knowledge.model import KnowledgeBase, Leg, Sign, Zone
from triage.knowledge.model.ontology import Source
from triage.knowledge.model.purchase import (
    DECISION,
    OFFER,
    PURCHASE,
    AdvertWords,
    Figure,
    Gear,
    Purchase,
    SaleSign,
)
from triage.knowledge.readers.only import only
from triage.knowledge.readers.ontology import read_ontology
from triage.knowledge.readers.promises import LoadedPromises, read_promises
from triage.knowledge.readers.references import Loaded, Ontology, basis_of, known_scales, named
from triage.knowledge.readers.rules import LoadedRules, read_rules
from triage.knowledge.readers.viewing import read_viewing

FOLDER = "buying/"
"""Where these files stand in a folder of rules."""

FIGURES = {
    "likely_part": 1,
    "used_of_new": 3,
    "margin_back_seen": 1,
    "margin_part_seen": 1,
    "margin_not_seen": 1,
    "chance_open_main": 1,
    "chance_open_other": 1,
    "chance_suspected": 1,
    "chance_not_looked": 1,
    "hidden_damage": 3,
    "minutes_again": 1,
    "bargain": 1,
    "adviser_fee": 2,
    "adviser_finds": 1,
}
"""Every figure that the sums need, and of how many numbers it is made."""


def read_purchase(
    files: Loaded, rules: LoadedRules, promises: LoadedPromises, sources: Mapping[str, Source], digest: str
) -> Purchase:
    """What these files come to; problems go to the documents they stand in. Nothing, where there are no files."""
    if not files:
        return Purchase()
    ontology = _with_the_offer(read_ontology(files), sources)
    read, presumptions = read_rules(rules, ontology)
    judging = KnowledgeBase(
        facts={},
        groups={},
        walk=ontology.walk,
        zones=ontology.zones,
        signs=ontology.signs,
        scales=ontology.scales,
        checks={},
        rules=read,
        presumptions=presumptions,
        sources=ontology.sources,
        offers=ontology.offers,
        promises=read_promises(promises, ontology, (*read, *presumptions)),
        digest=digest,
    )
    _whole(files, judging)
    return Purchase(
        judging=judging,
        figures=_figures(files, ontology),
        gear=_gear(files, ontology),
        sale=_sale(files, ontology),
        viewing=read_viewing(files, ontology),
        advert=_advert(files, ontology),
    )


def _figures(files: Loaded, ontology: Ontology) -> dict[str, Figure]:
    """Every figure; one that nothing needs, that is missing or has other numbers is told."""
    found = {}
    for document, path, key, form in named(files, "figures"):
        if key not in FIGURES:
            document.problems.append(document.problem(path, f'nothing needs the figure "{key}"', "Take it out."))
        elif len(form.values) != FIGURES[key] or sorted(form.values) != form.values or form.values[0] < 0:
            what = f'"{key}" is not {FIGURES[key]} from the least to the most'
            document.problems.append(document.problem((*path, "is"), what, "Write is: [least, …, most]."))
        basis = basis_of(document, path, form, ontology)
        found[key] = Figure(key, tuple(form.values), form.say, basis, document.place(path))
    for key in FIGURES:
        if key not in found:
            document = files[0][0]
            document.problems.append(document.at(1, 1, f'the figure "{key}" is missing', "Add it under figures."))
    return found


def _gear(files: Loaded, ontology: Ontology) -> dict[str, Gear]:
    found = {}
    for document, path, key, form in named(files, "gear"):
        for word, (least, most) in (("missing", form.missing), ("spent", form.spent or form.missing)):
            if not 0 <= least <= most:
                what = f"{word} does not run from the least to the most"
                document.problems.append(document.problem((*path, word), what, "Write [least, most]."))
        found[key] = Gear(
            id=key,
            name=form.name,
            missing=form.missing,
            spent=form.spent or form.missing,
            complete=form.complete == "yes",
            note=form.note,
            asks_age=form.asks_age == "yes",
            spent_after=form.spent_after or 0,
            told=tuple(form.told),
            at=tuple(form.at),
            means=form.means,
            basis=basis_of(document, path, form, ontology),
            place=document.place(path),
        )
    return found


def _sale(files: Loaded, ontology: Ontology) -> dict[str, SaleSign]:
    found = {}
    for document, path, key, form in named(files, "sale"):
        known_scales(document, (*path, "counts"), [form.counts] if form.counts else [], ontology)
        if not (form.counts or form.asks):
            what = f'nothing comes of "{key}": it counts for nothing and asks nothing'
            document.problems.append(document.problem(path, what, "Write counts, or asks."))
        found[key] = SaleSign(
            id=key,
            say=form.say,
            heard=tuple(form.heard),
            told=tuple(form.told),
            counts=form.counts,
            basis=basis_of(document, path, form, ontology),
            together=tuple(map(tuple, form.together or ())),
            asks=form.asks,
            damage=form.damage == "yes",
            place=document.place(path),
        )
    return found


def _advert(files: Loaded, ontology: Ontology) -> AdvertWords | None:
    """What stands under ``advert``; a second one is told."""
    found = only(files, "advert")
    if found is None:
        return None
    document, form = found
    return AdvertWords(
        money={what: tuple(said) for what, said in form.money},
        built=tuple(form.built),
        number=tuple(form.number),
        lives=tuple(form.lives),
        without=tuple(form.without),
        worn=tuple(form.worn),
        basis=basis_of(document, ("advert",), form, ontology),
    )


def _with_the_offer(ontology: Ontology, sources: Mapping[str, Source]) -> Ontology:
    """The ontology with the one place and the one mark there are: an offer, judged by every observed scale."""
    observed = tuple(scale.id for scale in ontology.scales.values() if scale.observed)
    zone = Zone(
        id=PURCHASE,
        name="The purchase",
        trade="",
        leg=PURCHASE,
        order=0,
        load="none",
        criticality="none",
        below_water="no",
        encloses_buoyancy="no",
        sided=False,
        neighbours=(),
        groups=(),
        reached="",
        trouble="",
        compare="",
        passed_by=(),
        how_passed="",
        also_open=(),
        named_checks=False,
    )
    sign = Sign(
        id=OFFER,
        name="an offer",
        picture="",
        not_this="",
        scales=observed,
        about=(),
        about_in={},
        scales_in={},
        caps={},
        least={},
        above_zero=(),
        named_checks="none",
        also_named=(),
        harmless="",
    )
    return replace(
        ontology,
        walk=(Leg(PURCHASE, zone.name, "", (PURCHASE,)),),
        zones={PURCHASE: zone},
        signs={OFFER: sign},
        offers={PURCHASE: (OFFER,)},
        sources={**sources, **ontology.sources},
    )


def _whole(files: Loaded, judging: KnowledgeBase) -> None:
    """Tell where there is no decision, or where the rules go round in a circle."""
    document = files[0][0]
    scale = judging.scales.get(DECISION)
    if scale is None or scale.observed:
        what = f'the derived scale "{DECISION}" is missing'
        document.problems.append(document.at(1, 1, what, "Rules of buying raise it."))
    if steps := scale_cycle(judging):
        circle = ", ".join(f"{read} raises {raised} ({rule.id})" for read, raised, rule in steps)
        what = f"derived scales feed each other in a circle: {circle}"
        document.problems.append(document.at(1, 1, what, "Take one of these steps out."))
