"""How often things are met: estimates that decide which question comes first, and never a verdict."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from triage.errors import Place
from triage.knowledge.model.scale import NOWHERE


@dataclass(frozen=True)
class Shares:
    """The share of each level, best first; each column sums to 1.

    ``sound``: where a mark is no more than it looks. ``damaged``: where something has given way beneath or beside it.
    """

    sound: tuple[float, ...]
    damaged: tuple[float, ...]


@dataclass(frozen=True, eq=False)
class Never:
    """What is never met together: on these ``signs`` at these ``zones`` of a boat that is built so (``facts``), left by
    one of these ``causes`` (empty: by whatever), readings at such ``levels`` (by scale) said in one of the words of
    ``said`` (empty: in any). Of neither levels nor words: such a mark there at all.
    """

    signs: frozenset[str]
    zones: frozenset[str]
    causes: frozenset[str]
    facts: Mapping[str, str]
    levels: Mapping[str, frozenset[int]]
    said: frozenset[str]
    because: str
    place: Place = field(default=NOWHERE, compare=False)


@dataclass(frozen=True)
class Frequencies:
    """All estimates of the knowledge.

    ``levels`` by scale, ``under`` by sign and scale where a sign has its own, ``damaged`` by sign: the share of such
    marks with more behind them than they show. ``facts`` by boat fact (and ``encloses_buoyancy``): the share of each
    value. ``never`` is what is not met together at all; ``one_place`` is, by a zone and a scale that it shares with
    others, the first of them; ``kinds`` is, by a zone where one thing or another may lie, what is read of each.
    ``unread`` is, by zone and sign, what nobody reads of it; ``absent`` the parts that it may tell of.
    """

    levels: Mapping[str, Shares] = field(default_factory=dict)
    under: Mapping[tuple[str, str], Shares] = field(default_factory=dict)
    damaged: Mapping[str, float] = field(default_factory=dict)
    facts: Mapping[str, Mapping[str, float]] = field(default_factory=dict)
    never: tuple[Never, ...] = ()
    one_place: Mapping[tuple[str, str], str] = field(default_factory=dict)
    kinds: Mapping[str, tuple[frozenset[str], ...]] = field(default_factory=dict)
    unread: Mapping[tuple[str, str], frozenset[str]] = field(default_factory=dict)
    absent: Mapping[tuple[str, str], tuple[str, ...]] = field(default_factory=dict)
