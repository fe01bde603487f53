"""Frequencies, from forms to frozen data."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from triage.knowledge.forms.frequencies import SharesForm
from triage.knowledge.model import BUOYANCY
from triage.knowledge.model.frequencies import Frequencies, Shares
from triage.knowledge.readers.references import Loaded, Ontology, known
from triage.knowledge.readers.true_boats import read_true_boats
from triage.parsing.documents import Document, Path


def read_frequencies(files: Loaded, ontology: Ontology) -> Frequencies:
    """The estimates of all files together; problems go to the documents they stand in."""
    levels: dict[str, Shares] = {}
    under: dict[tuple[str, str], Shares] = {}
    damaged: dict[str, float] = {}
    facts: dict[str, Mapping[str, float]] = {}
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
    return Frequencies(levels, under, damaged, facts, **read_true_boats(files, ontology))


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
