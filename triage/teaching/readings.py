"""What every check would tell of a true boat: readings that are drawn until none of them denies another."""

from __future__ import annotations

import random
import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field, replace
from typing import TypeVar

from triage.asking.probabilities import damaged_chance, level_shares
from triage.knowledge.model import KnowledgeBase
from triage.knowledge.per_knowledge import per_knowledge
from triage.survey.model import Finding, Reading
from triage.teaching.cases import first_visit
from triage.teaching.contradictions import contradictions

Choice = TypeVar("Choice")

_WORD = re.compile(r"[a-z]+")

STEM, SHORTEST = 4, 3
"""Letters by which words are alike, and those of a word that says something."""

MOST_READ = 100
"""Times that the readings of a mark are drawn, until they hold together."""

Place = tuple[str, str | None, str]
"""What a reading is of: a zone, its side and a scale."""


@dataclass
class Reader:
    """Who makes every check on one boat, built as ``facts`` say; ``cause`` left her marks (empty: nobody knows what).

    ``known`` is what was read of a place or a fitting so far, ``kinds`` which of several things lies at a place.
    """

    kb: KnowledgeBase
    chance: random.Random
    facts: Mapping[str, str]
    cause: str = ""
    known: dict[Place, Reading] = field(default_factory=dict)
    kinds: dict[str, frozenset[str]] = field(default_factory=dict)

    def read(self, finding: Finding, wanted: Mapping[str, int]) -> Finding | None:
        """The mark with every reading that a visit can give, these levels among them; what was read of the same place
        before stays. None where that is not to be had.
        """
        drawn = (self._with_readings(finding, wanted) for _ in range(MOST_READ))
        fits = next((one for one in drawn if self._holds_together(one, wanted)), None)
        if fits is not None:
            self.known.update({self._place(fits, scale): reading for scale, reading in fits.readings.items()})
        return fits

    def _with_readings(self, finding: Finding, wanted: Mapping[str, int]) -> Finding:
        damaged = self.chance.random() < damaged_chance(self.kb, _at_levels(finding, wanted))
        readings = {}
        for scale in self._scales(finding):
            drawn = self._reading(finding, scale, wanted.get(scale), damaged=damaged)
            readings[scale] = self.known.get(self._place(finding, scale), drawn)
        return replace(finding, readings=readings)

    def _scales(self, finding: Finding) -> Iterator[str]:
        """What is read of it: where one thing or another may lie, only what is of the one that lies there."""
        kinds = self.kb.frequencies.kinds.get(finding.zone, ())
        if kinds and finding.zone not in self.kinds:
            self.kinds[finding.zone] = self.chance.choice(kinds)
        others = frozenset[str]().union(*kinds) - self.kinds.get(finding.zone, frozenset())
        left_out = others | self.kb.frequencies.unread.get((finding.zone, finding.sign), frozenset())
        return (scale for scale in first_visit(self.kb, finding.zone, finding.sign) if scale not in left_out)

    def _holds_together(self, finding: Finding, wanted: Mapping[str, int]) -> bool:
        """Whether nothing on it denies itself but what was asked for: a look-alike is drawn without its fault."""
        asked_for = set(contradictions(self.kb, _at_levels(finding, wanted), self.cause, self.facts))
        levels = finding.upper.items()
        may_be = all(
            self.kb.best(finding.sign, scale) <= level <= self.kb.worst(finding.sign, scale) for scale, level in levels
        )
        return may_be and asked_for.issuperset(contradictions(self.kb, finding, self.cause, self.facts))

    def _place(self, finding: Finding, scale: str) -> Place:
        """What a reading is of: the place, or what it shares with others."""
        zone = self.kb.frequencies.one_place.get((finding.zone, scale), finding.zone)
        return zone, finding.side if self.kb.zones[zone].sided else None, scale

    def _reading(self, finding: Finding, scale: str, level: int | None, *, damaged: bool) -> Reading:
        if level is None:
            shares = level_shares(self.kb, finding.sign, scale)
            level = _pick(self.chance, {level: kinds[damaged] for level, kinds in shares.items()})
        ways = _ways_to_say(self.kb, finding.zone, finding.sign, scale, level)
        return Reading.at(level, self.chance.choice(ways))


@per_knowledge
def _ways_to_say(kb: KnowledgeBase, zone: str, sign: str, scale: str, level: int) -> tuple[str, ...]:
    """The observations that mean this level and may be made of such a mark; of them those nearest to what it is called:
    a cracked tyre is of a tyre.
    """
    mark = Finding("", zone, sign)
    choices = dict(kb.scales[scale].choices(level))
    met = [
        one for one in choices if not any(contradictions(kb, replace(mark, readings={scale: Reading.at(level, one)})))
    ]
    called = _stems(
        " ".join((kb.signs[sign].name, kb.signs[sign].picture, kb.zones[zone].name, kb.zones[zone].trouble))
    )
    near = {one: len(_stems(choices[one]) & called) for one in met or choices}
    return tuple(one for one, in_common in near.items() if in_common == max(near.values()))


def _pick(chance: random.Random, weights: Mapping[Choice, float]) -> Choice:
    return chance.choices(list(weights), list(weights.values()))[0]


def _at_levels(finding: Finding, levels: Mapping[str, int]) -> Finding:
    return replace(finding, readings={scale: Reading.at(level) for scale, level in levels.items()})


def _stems(text: str) -> set[str]:
    return {word[:STEM] for word in _WORD.findall(text.lower()) if len(word) >= SHORTEST}
