"""Phrases with alternatives, and sizes, as a rules file writes them."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from itertools import product

from triage.knowledge.forms.speech import DimensionForm
from triage.knowledge.model.speech import Ways
from triage.parsing.documents import Document, Path
from triage.parsing.quantities import NotAQuantity, in_unit


def ways(given: Mapping[str, Sequence[str]]) -> Ways:
    """Each list in every way of saying it."""
    return {name: every_way(said) for name, said in given.items()}


def every_way(said: Sequence[str]) -> tuple[str, ...]:
    """Each phrase in every way of saying it: "hits/hit a/the/- wall" is six, of which two have no article."""
    rows = (product(*(word.split("/") for word in phrase.split())) for phrase in said)
    return tuple(dict.fromkeys(" ".join(word for word in row if word != "-") for every in rows for row in every))


def limits(form: DimensionForm) -> tuple[float, float]:
    """From which size a figure is one of these where no word tells, and over which it is none, in mm."""
    unsaid_from, most = (in_unit(said, "mm") if said else math.inf for said in (form.unsaid_from, form.most))
    return unsaid_from, most


def check_size(document: Document, path: Path, said: str, units: Sequence[str] = ("mm", "L")) -> None:
    """Note a problem where the text is no size in any of these units."""
    for unit in units:
        try:
            in_unit(said, unit)
            return
        except NotAQuantity:
            continue
    document.problems.append(document.problem(path, f'"{said}" is no length or volume', "Write it as 100 mm."))
