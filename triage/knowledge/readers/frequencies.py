"""Frequencies, from forms to frozen data."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping

from triage.knowledge.forms.atoms import LevelSaid
from triage.knowledge.forms.frequencies import NeverForm, SharesForm
from triage.knowledge.model import BUOYANCY
from triage.knowledge.model.frequencies import Frequencies, Never, Shares
from triage.knowledge.readers.references import Loaded, Ontology, known, known_scales, level_of
from triage.parsing.documents import Document, Path


def read_frequencies(files: Loaded, ontology: Ontology) -> Frequencies:
    """The estimates of all files together; problems go to the documents they stand in."""
    levels: dict[str, Shares] = {}
    under: dict[tuple[str, str], Shares] = {}
    damaged: dict[str, float] = {}
    facts: dict[str, Mapping[str, float]] = {}
    never: list[Never] = []
    one_place: dict[tuple[str, str], str] = {}
    kinds: dict[str, tuple[frozenset[str], ...]] = {}
    observed = [scale.id for scale in ontology.scales.values() if scale.observed]
    values = {fact.id: list(fact.values) for fact in ontology.facts.values()} | {BUOYANCY: ["yes", "no"]}
    for document, form in files:
        given = form.frequencies
        if given is None:
            continue
        path: Path = ("frequencies", "scales")
        for scale in _once(document, path, known(document, path, given.scales, observed, "observed scale"), levels):
            levels[scale] = _shares(document, (*path, scale), given.scales[scale], ontology.scales[scale].top + 1)
        path = ("frequencies", "signs")
        for sign in _once(document, path, known(document, path, given.signs, ontology.signs, "sign"), damaged):
            damaged[sign] = given.signs[sign].damaged / 100
            here = (*path, sign, "levels")
            own = given.signs[sign].levels
            for scale in known(document, here, own, observed, "observed scale"):
                under[sign, scale] = _shares(document, (*here, scale), own[scale], ontology.scales[scale].top + 1)
        path = ("frequencies", "facts")
        for fact in _once(document, path, known(document, path, given.facts, values, "boat fact"), facts):
            facts[fact] = _fact(document, (*path, fact), given.facts[fact], values[fact])
        for number, one in enumerate(given.never):
            never.append(_never(document, ("frequencies", "never", number), one, ontology))
        for number, shared in enumerate(given.shared):
            path = ("frequencies", "shared", number)
            zones = known(document, (*path, "at"), shared.at, ontology.zones, "zone")
            for scale in known_scales(document, (*path, "read"), shared.read, ontology):
                one_place |= {(zone, scale): zones[0] for zone in zones}
        for number, things in enumerate(given.kinds):
            path = ("frequencies", "kinds", number)
            read = tuple(
                frozenset(known_scales(document, (*path, "read", index), scales, ontology))
                for index, scales in enumerate(things.read)
            )
            kinds |= dict.fromkeys(known(document, (*path, "at"), things.at, ontology.zones, "zone"), read)
    return Frequencies(levels, under, damaged, facts, tuple(never), one_place, kinds)


def _never(document: Document, path: Path, form: NeverForm, ontology: Ontology) -> Never:
    if not (form.read or form.said):
        what = "no reading is named, so nothing would be left of the mark"
        document.problems.append(document.problem(path, what, "Name some under read, or words under said."))
    signs, zones = ontology.signs, ontology.zones
    of = known(document, (*path, "of"), form.of, signs, "sign") or signs
    at = known(document, (*path, "at"), form.at, zones, "zone") or zones
    return Never(
        frozenset(of) - frozenset(known(document, (*path, "but"), form.but, signs, "sign")),
        frozenset(at) - frozenset(known(document, (*path, "not_at"), form.not_at, zones, "zone")),
        dict(_levels(document, (*path, "read"), form.read, ontology)),
        frozenset(known(document, (*path, "said"), form.said, _said(ontology), "observation of several")),
        form.because,
        document.place(path),
    )


def _levels(
    document: Document, path: Path, read: Mapping[str, list[LevelSaid]], ontology: Ontology
) -> Iterator[tuple[str, frozenset[int]]]:
    for scale in known_scales(document, path, read, ontology):
        told = ontology.scales[scale]
        levels = [level_of(document, (*path, scale, index), told, one) for index, one in enumerate(read[scale])]
        yield scale, frozenset(level for level in levels if level is not None)


def _said(ontology: Ontology) -> list[str]:
    """The observations by which an answer is recorded: those of levels that have several."""
    levels = [level for scale in ontology.scales.values() for level in scale.levels]
    return [one.say for level in levels if len(level.observations) > 1 for one in level.observations]


def _once(document: Document, path: Path, names: Iterable[str], taken: Iterable[str]) -> list[str]:
    """The names that no file has spoken about yet; the others become problems."""
    new = []
    for name in names:
        if name in taken:
            document.problems.append(document.problem((*path, name), f'"{name}" already has its shares', "Keep one."))
        else:
            new.append(name)
    return new


def _shares(document: Document, path: Path, form: SharesForm, levels: int) -> Shares:
    return Shares(
        _column(document, (*path, "sound"), form.sound, levels),
        _column(document, (*path, "damaged"), form.damaged, levels),
    )


def _column(document: Document, path: Path, parts: list[float], levels: int) -> tuple[float, ...]:
    if len(parts) != levels or not sum(parts):
        what = f"{len(parts)} shares for a scale of {levels} levels" if sum(parts) else "nothing but noughts"
        document.problems.append(document.problem(path, what, "Give one for each level, best first."))
        return tuple(1 / levels for _ in range(levels))
    return tuple(part / sum(parts) for part in parts)


def _fact(document: Document, path: Path, given: Mapping[str, float], values: list[str]) -> dict[str, float]:
    said = known(document, path, given, values, "value")
    missing = [value for value in values if value not in said]
    if missing or not sum(given.values()):
        hint = "Give every value its share."
        document.problems.append(document.problem(path, f"nothing for {', '.join(missing) or 'any value'}", hint))
        return {value: 1 / len(values) for value in values}
    whole = sum(given[value] for value in values)
    return {value: given[value] / whole for value in values}
