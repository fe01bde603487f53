"""The shape of what a file may hold beyond places, signs, scales, checks and rules; and of a file as a whole."""

from __future__ import annotations

from typing import Annotated, Any, Literal

from pydantic import Field

from triage.knowledge.schema import (
    BasisKind,
    CheckForm,
    FactForm,
    Fraction,
    GroupForm,
    Id,
    LegForm,
    LevelSaid,
    OfferForm,
    RuleId,
    ScaleForm,
    SignForm,
    SourceForm,
    SuspectForm,
    Text,
    YesNo,
    ZoneForm,
)
from triage.parsing.forms import Form


class HazardForm(Form):
    name: Text
    where: Text
    say: Text


class PricesForm(Form):
    year: int = Field(ge=2000, le=2100)
    unit: Text
    note: Text
    labour: tuple[float, float]


class RepairForm(Form):
    id: RuleId
    name: Text
    when: dict[str, Any] = Field(min_length=1)
    who: LevelSaid
    outline: list[Text] = Field(min_length=1)
    hours: tuple[float, float] | None = None
    materials: tuple[float, float] | None = None
    repairer: tuple[float, float] | None = None
    per: str = ""
    wait: str = ""
    meanwhile: Text
    holding: str = ""
    workshop: list[str] = []
    hazards: list[str] = []
    stop_when: list[str] = []
    basis: BasisKind
    source: str = ""
    where: str = ""


Parts = Annotated[float, Field(ge=0)]


class SharesForm(Form):
    sound: list[Parts]
    damaged: list[Parts]


class SignFrequencyForm(Form):
    damaged: float = Field(ge=0, le=100)
    levels: dict[str, SharesForm] = {}


class FrequenciesForm(Form):
    basis: Literal["estimate"]
    scales: dict[str, SharesForm] = {}
    signs: dict[str, SignFrequencyForm] = {}
    facts: dict[str, dict[str, Parts]] = {}


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


class PlaceWordsForm(Form):
    picture: Text
    said: list[Text] = Field(min_length=1)


class MarkWordsForm(Form):
    said: list[Text] = Field(min_length=1)
    usual_in: list[str] = []


class SizeForm(Form):
    said: list[Text] = Field(min_length=1)
    is_: Text = Field(alias="is")


class SizesForm(Form):
    basis: Literal["estimate"]
    taken_as: list[SizeForm]


class SizeUseForm(Form):
    beside: list[Text] = []
    alone: YesNo = "no"


class WordsForm(Form):
    zones: dict[str, PlaceWordsForm] = {}
    signs: dict[str, MarkWordsForm] = {}
    ignored: list[Text] = []
    denials: list[Text] = []
    asides: list[Text] = []
    sides: dict[str, list[Text]] = {}
    sizes: SizesForm | None = None
    readings: dict[str, SizeUseForm] = {}
    asking: dict[str, list[Text]] = {}
    could_not_tell: list[Text] = []


class VocabularyFile(Form):
    """Everything a file may hold. Rules, promises and repairs are read one by one, so that a bad one hides no other."""

    facts: dict[Id, FactForm] = {}
    groups: dict[Id, GroupForm] = {}
    walk: list[LegForm] = []
    zones: dict[Id, ZoneForm] = {}
    signs: dict[Id, SignForm] = {}
    offers: list[OfferForm] = []
    scales: dict[Id, ScaleForm] = {}
    checks: dict[Id, CheckForm] = {}
    sources: dict[str, SourceForm] = {}
    hazards: dict[Id, HazardForm] = {}
    workshop: dict[Id, Text] = {}
    stops: dict[Id, Text] = {}
    prices: PricesForm | None = None
    causes: dict[Id, CauseForm] = {}
    weights: WeightsForm | None = None
    frequencies: FrequenciesForm | None = None
    words: WordsForm | None = None
    rules: list[Any] = []
    promises: list[Any] = []
    repairs: list[Any] = []
