"""The shape of a survey file."""

from __future__ import annotations

import datetime
from typing import Literal

from pydantic import Field

from triage.forms import Form


class BoatForm(Form):
    """The boat. ``length`` as "4.2 m"; ``facts`` as the knowledge names them (deck: single)."""

    name: str = Field(min_length=1, max_length=200)
    length: str = ""
    facts: dict[str, str] = {}
    encloses_buoyancy: dict[str, Literal["yes", "no"]] = {}


class VisitForm(Form):
    """When, by whom, and anything worth remembering."""

    on: datetime.date | None = None
    by: str = Field(default="", max_length=200)
    note: str = Field(default="", max_length=5000)


class FindingForm(Form):
    """One sign in one zone. A reading is a level's name or number, a measured quantity, or "could not tell"."""

    zone: str
    sign: str
    side: Literal["port", "starboard"] | None = None
    readings: dict[str, int | float | str] = {}
    note: str = Field(default="", max_length=5000)
    photos: list[str] = Field(default=[], max_length=50)
    on: datetime.date | None = None
    id: str = Field(default="", max_length=80)


class SurveyForm(Form):
    """One visit to one boat."""

    survey: Literal[1] = 1
    boat: BoatForm
    visit: VisitForm = VisitForm()
    findings: list[FindingForm] = Field(default=[], max_length=300)
