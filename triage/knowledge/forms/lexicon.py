"""The shape of what people call things."""

from __future__ import annotations

from typing import Literal

from pydantic import Field

from triage.knowledge.forms.atoms import Text, YesNo
from triage.parsing.forms import Form


class ZoneTermsForm(Form):
    picture: Text
    said: list[Text] = Field(min_length=1)


class SignTermsForm(Form):
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


class LexiconForm(Form):
    zones: dict[str, ZoneTermsForm] = {}
    signs: dict[str, SignTermsForm] = {}
    ignored: list[Text] = []
    denials: list[Text] = []
    asides: list[Text] = []
    sides: dict[str, list[Text]] = {}
    sizes: SizesForm | None = None
    readings: dict[str, SizeUseForm] = {}
    asking: dict[str, list[Text]] = {}
    could_not_tell: list[Text] = []
