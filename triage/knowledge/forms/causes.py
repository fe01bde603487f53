"""The shape of causes and of the figures that weigh them."""

from __future__ import annotations

from typing import Literal

from pydantic import Field

from triage.knowledge.forms.atoms import BasisKind, Fraction, Id, Text
from triage.knowledge.forms.rules import SuspectForm
from triage.parsing.forms import Form


class LeavesForm(Form):
    zone: str
    sign: str
    strength: str


class FollowUpForm(Form):
    zone: str
    check: str
    side: Literal["same", "other", "both"] = "both"
    strength: str
    because: Text


class AtWorkForm(Form):
    tell: Text
    shown_by: list[SuspectForm] = []
    cure: Text


class CauseForm(Form):
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


class StrengthForm(Form):
    chance: Fraction
    says: Text


class AnswersForm(Form):
    yes_if_so: Fraction
    yes_if_not: Fraction


class WordForm(Form):
    at_least: float = Field(ge=0, lt=1)
    says: Text


class WeightsForm(Form):
    strengths: dict[Id, StrengthForm] = Field(min_length=1)
    priors: dict[Id, Fraction] = Field(min_length=1)
    leak: Fraction
    suspected: Fraction
    answers: AnswersForm
    words: list[WordForm] = Field(min_length=1)
    story_from: str
    follow_from: str
    alike: float = Field(ge=1)
    gravity: dict[str, float]
    criticality: dict[Literal["primary", "secondary", "none"], float] = Field(min_length=3)
    basis: BasisKind
    source: str = ""
    where: str = ""
