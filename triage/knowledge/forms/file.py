"""The shape of a knowledge file as a whole."""

from __future__ import annotations

from typing import Any

from triage.knowledge.forms.atoms import Id, Text
from triage.knowledge.forms.causes import CauseForm, WeightsForm
from triage.knowledge.forms.events import EventForm, EventRuleForm, TellingForm
from triage.knowledge.forms.everyday import EverydayForm
from triage.knowledge.forms.frequencies import FrequenciesForm
from triage.knowledge.forms.lexicon import LexiconForm
from triage.knowledge.forms.ontology import (
    CheckForm,
    FactForm,
    GroupForm,
    LegForm,
    OfferForm,
    ScaleForm,
    SignForm,
    SourceForm,
    ZoneForm,
)
from triage.knowledge.forms.purchase import AdvertForm, FigureForm, GearForm, SaleSignForm, ViewingForm
from triage.knowledge.forms.repairs import HazardForm, PricesForm
from triage.knowledge.forms.sums import SumForm
from triage.knowledge.forms.teaching import ConfusionForm, LessonForm, TeachingForm
from triage.parsing.forms import Form


class KnowledgeFile(Form):
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
    events: dict[Id, EventForm] = {}
    event_rules: list[EventRuleForm] = []
    telling: TellingForm | None = None
    frequencies: FrequenciesForm | None = None
    words: LexiconForm | None = None
    everyday: EverydayForm | None = None
    figures: dict[Id, FigureForm] = {}
    gear: dict[Id, GearForm] = {}
    sale: dict[Id, SaleSignForm] = {}
    viewing: ViewingForm | None = None
    advert: AdvertForm | None = None
    sums: dict[Id, SumForm] = {}
    confusions: dict[Id, ConfusionForm] = {}
    lessons: dict[Id, LessonForm] = {}
    teaching: TeachingForm | None = None
    rules: list[Any] = []
    promises: list[Any] = []
    repairs: list[Any] = []
