"""The shape of repairs and of what they share."""

from __future__ import annotations

from typing import Any, Literal

from pydantic import Field

from triage.knowledge.forms.atoms import BasisKind, LevelSaid, RuleId, Text, YesNo
from triage.parsing.forms import Form


class HazardForm(Form):
    """What can hurt somebody during a repair, where that is met, and what to ``say`` about it."""

    name: Text
    where: Text
    say: Text


class PricesForm(Form):
    """What money is counted in: the year, the unit, and an hour at a repairer from least to most."""

    year: int = Field(ge=2000, le=2100)
    unit: Text
    note: Text
    labour: tuple[float, float]


class RepairForm(Form):
    """A family of repairs; of all that fit a finding the first in the files is meant.

    ``hours``, ``materials`` and ``repairer`` run from least to most, each for one of ``per``, money in the unit of
    ``prices``. ``who`` is a level of the hands. ``lets``: what the ``holding`` allows meanwhile. ``covers`` names the
    repairs whose work is done with this one when both marks are one damage. ``workshop``, ``hazards`` and
    ``stop_when`` name shared sentences.
    """

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
    lets: list[Literal["afloat", "tow"]] = []
    workshop: list[str] = []
    hazards: list[str] = []
    stop_when: list[str] = []
    covers: list[RuleId] = []
    basis: BasisKind
    source: str = ""
    where: str = ""
    by_analogy: YesNo | None = None
