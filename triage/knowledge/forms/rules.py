"""The shape of rules, presumptions and promises."""

from __future__ import annotations

from typing import Any, Literal

from pydantic import Field

from triage.knowledge.forms.atoms import BasisKind, Levels, RuleId, Text
from triage.parsing.forms import Form


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
