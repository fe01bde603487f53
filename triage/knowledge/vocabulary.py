"""The words of the knowledge: facts, groups, zones, signs, scales and checks, with every reference resolved."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, field
from typing import Any, TypeVar

from triage.documents import Document, Path
from triage.errors import did_you_mean
from triage.knowledge import model
from triage.knowledge.schema import CheckForm, LevelSaid, RuleForm, ScaleForm, SignForm, VocabularyFile, ZoneForm

Loaded = list[tuple[Document, VocabularyFile]]
T = TypeVar("T")


@dataclass
class Vocabulary:
    """Everything but the rules."""

    facts: dict[str, model.Fact] = field(default_factory=dict)
    groups: dict[str, model.Group] = field(default_factory=dict)
    walk: tuple[model.Leg, ...] = ()
    zones: dict[str, model.Zone] = field(default_factory=dict)
    signs: dict[str, model.Sign] = field(default_factory=dict)
    offers: dict[str, tuple[str, ...]] = field(default_factory=dict)
    scales: dict[str, model.Scale] = field(default_factory=dict)
    checks: dict[str, model.Check] = field(default_factory=dict)
    sources: dict[str, model.Source] = field(default_factory=dict)


def read_vocabulary(files: Loaded) -> Vocabulary:
    """Build the vocabulary; whatever does not fit is added to the problems of the document it stands in."""
    words = Vocabulary()
    for _, _, key, source in _named(files, "sources"):
        words.sources[key] = model.Source(key, source.title, source.seen, source.note)
    for _, _, key, fact in _named(files, "facts"):
        words.facts[key] = model.Fact(key, fact.asks, fact.values, fact.find_out)
    for document, path, key, scale in _named(files, "scales"):
        words.scales[key] = _scale(document, path, key, scale, words)
    _read_zones(files, words)
    _read_signs(files, words)
    _read_offers(files, words)
    for document, path, key, check in _named(files, "checks"):
        words.checks[key] = _check(document, path, key, check, words)
    return words


def _named(files: Loaded, section: str) -> Iterator[tuple[Document, Path, str, Any]]:
    """Every entry of a section over all files; a name used in two files is a problem."""
    seen: dict[str, Document] = {}
    for document, form in files:
        for key, entry in getattr(form, section).items():
            if key in seen:
                what = f'"{key}" is already in {seen[key].source}'
                document.problems.append(document.problem((section, key), what, "Keep one of them."))
            else:
                seen[key] = document
                yield document, (section, key), key, entry


def known(document: Document, path: Path, words: Iterable[str], allowed: Iterable[str], what: str) -> tuple[str, ...]:
    """Those of ``words`` that are allowed; the others become problems. ``path`` is the list they stand in."""
    allowed = list(allowed)
    good = []
    for index, word in enumerate(words):
        if word in allowed:
            good.append(word)
        else:
            here = (*path, index) if (*path, index) in document.marks else (*path, word)
            document.problems.append(document.problem(here, f'no {what} "{word}"', did_you_mean(word, allowed)))
    return tuple(good)


def level_of(document: Document, path: Path, scale: model.Scale, said: LevelSaid) -> int | None:
    """A level given by number or by name."""
    names = [level.name for level in scale.levels]
    if isinstance(said, int) and 0 <= said <= scale.top:
        return said
    if isinstance(said, str) and said in names:
        return names.index(said)
    what = f'{scale.id} has no level "{said}"'
    hint = f"It has 0 to {scale.top}: {', '.join(names)}."
    document.problems.append(document.problem(path, what, hint))
    return None


def basis_of(document: Document, path: Path, form: RuleForm | ScaleForm | CheckForm, words: Vocabulary) -> model.Basis:
    """Where a statement comes from; published needs a source that was read."""
    kind = form.basis or "common practice"
    if kind != "published":
        if form.source or form.where:
            hint = "Write basis: published, or take source and where out."
            document.problems.append(document.problem(path, f'a source is given, but the basis is "{kind}"', hint))
        return model.Basis(kind)
    known(document, (*path, "source"), [form.source], words.sources, "source")
    if not form.where:
        document.problems.append(document.problem(path, '"published" needs "where"', "Give the page, clause or table."))
    source = words.sources.get(form.source)
    if source and source.seen == "no":
        what = f"{form.source} was never read, so nothing can be published from it"
        document.problems.append(document.problem(path, what, "Write basis: common practice or estimate."))
    return model.Basis(kind, form.source, form.where)


def _scale(document: Document, path: Path, key: str, form: ScaleForm, words: Vocabulary) -> model.Scale:
    levels = tuple(model.Level(level.name, level.phrase, level.means) for level in form.levels)
    if len({level.name for level in levels}) < len(levels):
        document.problems.append(document.problem((*path, "levels"), "two levels have the same name", "Rename one."))
    measure = None
    if form.unit or form.limits:
        if len(form.limits) != len(levels) - 1 or not form.unit:
            what = "unit and limits belong together, with one limit for each level from 1 up"
            document.problems.append(document.problem(path, what, "Use any or none for a level without a figure."))
        limits = tuple(0.0 if limit == "any" else None if limit == "none" else limit for limit in form.limits)
        measure = model.Measure(form.unit, limits, form.worse == "smaller", form.measures, form.most)
        figures = [limit for limit in limits if isinstance(limit, float)]
        if figures != sorted(figures, reverse=measure.smaller_is_worse):
            what = "the limits do not run from mild to grave"
            document.problems.append(document.problem((*path, "limits"), what, "Put them in order."))
    observed = form.kind == "observed"
    if observed and not form.asks:
        document.problems.append(document.problem(path, '"asks" is missing', "Give the question that it answers."))
    basis = basis_of(document, path, form, words) if form.basis else None
    return model.Scale(key, form.name, observed, levels, form.asks, measure, basis)


def _read_zones(files: Loaded, words: Vocabulary) -> None:
    ids = {key for _, form in files for key in form.zones}
    for document, path, key, group in _named(files, "groups"):
        zones = known(document, (*path, "zones"), group.zones, ids, "zone")
        words.groups[key] = model.Group(key, group.name, zones)
    legs = []
    order: dict[str, tuple[str, int]] = {}
    for document, form in files:
        for index, leg in enumerate(form.walk):
            zones = known(document, ("walk", index, "zones"), leg.zones, ids, "zone")
            for zone in zones:
                if zone in order:
                    what = f'"{zone}" is already reached in the leg "{order[zone][0]}"'
                    document.problems.append(document.problem(("walk", index, "zones"), what, "Keep one of them."))
                order[zone] = (leg.leg, len(order))
            legs.append(model.Leg(leg.leg, leg.name, leg.stand, zones))
    words.walk = tuple(legs)
    found = {}
    for document, path, key, zone in _named(files, "zones"):
        if key not in order:
            what = f'the walk-round never comes to "{key}"'
            document.problems.append(document.problem(path, what, "Add it to one leg of walk."))
        found[key] = _zone(document, path, key, zone, words, ids, order.get(key, ("", 0)))
    words.zones = dict(sorted(found.items(), key=lambda item: item[1].order))


def _zone(
    document: Document, path: Path, key: str, form: ZoneForm, words: Vocabulary, ids: set[str], at: tuple[str, int]
) -> model.Zone:
    observed = [scale.id for scale in words.scales.values() if scale.observed]
    ways = tuple(
        known(document, (*path, "passed_by", index), way, observed, "observed scale")
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
        groups=tuple(group.id for group in words.groups.values() if key in group.zones),
        reached=form.reached,
        trouble=form.trouble,
        compare=form.compare,
        passed_by=ways,
        how_passed=form.how_passed,
        also_open=known(document, (*path, "also_open"), form.also_open, observed, "observed scale"),
        named_checks=named,
        only_if={
            fact: form.only_if[fact]
            for fact in known(document, (*path, "only_if"), form.only_if, words.facts, "boat fact")
            if known(document, (*path, "only_if"), [form.only_if[fact]], words.facts[fact].values, f"{fact}")
        },
    )


def _read_signs(files: Loaded, words: Vocabulary) -> None:
    ids = {key for _, form in files for key in form.signs}
    for document, path, key, sign in _named(files, "signs"):
        words.signs[key] = _sign(document, path, key, sign, words, ids)


def _sign(document: Document, path: Path, key: str, form: SignForm, words: Vocabulary, ids: set[str]) -> model.Sign:
    observed = [scale.id for scale in words.scales.values() if scale.observed]
    scales = known(document, (*path, "scales"), form.scales, observed, "observed scale")
    caps = {}
    for scale in known(document, (*path, "caps"), form.caps, scales, "scale of this sign"):
        cap = form.caps[scale]
        level = level_of(document, (*path, "caps", scale), words.scales[scale], cap.at_most)
        known(document, (*path, "caps", scale, "else"), [cap.otherwise], ids, "sign")
        caps[scale] = model.Cap(level or 0, cap.otherwise)
    least = {}
    for scale in known(document, (*path, "least"), form.least, scales, "scale of this sign"):
        least[scale] = level_of(document, (*path, "least", scale), words.scales[scale], form.least[scale]) or 0
    about_in = {}
    for zone in known(document, (*path, "about_in"), form.about_in, words.zones, "zone"):
        about_in[zone] = known(document, (*path, "about_in", zone), form.about_in[zone], observed, "observed scale")
    measured = [scale for scale in observed if words.scales[scale].measure]
    return model.Sign(
        id=key,
        name=form.name,
        picture=form.picture,
        not_this=form.not_this,
        scales=scales,
        about=known(document, (*path, "about"), form.about, observed, "observed scale"),
        about_in=about_in,
        caps=caps,
        least=least,
        above_zero=known(document, (*path, "above_zero"), form.above_zero, measured, "scale that can be measured"),
        named_checks=form.named_checks,
        also_named=known(document, (*path, "also_named"), form.also_named, observed, "observed scale"),
        harmless=form.harmless,
    )


def _read_offers(files: Loaded, words: Vocabulary) -> None:
    offered: dict[str, dict[str, None]] = {zone: {} for zone in words.zones}
    for document, form in files:
        for index, offer in enumerate(form.offers):
            zones = known(document, ("offers", index, "zones"), offer.zones, words.zones, "zone")
            signs = known(document, ("offers", index, "signs"), offer.signs, words.signs, "sign")
            for zone in zones:
                offered[zone].update(dict.fromkeys(signs))
    words.offers = {zone: tuple(sign for sign in words.signs if sign in signs) for zone, signs in offered.items()}


def _check(document: Document, path: Path, key: str, form: CheckForm, words: Vocabulary) -> model.Check:
    observed = [scale.id for scale in words.scales.values() if scale.observed]
    values: Mapping[str, Any] = {
        "reads": known(document, (*path, "reads"), form.reads, observed, "observed scale"),
        "only_in": known(document, (*path, "only_in"), form.only_in, words.zones, "zone"),
        "basis": basis_of(document, path, form, words),
    }
    return model.Check(
        id=key,
        name=form.name,
        steps=tuple(form.steps),
        tools=tuple(form.tools),
        minutes=form.minutes,
        dismantling=form.dismantling,
        helper=form.helper == "yes",
        care=form.care,
        misses=form.misses,
        false_alarms=form.false_alarms,
        **values,
    )
