"""The shape of what is known of buying, beside its scales, rules and promises."""

from __future__ import annotations

from pydantic import Field

from triage.knowledge.forms.atoms import BasisKind, Text, YesNo
from triage.parsing.forms import Form


class FigureForm(Form):
    """What a figure ``is`` (one, or several from the least to the most), and what that means."""

    values: list[float] = Field(alias="is", min_length=1)
    say: Text
    basis: BasisKind
    source: str = ""
    where: str = ""
    by_analogy: YesNo | None = None


class GearForm(Form):
    """What it costs to replace something that is ``missing`` or ``spent``; ``complete``: a complete boat has it."""

    name: Text
    missing: tuple[float, float]
    spent: tuple[float, float] | None = None
    complete: YesNo
    note: str = ""
    basis: BasisKind
    source: str = ""
    where: str = ""
    by_analogy: YesNo | None = None


class SaleSignForm(Form):
    """Something noticed about the sale, other words for it (``heard``), and the scale that it ``counts`` for."""

    say: Text
    heard: list[Text] = []
    counts: str
    basis: BasisKind
    source: str = ""
    where: str = ""
    by_analogy: YesNo | None = None


class ViewingForm(Form):
    """For the evening before: what to ask the seller (``asks``), what to ``bring``, what ``photos_show`` and
    ``photos_hide``.
    """

    asks: list[Text] = Field(min_length=1, max_length=8)
    bring: list[Text] = []
    photos_show: list[Text] = Field(min_length=1)
    photos_hide: list[Text] = Field(min_length=1)
    basis: BasisKind
    source: str = ""
    where: str = ""
    by_analogy: YesNo | None = None
