"""The lexicon (the section ``words`` of a file), from forms to frozen data."""

from __future__ import annotations

from collections.abc import Iterable

from triage.knowledge.forms.lexicon import LexiconForm
from triage.knowledge.model import SIDES
from triage.knowledge.model.lexicon import QUESTIONS, Lexicon, SignTerms, SizeUse, ZoneTerms
from triage.knowledge.readers.references import Loaded, Ontology, known
from triage.knowledge.readers.speech import read_speech
from triage.parsing.documents import Document, Path
from triage.parsing.quantities import NotAQuantity, in_unit

SIZED_IN = ("mm", "L")


def read_lexicon(files: Loaded, ontology: Ontology) -> Lexicon:
    """The lexicon of all files together; problems go to the documents they stand in."""
    reader = _Reader(ontology)
    for document, form in files:
        if form.words is not None:
            reader.read(document, form.words)
    return Lexicon(
        zones=reader.zones,
        signs=reader.signs,
        ignored=frozenset(reader.ignored),
        denials=frozenset(reader.denials),
        doubts=frozenset(reader.doubts),
        asides=frozenset(reader.asides),
        sides=reader.sides,
        taken_as=reader.taken_as,
        readings=reader.readings,
        asking=reader.asking,
        could_not_tell=tuple(reader.could_not_tell),
        speech=read_speech(files, ontology),
    )


class _Reader:
    def __init__(self, ontology: Ontology) -> None:
        self.ontology = ontology
        self.zones: dict[str, ZoneTerms] = {}
        self.signs: dict[str, SignTerms] = {}
        self.ignored: list[str] = []
        self.denials: list[str] = []
        self.doubts: list[str] = []
        self.asides: list[str] = []
        self.sides: dict[str, tuple[str, ...]] = {}
        self.taken_as: dict[str, str] = {}
        self.readings: dict[str, SizeUse] = {}
        self.asking: dict[str, tuple[str, ...]] = {}
        self.could_not_tell: list[str] = []

    def read(self, document: Document, form: LexiconForm) -> None:
        path: Path = ("words", "zones")
        for zone in self.once(
            document, path, known(document, path, form.zones, self.ontology.zones, "zone"), self.zones
        ):
            self.zones[zone] = ZoneTerms(form.zones[zone].picture, tuple(form.zones[zone].said))
        path = ("words", "signs")
        for sign in self.once(
            document, path, known(document, path, form.signs, self.ontology.signs, "sign"), self.signs
        ):
            given = form.signs[sign]
            self.signs[sign] = SignTerms(tuple(given.said), self.usual(document, (*path, sign), given.usual_in))
        self.ignored.extend(form.ignored)
        self.denials.extend(form.denials)
        self.doubts.extend(form.doubts)
        self.asides.extend(form.asides)
        for side in known(document, ("words", "sides"), form.sides, SIDES, "side"):
            self.sides[side] = tuple(form.sides[side])
        for index, size in enumerate(form.sizes.taken_as if form.sizes else ()):
            self.size(document, ("words", "sizes", "taken_as", index, "is"), size.is_)
            self.taken_as.update(dict.fromkeys(size.said, size.is_))
        measured = [scale.id for scale in self.ontology.scales.values() if scale.measure]
        for scale in known(document, ("words", "readings"), form.readings, measured, "scale that can be measured"):
            use = form.readings[scale]
            self.readings[scale] = SizeUse(tuple(use.beside), use.alone == "yes")
        for outcome in known(document, ("words", "asking"), form.asking, QUESTIONS, "question"):
            self.asking[outcome] = tuple(form.asking[outcome])
        self.could_not_tell.extend(form.could_not_tell)

    def once(self, document: Document, path: Path, names: Iterable[str], taken: Iterable[str]) -> list[str]:
        """The names that no file has spoken about yet; the others become problems."""
        taken = set(taken)
        for name in taken.intersection(names):
            document.problems.append(document.problem((*path, name), f'"{name}" already has its words', "Keep one."))
        return [name for name in names if name not in taken]

    def usual(self, document: Document, path: Path, given: list[str]) -> frozenset[str]:
        """Zones and groups of zones, as zones."""
        both = [*self.ontology.groups, *self.ontology.zones]
        named = known(document, (*path, "usual_in"), given, both, "zone or group")
        groups = self.ontology.groups
        return frozenset(zone for name in named for zone in (groups[name].zones if name in groups else (name,)))

    def size(self, document: Document, path: Path, said: str) -> None:
        for unit in SIZED_IN:
            try:
                in_unit(said, unit)
                return
            except NotAQuantity:
                continue
        document.problems.append(document.problem(path, f'"{said}" is no length or volume', "Write it as 100 mm."))
