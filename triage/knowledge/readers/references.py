"""The ontology: what may be referred to, and how a reference that leads nowhere is told."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, field
from typing import Any

from triage.errors import Place
from triage.knowledge import model
from triage.knowledge.forms.atoms import LevelSaid
from triage.knowledge.forms.causes import CauseForm, WeightsForm
from triage.knowledge.forms.events import EventForm, EventRuleForm
from triage.knowledge.forms.file import KnowledgeFile
from triage.knowledge.forms.ontology import CheckForm, ScaleForm
from triage.knowledge.forms.purchase import AdvertForm, FigureForm, GearForm, SaleSignForm, ViewingForm
from triage.knowledge.forms.repairs import RepairForm
from triage.knowledge.forms.rules import RuleForm
from triage.knowledge.forms.sums import SumForm
from triage.knowledge.forms.teaching import ConfusionForm, LessonForm, SheetForm
from triage.parsing.documents import Document, Path
from triage.parsing.text import did_you_mean

Loaded = list[tuple[Document, KnowledgeFile]]
Sourced = (
    RuleForm
    | ScaleForm
    | CheckForm
    | RepairForm
    | CauseForm
    | WeightsForm
    | EventForm
    | EventRuleForm
    | AdvertForm
    | FigureForm
    | GearForm
    | SaleSignForm
    | SumForm
    | ViewingForm
    | ConfusionForm
    | LessonForm
    | SheetForm
)


@dataclass
class Ontology:
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

    def checks_at(self, place: str) -> tuple[str, ...]:
        """The checks that read anything by which marks there are judged."""
        zone = self.zones[place]
        read = {scale for sign in self.offers[place] for scale in self.signs[sign].scales}
        read.update(zone.also_open, *zone.passed_by)
        return tuple(
            check.id
            for check in self.checks.values()
            if not read.isdisjoint(check.reads) and (not check.only_in or place in check.only_in)
        )


def named(files: Loaded, section: str) -> Iterator[tuple[Document, Path, str, Any]]:
    """Every entry of a section over all files; a name used in two files is a problem."""
    seen: dict[str, Place] = {}
    for document, form in files:
        for key, entry in getattr(form, section).items():
            path: Path = (section, key)
            if key in seen:
                what = f'"{key}" is already at {seen[key]}'
                document.problems.append(document.problem(path, what, "Keep one of them."))
            else:
                seen[key] = document.place(path)
                yield document, path, key, entry


def known(
    document: Document,
    path: Path,
    words: Iterable[str],
    allowed: Iterable[str],
    what: str,
    wrong: Mapping[str, str] | None = None,
) -> tuple[str, ...]:
    """Those of ``words`` that are allowed; the others become problems. ``path`` is the list they stand in.

    ``wrong`` tells of words that exist and do not belong here why they do not.
    """
    allowed = list(allowed)
    good = []
    for index, word in enumerate(words):
        if word in allowed:
            good.append(word)
        else:
            here = (*path, index) if (*path, index) in document.marks else (*path, word)
            what_is_wrong = (wrong or {}).get(word, f'no {what} is called "{word}"')
            hint = did_you_mean(word, allowed) or "Mend the word, or add what it should name."
            document.problems.append(document.problem(here, what_is_wrong, hint))
    return tuple(good)


def known_scales(
    document: Document, path: Path, said: Iterable[str], ontology: Ontology, *, observed: bool = True
) -> tuple[str, ...]:
    """Those of ``said`` that are scales of this kind; the others become problems."""
    why = "is raised by rules, and no check reads it" if observed else "is read by a check, and no rule raises it"
    right = [scale.id for scale in ontology.scales.values() if scale.observed == observed]
    wrong = {scale: f"{scale} {why}" for scale in ontology.scales if scale not in right}
    return known(document, path, said, right, "observed scale" if observed else "derived scale", wrong)


def level_of(document: Document, path: Path, scale: model.Scale, said: LevelSaid) -> int | None:
    """A level given by number or by name."""
    names = [level.name for level in scale.levels]
    if isinstance(said, int) and 0 <= said <= scale.top:
        return said
    if isinstance(said, str) and said in names:
        return names.index(said)
    if isinstance(said, str) and said in map(str, range(len(names))):
        return int(said)
    what = f'{scale.id} has no level "{said}"'
    hint = f"Its levels: {', '.join(f'{number} = {name}' for number, name in enumerate(names))}."
    document.problems.append(document.problem(path, what, hint))
    return None


def basis_of(document: Document, path: Path, form: Sourced, ontology: Ontology) -> model.Basis:
    """Where a statement comes from; published needs a source that was read."""
    kind = form.basis or "common practice"
    if kind != "published":
        given = next((key for key in ("source", "where", "by_analogy") if getattr(form, key)), None)
        if given:
            hint = "Write basis: published, or take source, where and by_analogy out."
            document.problems.append(
                document.problem((*path, given), f'a source is given, but the basis is "{kind}"', hint)
            )
        return model.Basis(kind)
    here = (*path, "basis")
    if form.source:
        known(document, (*path, "source"), [form.source], ontology.sources, "source")
    else:
        hint = f'Add a line "source: …". {did_you_mean("", ontology.sources)}'.strip()
        document.problems.append(document.problem(here, '"published" needs "source"', hint))
    if not form.where:
        hint = 'Add a line "where: …" with the page, clause or table.'
        document.problems.append(document.problem(here, '"published" needs "where"', hint))
    source = ontology.sources.get(form.source)
    if source and source.seen == "no":
        what = f"{form.source} was never read, so nothing can be published from it"
        document.problems.append(document.problem(here, what, "Write basis: common practice or estimate."))
    return model.Basis(kind, form.source, form.where, _analogy(document, here, form, source))


def _analogy(document: Document, here: Path, form: Sourced, source: model.Source | None) -> str:
    """What the source speaks of, where what it says was carried over to small boats; a published basis says whether."""
    if form.by_analogy is None:
        hint = 'Add a line "by_analogy: no" where the source says it of this very thing, else "by_analogy: yes".'
        document.problems.append(document.problem(here, '"published" needs "by_analogy"', hint))
    if form.by_analogy != "yes" or source is None:
        return ""
    if not source.about:
        what = f"{source.id} does not say what else it speaks of, so nothing can be published from it by analogy"
        hint = f'Add "about: …" to {source.id} under sources, or write by_analogy: no.'
        document.problems.append(document.problem(here, what, hint))
    return source.about
