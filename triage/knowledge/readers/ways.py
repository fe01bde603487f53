"""From the forms of the files to the other ways in which a scale can be told, with every mistake told."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Literal

from triage.knowledge.forms.ontology import ScaleForm
from triage.knowledge.model import Count, Crowd, Pair, PairKind, Ways
from triage.parsing.documents import Document, Path
from triage.parsing.quantities import is_unit, unit_names
from triage.parsing.text import did_you_mean

_WITH_STANDARD: tuple[PairKind, ...] = ("arc", "left")


def read_ways(document: Document, path: Path, form: ScaleForm, levels: int) -> Ways:
    """The pairs, the count and the crowd of a scale with so many levels."""
    pairs = {kind: _pair(document, (*path, "pairs", kind), form, kind) for kind in form.pairs}
    if form.pairs and not form.unit:
        _mistake(document, (*path, "pairs"), "pairs make a quantity, yet there is no unit", "Add a unit and limits.")
    if form.crowd and not form.unit:
        _mistake(document, (*path, "crowd"), "a crowd has a size, yet there is no unit", "Add a unit and limits.")
    count = crowd = None
    if (said := form.count) is not None:
        limits = _limits(document, (*path, "count", "limits"), said.limits, levels)
        share = _limits(document, (*path, "count", "share"), said.share, levels)
        count = Count(said.say, tuple(said.words), limits, share, said.turn)
    if (many := form.crowd) is not None:
        limits = _limits(document, (*path, "crowd", "limits"), many.limits, levels)
        for number, figure in enumerate(many.over):
            if figure not in limits:
                here = (*path, "crowd", "over", number)
                _mistake(document, here, f"no level begins over {figure:g}", "Write a figure that stands under limits.")
        crowd = Crowd(many.say, tuple(many.words), limits, frozenset(many.over))
    return Ways(pairs, count, crowd)


def _pair(document: Document, path: Path, form: ScaleForm, kind: PairKind) -> Pair:
    said = form.pairs[kind]
    if kind == "rate":
        if "/" not in form.unit:
            _mistake(document, path, f'"{form.unit}" is no rate', 'Write a unit such as "L/h", or another pair.')
    elif not is_unit(said.unit):
        hint = did_you_mean(said.unit, unit_names()) or "It can be: mm, L, kg."
        _mistake(document, path, f'nobody measures in "{said.unit}"', hint)
    if (kind in _WITH_STANDARD) is (said.standard is None):
        what = "needs a standard" if said.standard is None else "has a standard that nothing is compared with"
        hint = "Add standard: the length or head, in the scale's unit." if said.standard is None else "Take it out."
        _mistake(document, path, f"{kind} {what}", hint)
    return Pair(kind, said.say, said.unit, said.standard)


def _limits(
    document: Document, path: Path, said: Sequence[float | Literal["none"]], levels: int
) -> tuple[float | None, ...]:
    limits = tuple(None if one == "none" else one for one in said)
    figures = [one for one in limits if one is not None]
    if len(limits) != levels - 1 or figures != sorted(figures) or not figures:
        hint = f"Write {levels - 1} of them, from mild to grave, none for a level without a figure."
        _mistake(document, path, "these limits do not fit the levels", hint)
    return limits


def _mistake(document: Document, path: Path, what: str, hint: str) -> None:
    document.problems.append(document.problem(path, what, hint))
