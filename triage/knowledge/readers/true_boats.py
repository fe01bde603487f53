"""What true boats are held to: what is never met together, what is shared, what nobody reads, which parts may go."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from typing import TypedDict

from triage.knowledge.forms.atoms import LevelSaid
from triage.knowledge.forms.frequencies import AbsentForm, KindsForm, NeverForm, SharedForm, UnreadForm
from triage.knowledge.model.frequencies import Never
from triage.knowledge.readers.references import Loaded, Ontology, known, known_scales, level_of
from triage.parsing.documents import Document, Path

Mark = tuple[str, str]


class TrueBoats(TypedDict):
    """What of the frequencies is about boats that are drawn, by the names it has there."""

    never: tuple[Never, ...]
    one_place: Mapping[tuple[str, str], str]
    kinds: Mapping[str, tuple[frozenset[str], ...]]
    unread: Mapping[Mark, frozenset[str]]
    absent: Mapping[Mark, tuple[str, ...]]


def read_true_boats(files: Loaded, ontology: Ontology) -> TrueBoats:
    """All that the files say of it together; problems go to the documents they stand in."""
    never: list[Never] = []
    one_place: dict[tuple[str, str], str] = {}
    kinds: dict[str, tuple[frozenset[str], ...]] = {}
    unread: dict[Mark, frozenset[str]] = {}
    absent: dict[Mark, tuple[str, ...]] = {}
    causes = [cause for _, form in files for cause in form.causes]
    for document, form in files:
        given = form.frequencies
        if given is None:
            continue
        for number, one in enumerate(given.never):
            never.append(_never(document, ("frequencies", "never", number), one, ontology, causes))
        for number, shared in enumerate(given.shared):
            one_place |= _shared(document, ("frequencies", "shared", number), shared, ontology)
        for number, things in enumerate(given.kinds):
            kinds |= _kinds(document, ("frequencies", "kinds", number), things, ontology)
        for number, idle in enumerate(given.unread):
            for mark, scales in _unread(document, ("frequencies", "unread", number), idle, ontology):
                unread[mark] = unread.get(mark, frozenset()) | scales
        for number, gone in enumerate(given.absent):
            absent |= _absent(document, ("frequencies", "absent", number), gone, ontology)
    return TrueBoats(never=tuple(never), one_place=one_place, kinds=kinds, unread=unread, absent=absent)


def _shared(document: Document, path: Path, form: SharedForm, ontology: Ontology) -> dict[tuple[str, str], str]:
    zones = known(document, (*path, "at"), form.at, ontology.zones, "zone")
    scales = known_scales(document, (*path, "read"), form.read, ontology)
    return {(zone, scale): zones[0] for scale in scales for zone in zones}


def _kinds(
    document: Document, path: Path, form: KindsForm, ontology: Ontology
) -> dict[str, tuple[frozenset[str], ...]]:
    read = tuple(
        frozenset(known_scales(document, (*path, "read", index), scales, ontology))
        for index, scales in enumerate(form.read)
    )
    return dict.fromkeys(known(document, (*path, "at"), form.at, ontology.zones, "zone"), read)


def _unread(
    document: Document, path: Path, form: UnreadForm, ontology: Ontology
) -> Iterator[tuple[Mark, frozenset[str]]]:
    scales = frozenset(known_scales(document, (*path, "read"), form.read, ontology))
    signs = known(document, (*path, "of"), form.of, ontology.signs, "sign")
    for zone in known(document, (*path, "at"), form.at, ontology.zones, "zone") or ontology.zones:
        yield from (((zone, sign), scales) for sign in signs)


def _absent(document: Document, path: Path, form: AbsentForm, ontology: Ontology) -> dict[Mark, tuple[str, ...]]:
    zones = known(document, (*path, "at"), form.at, ontology.zones, "zone")
    signs = known(document, (*path, "of"), form.of, ontology.signs, "sign")
    return {(zone, sign): tuple(form.parts) for zone in zones for sign in signs}


def _never(document: Document, path: Path, form: NeverForm, ontology: Ontology, causes: Iterable[str]) -> Never:
    if not (form.read or form.said or (form.of and form.at)):
        what = "no reading is named, so nothing would be left of the mark"
        hint = "Name some under read, or words under said, or the places where such a mark is not met."
        document.problems.append(document.problem(path, what, hint))
    signs, zones = ontology.signs, ontology.zones
    of = known(document, (*path, "of"), form.of, signs, "sign") or signs
    at = known(document, (*path, "at"), form.at, zones, "zone") or zones
    return Never(
        frozenset(of) - frozenset(known(document, (*path, "but"), form.but, signs, "sign")),
        frozenset(at) - frozenset(known(document, (*path, "not_at"), form.not_at, zones, "zone")),
        frozenset(known(document, (*path, "by"), form.by, causes, "cause")),
        dict(_facts(document, (*path, "where"), form.where, ontology)),
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


def _facts(document: Document, path: Path, where: Mapping[str, str], ontology: Ontology) -> Iterator[tuple[str, str]]:
    for fact in known(document, path, where, ontology.facts, "boat fact"):
        for value in known(document, (*path, fact), [where[fact]], ontology.facts[fact].values, "value"):
            yield fact, value


def _said(ontology: Ontology) -> list[str]:
    """The observations by which an answer is recorded: those of levels that have several."""
    levels = [level for scale in ontology.scales.values() for level in scale.levels]
    return [one.say for level in levels if len(level.observations) > 1 for one in level.observations]
