"""From the forms of the files to scales, their levels and limits, with every mistake told."""

from __future__ import annotations

import math
from dataclasses import replace
from typing import Literal

from triage.knowledge import model
from triage.knowledge.forms.ontology import LevelForm, ScaleForm
from triage.knowledge.readers.observations import read_words
from triage.knowledge.readers.references import Ontology, basis_of, known
from triage.knowledge.readers.ways import read_ways
from triage.parsing.documents import Document, Path
from triage.parsing.quantities import is_unit, unit_names
from triage.parsing.text import did_you_mean


def read_scale(document: Document, path: Path, key: str, form: ScaleForm, ontology: Ontology) -> model.Scale:
    """The scale of this form, with its levels in order."""
    levels = tuple(_level(level) for level in form.levels)
    _read_roles(document, path, key, form)
    read_words(document, path, form)
    if len({level.name for level in levels}) < len(levels):
        document.problems.append(document.problem((*path, "levels"), "two levels have the same name", "Rename one."))
    measure = _measure(document, path, form) if form.unit or form.limits else None
    _read_over(document, path, form)
    observed = form.kind == "observed"
    if observed and not form.asks:
        hint = 'Add a line "asks: …" with the question that it answers.'
        document.problems.append(document.problem(path, '"asks" is missing', hint))
    basis = replace(basis_of(document, path, form, ontology), argued=form.argued) if form.basis else None
    ways = read_ways(document, path, form, len(levels))
    return model.Scale(key, form.name, observed, levels, form.asks, measure, basis, document.place(path), ways)


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


def _measure(document: Document, path: Path, form: ScaleForm) -> model.Measure:
    levels = len(form.levels)
    if len(form.limits) != levels - 1 or not form.unit:
        what = "unit and limits belong together, with one limit for each level from 1 up"
        needed = f"{levels - 1} limits" if levels > 2 else "1 limit"
        hint = f"{levels} levels need {needed}; write none for a level without a figure."
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
    return measure


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
