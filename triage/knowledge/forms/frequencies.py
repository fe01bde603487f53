"""The shape of how often things are met."""

from __future__ import annotations

from typing import Literal

from pydantic import Field

from triage.knowledge.forms.atoms import LevelSaid, Parts, Text
from triage.parsing.forms import Form


class SharesForm(Form):
    """One part for each level of a scale, best first, where a mark is no more than it looks and where it is more."""

    sound: list[Parts]
    damaged: list[Parts]


class SignFrequencyForm(Form):
    """Of a hundred such marks, those with more behind them; ``levels`` where this sign has shares of its own."""

    damaged: float = Field(ge=0, le=100)
    levels: dict[str, SharesForm] = {}


class NeverForm(Form):
    """What is never met together, ``of`` these signs but not those, ``at`` these places and ``not_at`` those, where one
    of these causes left it (``by``) on a boat that is built so (``where``).
    """

    of: list[str] = []
    but: list[str] = []
    at: list[str] = []
    not_at: list[str] = []
    by: list[str] = []
    where: dict[str, str] = {}
    read: dict[str, list[LevelSaid]] = {}
    said: list[str] = []
    because: Text


class UnreadForm(Form):
    """Readings that nobody takes ``of`` these signs ``at`` these places (left out: at any)."""

    of: list[str] = Field(min_length=1)
    at: list[str] = []
    read: list[str] = Field(min_length=1)
    because: Text


class AbsentForm(Form):
    """Marks of which it is to be said what has gone, and what such parts are called there."""

    of: list[str] = Field(min_length=1)
    at: list[str] = Field(min_length=1)
    parts: list[Text] = Field(min_length=1)


class SharedForm(Form):
    """Readings that are the same at all these places, because they are of one fitting."""

    at: list[str] = Field(min_length=2)
    read: list[str] = Field(min_length=1)


class KindsForm(Form):
    """Places where one thing or another lies, and the readings that are of each."""

    at: list[str] = Field(min_length=1)
    read: list[list[str]] = Field(min_length=2)


class FrequenciesForm(Form):
    """How often things are met, by scale, sign and boat fact. It decides what is asked first, and no verdict."""

    basis: Literal["estimate"]
    scales: dict[str, SharesForm] = {}
    signs: dict[str, SignFrequencyForm] = {}
    facts: dict[str, dict[str, Parts]] = {}
    never: list[NeverForm] = []
    shared: list[SharedForm] = []
    kinds: list[KindsForm] = []
    unread: list[UnreadForm] = []
    absent: list[AbsentForm] = []
