"""The shape of what is known of buying, beside its scales, rules and promises."""

from __future__ import annotations

from typing import Annotated, Literal

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
    """What it costs to replace something that is ``missing`` or ``spent``; ``complete``: a complete boat has it.

    ``asks_age``: a buyer is asked how old it is; after ``spent_after`` years it is counted as spent. ``means`` says
    it in plain words, ``told`` is what an advert calls it; a new one mends all damage ``at`` these places.
    """

    name: Text
    told: list[Text] = []
    means: str = ""
    at: list[str] = []
    missing: tuple[float, float]
    spent: tuple[float, float] | None = None
    complete: YesNo
    asks_age: YesNo = "no"
    spent_after: Annotated[int, Field(gt=0, le=100)] | None = None
    note: str = ""
    basis: BasisKind
    source: str = ""
    where: str = ""
    by_analogy: YesNo | None = None


class SaleSignForm(Form):
    """Something noticed about the sale, other words for it in an offer (``heard``) and in a story (``told``, and words
    that tell it ``together``), the scale that it ``counts`` for, if any, and what it ``asks`` the seller before;
    ``damage``: the words for it may tell of damage, too.
    """

    say: Text
    heard: list[Text] = []
    told: list[Text] = []
    together: Annotated[list[list[Text]], Field(min_length=2, max_length=2)] | None = None
    counts: str = ""
    asks: str = ""
    damage: YesNo = "no"
    basis: BasisKind
    source: str = ""
    where: str = ""
    by_analogy: YesNo | None = None


class MoneyWordsForm(Form):
    """Words beside money that say what it is: what is asked, a budget, what sound ones cost, or something else."""

    asking: list[Text] = Field(min_length=1)
    budget: list[Text] = []
    sound: list[Text] = []
    other: list[Text] = Field(min_length=1)


class AdvertForm(Form):
    """Words of an advert: beside ``money``; before the year she was ``built``, her ``number`` and where she ``lives``;
    beside gear that is not with her (``without``) or spent (``worn``).
    """

    money: MoneyWordsForm
    built: list[Text] = Field(min_length=1)
    number: list[Text] = Field(min_length=1)
    lives: list[Text] = Field(min_length=1)
    without: list[Text] = Field(min_length=1)
    worn: list[Text] = Field(min_length=1)
    basis: BasisKind
    source: str = ""
    where: str = ""
    by_analogy: YesNo | None = None


class AskForm(Form):
    """What to ``say`` to a seller, ``unless`` the offer tells it."""

    say: Text
    unless: Literal["number", "ages", "afloat"]


class SettingUpForm(Form):
    """What has to be done once before the places of a leg can be reached (``say``), and its ``minutes``."""

    say: Text
    minutes: Annotated[float, Field(gt=0, le=120)]


class AfloatForm(Form):
    """A boat that lies in the water: words for that (``heard`` in what is said of where she lives, ``told`` in an
    advert), which legs of the walk are ``beyond`` reach, where one ``stands`` for the others, what it ``asks``.
    """

    say: Text
    heard: list[Text] = Field(min_length=1)
    told: list[Text] = Field(min_length=1)
    beyond: list[Text] = Field(min_length=1)
    stands: dict[str, Text] = {}
    asks: list[Text] = []


class ViewingForm(Form):
    """For the evening before: what to ask the seller (``asks``), what to ``bring``, what ``photos_show`` and
    ``photos_hide``; ``setting_up`` is by leg of the walk; ``afloat`` what is otherwise for a boat in the water.
    """

    asks: list[Text | AskForm] = Field(min_length=1, max_length=8)
    bring: list[Text] = []
    photos_show: list[Text] = Field(min_length=1)
    photos_hide: list[Text] = Field(min_length=1)
    setting_up: dict[str, SettingUpForm] = {}
    afloat: AfloatForm | None = None
    basis: BasisKind
    source: str = ""
    where: str = ""
    by_analogy: YesNo | None = None
