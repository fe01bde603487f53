"""The shape of what a boat is made of: facts, places, signs, scales, checks and sources."""

from __future__ import annotations

from typing import Literal

from pydantic import Field

from triage.knowledge.forms.atoms import BasisKind, Id, Levels, LevelSaid, Text, YesNo
from triage.parsing.forms import Form


class FactForm(Form):
    asks: Text
    values: dict[Id, Text] = Field(min_length=1)
    find_out: str = ""


class GroupForm(Form):
    name: Text
    zones: list[str] = Field(min_length=1)


class LegForm(Form):
    leg: Id
    name: Text
    stand: Text
    zones: list[str] = Field(min_length=1)


class ZoneForm(Form):
    name: Text
    trade: Text
    load: Literal["rig", "crew", "grounding", "foil", "steering", "lifting", "pressure", "road", "none"]
    criticality: Literal["primary", "secondary", "none"]
    below_water: Literal["no", "part", "yes"]
    encloses_buoyancy: Literal["no", "varies", "yes"]
    sided: YesNo = "no"
    neighbours: list[str] = []
    reached: Text
    trouble: Text
    compare: str = ""
    passed_by: list[list[str]] = Field(min_length=1)
    how_passed: Text
    also_open: list[str] = []
    named_checks: YesNo | None = None
    only_if: dict[str, str] = {}


class CapForm(Form):
    at_most: LevelSaid
    otherwise: str = Field(alias="else")


class SignForm(Form):
    name: Text
    picture: Text
    not_this: str = ""
    about: list[str] = []
    about_in: dict[str, list[str]] = {}
    scales: list[str] = []
    caps: dict[str, CapForm] = {}
    least: Levels = {}
    above_zero: list[str] = []
    named_checks: Literal["all", "first", "none"] = "all"
    also_named: list[str] = []
    harmless: str = ""


class OfferForm(Form):
    zones: list[str] = Field(min_length=1)
    signs: list[str] = Field(min_length=1)


class LevelForm(Form):
    name: Text
    phrase: Text
    means: str = ""
    role: str = ""
    kept_for: str = ""


class ScaleForm(Form):
    kind: Literal["observed", "derived"]
    name: Text
    levels: list[LevelForm] = Field(min_length=2, max_length=4)
    asks: str = ""
    unit: str = ""
    limits: list[float | Literal["any", "always", "none"]] = []
    worse: Literal["larger", "smaller"] = "larger"
    measures: str = ""
    most: float | None = None
    basis: BasisKind | None = None
    source: str = ""
    where: str = ""


class CheckForm(Form):
    name: Text
    reads: list[str] = Field(min_length=1)
    steps: list[Text] = Field(min_length=1)
    tools: list[str] = []
    minutes: float = Field(gt=0, le=600)
    dismantling: Literal["none", "partial", "off"]
    helper: YesNo = "no"
    loads: YesNo = "no"
    care: str = ""
    misses: float = Field(ge=0, lt=1)
    false_alarms: float = Field(ge=0, lt=1)
    only_in: list[str] = []
    basis: BasisKind = "estimate"
    source: str = ""
    where: str = ""


class SourceForm(Form):
    title: Text
    seen: Literal["text", "excerpt", "no"]
    note: str = ""
