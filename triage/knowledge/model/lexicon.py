"""The lexicon: the phrases that lead from somebody's own sentence to a zone, a sign and a size."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from triage.knowledge.model.ontology import OUTCOMES
from triage.knowledge.model.purchase import DECISION
from triage.knowledge.model.speech import Speech

QUESTIONS = (*OUTCOMES, DECISION, "cost", "mend", "cause")
"""What somebody may want to know at any prompt."""


@dataclass(frozen=True)
class ZoneTerms:
    """What people call a zone (``said``), and the zone as a picture in words."""

    picture: str
    said: tuple[str, ...]


@dataclass(frozen=True)
class SignTerms:
    """What people call a sign (``said``), and the zones in which such phrases most often mean this sign."""

    said: tuple[str, ...]
    usual_in: frozenset[str]


@dataclass(frozen=True)
class SizeUse:
    """When a size is a reading of a scale: with one of these words in the sentence, or with nothing else said."""

    beside: tuple[str, ...]
    alone: bool


@dataclass(frozen=True)
class Lexicon:
    """What people say, by what it stands for. ``ignored`` words say nothing; a word after a denial ("no cracks") is
    not matched, and words after one of ``asides`` ("below the mast") count for less.

    ``taken_as`` turns a size without a ruler ("hand") into a quantity ("100 mm"), as an estimate.

    ``asking`` holds, by outcome, how people ask for it; ``could_not_tell``, how they say that they do not know.
    ``speech`` is what whole stories are heard by.
    """

    zones: Mapping[str, ZoneTerms] = field(default_factory=dict)
    signs: Mapping[str, SignTerms] = field(default_factory=dict)
    ignored: frozenset[str] = frozenset()
    denials: frozenset[str] = frozenset()
    doubts: frozenset[str] = frozenset()
    asides: frozenset[str] = frozenset()
    sides: Mapping[str, tuple[str, ...]] = field(default_factory=dict)
    taken_as: Mapping[str, str] = field(default_factory=dict)
    readings: Mapping[str, SizeUse] = field(default_factory=dict)
    asking: Mapping[str, tuple[str, ...]] = field(default_factory=dict)
    could_not_tell: tuple[str, ...] = ()
    speech: Speech = field(default_factory=Speech)
