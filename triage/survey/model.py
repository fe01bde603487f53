"""A survey as frozen data: the boat's facts and its findings, every reading already a level."""

from __future__ import annotations

import datetime
from collections.abc import Mapping, Set
from dataclasses import dataclass, field, replace
from functools import cached_property
from typing import Any

from triage.knowledge.model import BUOYANCY, NOTHING_SEEN, OTHER_SIDE, KnowledgeBase, Zone
from triage.knowledge.model.event import UNKNOWN

Day = datetime.date
"""On which a visit was made, or a mark was seen."""

COULD_NOT_TELL = "could not tell"
"""The answer of somebody who tried and found no answer."""


@dataclass(frozen=True)
class Reading:
    """One answer: the levels that it may mean, from ``low`` to ``high``, usually one and the same.

    Both are None for "could not tell", which stays unknown and is not asked again. ``said`` is the answer as it was
    given; ``measured`` the least and the most of the quantity in the scale's own unit, if it was one.
    """

    low: int | None
    high: int | None
    said: str
    measured: tuple[float, float] | None = None

    @classmethod
    def at(cls, level: int, said: str = "") -> Reading:
        """An answer that means one level; ``said`` is its number where nothing else was said."""
        return cls(level, level, said or str(level))

    @classmethod
    def attempted(cls, said: str = COULD_NOT_TELL) -> Reading:
        """Tried, and nobody could tell."""
        return cls(None, None, said)

    @property
    def told(self) -> bool:
        """Whether it says anything about the level."""
        return self.low is not None


@dataclass(frozen=True)
class Finding:
    """One sign in one zone."""

    id: str
    zone: str
    sign: str
    side: str | None = None
    readings: Mapping[str, Reading] = field(default_factory=dict)
    note: str = ""
    photos: tuple[str, ...] = ()
    seen_on: datetime.date | None = None

    @cached_property
    def lower(self) -> Mapping[str, int]:
        """The mildest level that each answer may mean, by scale."""
        return {scale: reading.low for scale, reading in self.readings.items() if reading.low is not None}

    @cached_property
    def upper(self) -> Mapping[str, int]:
        """The gravest level that each answer may mean, by scale."""
        return {scale: reading.high for scale, reading in self.readings.items() if reading.high is not None}

    @property
    def answered(self) -> Set[str]:
        """The scales of which something is known."""
        return self.upper.keys()

    @property
    def is_look(self) -> bool:
        """Whether it is a part looked at without a mark: no reading may be above the best. Rules judge marks alone."""
        return self.sign == NOTHING_SEEN and not any(self.upper.values())


A_SEASON = datetime.timedelta(days=365)
"""From one season's sailing to the same time of the next."""


@dataclass(frozen=True)
class Happened:
    """An event that somebody told: how hard it was (light, hard), and when (today, this season, earlier) or on which
    day; each empty where nobody has said. ``said`` keeps the words.
    """

    event: str
    force: str = ""
    when: str = ""
    on: datetime.date | None = None
    side: str | None = None
    said: str = ""

    def ago(self, seen_on: datetime.date | None) -> str:
        """How long before the visit it was, in the words of the rules."""
        if self.on is None or seen_on is None:
            return self.when or UNKNOWN
        if self.on == seen_on:
            return "today"
        return "this season" if seen_on - self.on < A_SEASON else "earlier"


@dataclass(frozen=True)
class Boat:
    """The boat's own facts. A fact that is not here is unknown. ``length`` is in metres.

    ``attempted`` holds what somebody tried to find out and could not tell: (fact, ""), or (encloses_buoyancy, zone).
    """

    name: str
    facts: Mapping[str, str] = field(default_factory=dict)
    length: float | None = None
    encloses_buoyancy: Mapping[str, str] = field(default_factory=dict)
    attempted: frozenset[tuple[str, str]] = frozenset()

    def words(self, zone: Zone, side: str | None) -> Mapping[str, str]:
        """What is known of a finding beyond its zone and sign; an unknown word is absent."""
        known = dict(self.facts)
        buoyant = self.encloses_buoyancy.get(zone.id, zone.encloses_buoyancy)
        if buoyant != "varies":
            known[BUOYANCY] = buoyant
        if side is not None:
            known["side"] = side
        return known

    def has(self, zone: Zone) -> bool:
        """Whether she can have the place at all."""
        return all(self.facts.get(fact, value) == value for fact, value in zone.only_if.items())

    def knowing(self, word: str, value: str | None, zone: str) -> Boat:
        """The same boat with one more fact known; None: tried in vain. ``zone`` is where `BUOYANCY` was asked about."""
        where = zone if word == BUOYANCY else ""
        if value is None:
            return replace(self, attempted=self.attempted | {(word, where)})
        if word == BUOYANCY:
            return replace(self, encloses_buoyancy={**self.encloses_buoyancy, zone: value})
        return replace(self, facts={**self.facts, word: value})


@dataclass(frozen=True)
class Survey:
    """One visit to one boat. ``source`` says where it was read from, for messages.

    ``history``: what the owner answered about causes, by id; yes, no or unknown. ``events``: what happened to her and
    was done to her, each event once. ``conversation``: where a conversation
    about it was left, as a file holds it; nothing is concluded from it. ``asked``: what somebody wants to know.
    """

    boat: Boat
    findings: tuple[Finding, ...]
    seen_on: datetime.date | None = None
    by: str = ""
    note: str = ""
    source: str = ""
    history: Mapping[str, str] = field(default_factory=dict)
    conversation: Mapping[str, Any] = field(default_factory=dict)
    events: tuple[Happened, ...] = ()
    asked: str = ""

    @cached_property
    def marks(self) -> tuple[Finding, ...]:
        """The findings that rules judge: every one but the looks."""
        return tuple(finding for finding in self.findings if not finding.is_look)

    @cached_property
    def looks(self) -> tuple[Finding, ...]:
        """The parts that were looked at without a mark."""
        return tuple(finding for finding in self.findings if finding.is_look)

    def stands_from_before(self, finding: Finding) -> bool:
        """Whether it was last looked at before this visit, and stands until somebody looks again or mends it."""
        return bool(finding.seen_on and self.seen_on and finding.seen_on < self.seen_on)

    def in_walk_order(self, kb: KnowledgeBase) -> Survey:
        """The same survey, whatever order it was written in: its findings as one walks round, its events as known."""

        def key(finding: Finding) -> tuple[object, ...]:
            answers = sorted(
                (scale, str(reading.low), str(reading.high), reading.said)
                for scale, reading in finding.readings.items()
            )
            place = kb.zones[finding.zone].order
            seen = str(finding.seen_on or "")
            return (place, finding.side or "", finding.sign, answers, finding.note, finding.photos, seen, finding.id)

        known = {event: number for number, event in enumerate(kb.happenings.events)}
        events = sorted(self.events, key=lambda one: known.get(one.event, len(known)))
        return replace(self, findings=tuple(sorted(self.findings, key=key)), events=tuple(events))


def opposite(side: str | None) -> str | None:
    """The other side; None for a part in the middle. Raises KeyError for what is no side."""
    return None if side is None else OTHER_SIDE[side]
