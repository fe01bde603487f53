"""The shape of how often things are met."""

from __future__ import annotations

from typing import Literal

from pydantic import Field

from triage.knowledge.forms.atoms import Parts
from triage.parsing.forms import Form


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
