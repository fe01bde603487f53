"""The shape of a knowledge file, as pydantic forms. What the words mean is resolved in `vocabulary` and `rulebook`."""

from __future__ import annotations

from typing import Annotated, Any, Literal

from pydantic import Field, StringConstraints

from triage.parsing.forms import Form

Id = Annotated[str, StringConstraints(pattern=r"^[a-z][a-z0-9_]*$")]
RuleId = Annotated[str, StringConstraints(pattern=r"^[a-z0-9]+(-[a-z0-9]+)*(/[a-z0-9]+(-[a-z0-9]+)*)+$")]
Text = Annotated[str, StringConstraints(min_length=1, strip_whitespace=True)]
YesNo = Literal["yes", "no"]
Fraction = Annotated[float, Field(gt=0, lt=1)]
BasisKind = Literal["common practice", "estimate", "published"]
LevelSaid = int | str
Levels = dict[str, LevelSaid]


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


class SuspectForm(Form):
    zone: str
    sign: str


class AdviceForm(Form):
    caution: Text | None = None
    do: Text | None = None
    never: Text | None = None
    recheck: Text | None = None


class CaseForm(Form):
    given: dict[str, Any] = Field(min_length=1)
    expect: Literal["fires", "silent"]


class RuleForm(Form):
    id: RuleId
    when: dict[str, Any] | Literal["always"]
    raises: Levels = {}
    suspects: list[SuspectForm] = []
    advises: list[AdviceForm] = []
    presumes: Levels = {}
    because: Text
    basis: BasisKind
    source: str = ""
    where: str = ""
    cases: list[CaseForm] = Field(min_length=1)


class PromiseForm(Form):
    id: RuleId
    says: Text
    when: dict[str, Any] | Literal["always"]
    not_answered: list[str] | Literal["named checks"] = []
    at_least: Levels = {}
    worst_at_least: Levels = {}
    advises: list[Literal["caution", "do", "never", "recheck"]] = []
    because: Text
