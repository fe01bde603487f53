"""The shape of causes and of the figures that weigh them."""

from __future__ import annotations

from typing import Literal

from pydantic import Field

from triage.knowledge.forms.atoms import BasisKind, Fraction, Id, Text, YesNo
from triage.knowledge.forms.rules import SuspectForm
from triage.parsing.forms import Form


class LeavesForm(Form):
    """A mark that the cause tends to leave: the sign, its zone (or ``anywhere``), and a strength by its name.

    ``unless``: a mark that was read no worse than this, by scale, is none of its.
    """

    zone: str
    sign: str
    strength: str
    unless: dict[str, int] = {}


class FollowUpForm(Form):
    """A check elsewhere that the cause demands. ``side`` counts from the side of the marks that speak for the cause."""

    zone: str
    check: str
    side: Literal["same", "other", "both"] = "both"
    strength: str
    because: Text


class AtWorkForm(Form):
    """For a cause that goes on: how to ``tell``, the marks that it is ``shown_by``, and the ``cure`` that ends it."""

    tell: Text
    shown_by: list[SuspectForm] = []
    cure: Text


class CauseForm(Form):
    """What may have done it. ``ask`` is put to the owner; ``only_if``: the boat facts without which it cannot be."""

    name: Text
    happens: Text
    prior: str
    ask: Text
    only_if: dict[str, str] = {}
    leaves: list[LeavesForm] = Field(min_length=1)
    follow_ups: list[FollowUpForm] = Field(min_length=1)
    still_at_work: AtWorkForm | None = None
    basis: BasisKind
    source: str = ""
    where: str = ""
    by_analogy: YesNo | None = None


class StrengthForm(Form):
    """A named strength: the ``chance`` that an effect shows, and the word that stands before a verb ("often")."""

    chance: Fraction
    says: Text


class AnswersForm(Form):
    """How often an owner says yes to a cause that is so (``yes_if_so``), and to one that is not (``yes_if_not``)."""

    yes_if_so: Fraction
    yes_if_not: Fraction


class WordForm(Form):
    """A word for a chance, and the chance ``at_least`` from which it is used."""

    at_least: float = Field(ge=0, lt=1)
    says: Text


class WeightsForm(Form):
    """The figures that causes are weighed by, in one file only; chances are fractions of 1.

    ``told`` holds by a word what an event that is told is worth as evidence for a cause. ``words`` run from the
    likeliest down to 0. A cause gets a story, or follow-ups, from the word in ``story_from`` or ``follow_from`` on.
    Causes whose odds differ by less than the factor ``alike`` are not told apart. ``gravity`` (of a level of the
    verdict) and ``criticality`` (of a zone) say how much it matters what a check can find.
    """

    strengths: dict[Id, StrengthForm] = Field(min_length=1)
    priors: dict[Id, Fraction] = Field(min_length=1)
    leak: Fraction
    suspected: Fraction
    answers: AnswersForm
    told: dict[Id, AnswersForm] = {}
    words: list[WordForm] = Field(min_length=1)
    story_from: str
    follow_from: str
    alike: float = Field(ge=1)
    gravity: dict[str, float]
    criticality: dict[Literal["primary", "secondary", "none"], float] = Field(min_length=3)
    basis: BasisKind
    source: str = ""
    where: str = ""
    by_analogy: YesNo | None = None
