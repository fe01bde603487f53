"""True boats: what happened to one, the marks it left, and how she is built, drawn as often as the rules say."""

from __future__ import annotations

import random
import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field, replace
from typing import TypeVar

from triage.asking.probabilities import damaged_chance, level_shares, value_chances
from triage.inference.compiled import Judgement
from triage.inference.outlook import Outlook
from triage.knowledge.model import NOTHING_SEEN, SIDES, KnowledgeBase
from triage.knowledge.model.cause import ANYWHERE, Cause, Leaves, Mark
from triage.survey.model import Boat, Finding, Happened, Reading, Survey
from triage.teaching.cases import first_visit
from triage.teaching.contradictions import contradictions

Choice = TypeVar("Choice")

_WORD = re.compile(r"[a-z]+")

NAMES = ("Dunlin", "Fulmar", "Kittiwake", "Linnet", "Pipit", "Sandpiper", "Turnstone", "Wheatear", "Whimbrel")
"""Invented boats."""

HAPPENED = 0.8
"""How many boats something happened to; the marks of the others came by themselves (estimate)."""

TOLD = 0.9
"""How many owners tell what happened, of those to whom it did (estimate)."""

BESIDE = 0.3
"""How many marks have another one on the boat that has nothing to do with them (estimate)."""

STEM, SHORTEST = 4, 3
"""Letters by which words are alike, and those of a word that says something."""

MOST_READ = 100
"""Times that the readings of a mark are drawn, until they hold together."""

MOST_MARKS = 4
"""On one boat; more of them hide the one that is to be judged."""


@dataclass(frozen=True)
class Wanted:
    """What a case should be about: one of these signs at one of these places, with these levels read of it."""

    signs: frozenset[str]
    zones: frozenset[str]
    levels: Mapping[str, int] = field(default_factory=dict)

    def fits(self, mark: Mark) -> bool:
        """Whether a mark is what is wanted."""
        zone, sign = mark
        return zone in self.zones and sign in self.signs


@dataclass(frozen=True)
class TrueBoat:
    """A boat of which everything is known; the first of her marks is the one that was wanted."""

    survey: Survey
    cause: str = ""


@dataclass
class Drawing:
    """One boat in the drawing: every choice comes from one row of random numbers."""

    kb: KnowledgeBase
    chance: random.Random
    wanted: Wanted
    facts: dict[str, str] = field(default_factory=dict)
    kinds: dict[str, frozenset[str]] = field(default_factory=dict)

    def boat(self) -> TrueBoat | None:
        """A boat with a mark that is wanted; None when what was drawn cannot be on one boat."""
        causes = self._causes()
        happened = bool(causes) and self.chance.random() < HAPPENED
        cause = self._pick(causes) if happened else None
        marks = list(self._left_by(cause) if cause else self._by_themselves())
        if not marks:
            return None
        side = self._pick(dict.fromkeys(SIDES, 1.0))
        findings = [self._finding(mark, number, side) for number, mark in enumerate(marks, start=1)]
        boat = self._built(findings)
        read = self._read(findings)
        if len(read) < len(findings):
            return None
        survey = Survey(boat, tuple(read), events=self._events(cause) if cause else ())
        return TrueBoat(survey, cause.id if cause else "")

    def _pick(self, weights: Mapping[Choice, float]) -> Choice:
        return self.chance.choices(list(weights), list(weights.values()))[0]

    def _causes(self) -> dict[Cause, float]:
        """The causes that leave what is wanted, by how often they happen and leave it."""
        weights = self.kb.causation.weights
        if weights is None:
            return {}
        found: dict[Cause, float] = {}
        for cause in self.kb.causation.causes.values():
            strengths = [weights.strengths[one.strength].chance for one, _ in self._marks_of(cause)]
            if strengths:
                found[cause] = weights.priors[cause.prior] * max(strengths)
        return found

    def _marks_of(self, cause: Cause) -> Iterator[tuple[Leaves, list[Mark]]]:
        for leaves in cause.leaves:
            zones = self.kb.offers if leaves.zone == ANYWHERE else (leaves.zone,)
            marks = [(zone, leaves.sign) for zone in zones if leaves.sign in self.kb.offers[zone]]
            if fitting := [mark for mark in marks if self.wanted.fits(mark)]:
                yield leaves, fitting

    def _left_by(self, cause: Cause) -> Iterator[Mark]:
        """The mark that is wanted, and what else the cause left this time."""
        weights = self.kb.causation.weights
        assert weights is not None
        self.facts.update(cause.only_if)
        fitting = {leaves: weights.strengths[leaves.strength].chance for leaves, _ in self._marks_of(cause)}
        first = self._pick(fitting)
        chosen = dict(self._marks_of(cause))[first]
        mark = self._pick(dict.fromkeys(chosen, 1.0))
        if not self._can_have(mark):
            return
        yield mark
        marks = {mark}
        for leaves in cause.leaves:
            left = self.chance.random() < weights.strengths[leaves.strength].chance
            other = (leaves.zone, leaves.sign)
            room = other not in marks and len(marks) < MOST_MARKS
            if left and room and leaves.zone != ANYWHERE and self._can_have(other):
                marks.add(other)
                yield other

    def _by_themselves(self) -> Iterator[Mark]:
        """A mark without a history, from any place, and sometimes an everyday one beside it."""
        met = [(zone, sign) for zone, signs in self.kb.offers.items() for sign in signs if sign != NOTHING_SEEN]
        zones = {zone: 1.0 for zone, sign in met if self.wanted.fits((zone, sign))}
        if not zones:
            return
        zone = self._pick(zones)
        mark = self._pick({one: 1.0 for one in met if one[0] == zone and self.wanted.fits(one)})
        if not self._can_have(mark):
            return
        yield mark
        everyday = {(one.zone, one.sign): 1.0 for one in self.kb.everyday.marks if one.sign != NOTHING_SEEN}
        if everyday and self.chance.random() < BESIDE:
            other = self._pick(everyday)
            if other != mark and self._can_have(other):
                yield other

    def _can_have(self, mark: Mark) -> bool:
        """Whether she can have the place, built as she is so far; then she is built so."""
        built = self.kb.zones[mark[0]].only_if
        if any(self.facts.get(fact, value) != value for fact, value in built.items()):
            return False
        self.facts.update(built)
        return True

    def _finding(self, mark: Mark, number: int, side: str) -> Finding:
        zone, sign = mark
        return Finding(f"mark-{number}", zone, sign, side if self.kb.zones[zone].sided else None)

    def _built(self, findings: list[Finding]) -> Boat:
        """The boat with every fact that her marks hang on."""
        boat = Boat(self._pick(dict.fromkeys(NAMES, 1.0)), self.facts)
        for finding in findings:
            heard = Outlook(Judgement.of(self.kb, boat, [finding]), finding).unknown_facts
            for fact, values in heard.items():
                boat = boat.knowing(fact, self._pick(value_chances(self.kb, fact, values)), finding.zone)
        return replace(boat, facts={fact: boat.facts[fact] for fact in self.kb.facts if fact in boat.facts})

    def _read(self, findings: list[Finding]) -> list[Finding]:
        """Every reading that a visit can give, drawn until none denies another; two marks at one place share what is
        read of the place. Fewer findings come back where that is not to be had.
        """
        known: dict[tuple[str, str | None, str], Reading] = {}
        read = []
        for finding in findings:
            wanted = self.wanted.levels if finding is findings[0] else {}
            drawn = (self._with_readings(finding, wanted, known) for _ in range(MOST_READ))
            fits = next((one for one in drawn if self._holds_together(one, wanted)), None)
            if fits is None:
                break
            known.update({self._place(fits, scale): reading for scale, reading in fits.readings.items()})
            read.append(fits)
        return read

    def _with_readings(
        self, finding: Finding, wanted: Mapping[str, int], known: Mapping[tuple[str, str | None, str], Reading]
    ) -> Finding:
        damaged = self.chance.random() < damaged_chance(self.kb, _at_levels(finding, wanted))
        readings = {}
        for scale in self._scales(finding):
            drawn = self._reading(finding, scale, wanted.get(scale), damaged=damaged)
            readings[scale] = known.get(self._place(finding, scale), drawn)
        return replace(finding, readings=readings)

    def _scales(self, finding: Finding) -> Iterator[str]:
        """What is read of it: where one thing or another may lie, only what is of the one that lies there."""
        kinds = self.kb.frequencies.kinds.get(finding.zone, ())
        if kinds and finding.zone not in self.kinds:
            self.kinds[finding.zone] = self.chance.choice(kinds)
        others = frozenset[str]().union(*kinds) - self.kinds.get(finding.zone, frozenset())
        return (scale for scale in first_visit(self.kb, finding.zone, finding.sign) if scale not in others)

    def _holds_together(self, finding: Finding, wanted: Mapping[str, int]) -> bool:
        """Whether nothing on it denies itself but what was asked for: a look-alike is drawn without its fault."""
        asked_for = set(contradictions(self.kb, _at_levels(finding, wanted)))
        levels = finding.upper.items()
        may_be = all(
            self.kb.best(finding.sign, scale) <= level <= self.kb.worst(finding.sign, scale) for scale, level in levels
        )
        return may_be and asked_for.issuperset(contradictions(self.kb, finding))

    def _place(self, finding: Finding, scale: str) -> tuple[str, str | None, str]:
        """What a reading is of: the place, or the fitting that it shares with others."""
        zone = self.kb.frequencies.one_place.get((finding.zone, scale), finding.zone)
        return zone, finding.side, scale

    def _reading(self, finding: Finding, scale: str, level: int | None, *, damaged: bool) -> Reading:
        if level is None:
            shares = level_shares(self.kb, finding.sign, scale)
            level = self._pick({level: kinds[damaged] for level, kinds in shares.items()})
        choices = self.kb.scales[scale].choices(level)
        near = {recorded: self._in_common(finding, words) for recorded, words in choices}
        nearest = max(near.values())
        return Reading.at(level, self._pick({recorded: 1.0 for recorded, own in near.items() if own == nearest}))

    def _in_common(self, finding: Finding, words: str) -> int:
        """How many words an observation shares with what mark and place are called: a cracked tyre is of a tyre."""
        zone, sign = self.kb.zones[finding.zone], self.kb.signs[finding.sign]
        return len(_stems(words) & _stems(f"{sign.name} {sign.picture} {zone.name} {zone.trouble}"))

    def _events(self, cause: Cause) -> tuple[Happened, ...]:
        told = {one: 1.0 for one in self.kb.happenings.events.values() if cause.id in one.speaks_for}
        if not told or self.chance.random() >= TOLD:
            return ()
        return (Happened(self._pick(told).id),)


def _at_levels(finding: Finding, levels: Mapping[str, int]) -> Finding:
    return replace(finding, readings={scale: Reading.at(level) for scale, level in levels.items()})


def _stems(text: str) -> set[str]:
    return {word[:STEM] for word in _WORD.findall(text.lower()) if len(word) >= SHORTEST}
