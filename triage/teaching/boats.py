"""True boats: what happened to one, the marks it left, and how she is built, drawn as often as the rules say."""

from __future__ import annotations

import random
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field, replace
from typing import TypeVar

from triage.asking.probabilities import value_chances
from triage.inference.compiled import Judgement
from triage.inference.outlook import Outlook
from triage.knowledge.model import NOTHING_SEEN, SIDES, KnowledgeBase
from triage.knowledge.model.cause import ANYWHERE, Cause, Leaves, Mark
from triage.phrases import learning
from triage.survey.model import Boat, Finding, Happened, Survey
from triage.teaching.contradictions import contradictions
from triage.teaching.readings import Reader

Choice = TypeVar("Choice")

NAMES = ("Dunlin", "Fulmar", "Kittiwake", "Linnet", "Pipit", "Sandpiper", "Turnstone", "Wheatear", "Whimbrel")
"""Invented boats."""

HAPPENED = 0.8
"""How many boats something happened to; the marks of the others came by themselves (estimate)."""

TOLD = 0.9
"""How many owners tell what happened, of those to whom it did (estimate)."""

BESIDE = 0.3
"""How many marks have another one on the boat that has nothing to do with them (estimate)."""

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
    cause: str = ""

    def boat(self) -> TrueBoat | None:
        """A boat with a mark that is wanted; None when what was drawn cannot be on one boat."""
        causes = self._causes()
        happened = bool(causes) and self.chance.random() < HAPPENED
        cause = self._pick(causes) if happened else None
        self.cause = cause.id if cause else ""
        marks = list(self._left_by(cause) if cause else self._by_themselves())
        if not marks:
            return None
        side = self._pick(dict.fromkeys(SIDES, 1.0))
        findings = [self._finding(mark, number, side) for number, mark in enumerate(marks, start=1)]
        boat = self._built(findings)
        if any(True for one in findings for _ in contradictions(self.kb, one, self.cause, boat.facts)):
            return None
        read = self._read(findings, boat)
        if len(read) < len(findings):
            return None
        events = self._events(cause) if cause else ()
        where = learning.done_there(self.kb, events, read[0])
        return TrueBoat(Survey(boat, tuple(read), events=events, note=where), self.cause)

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
        """Whether she can have the place, built as she is so far, and such a mark there; then she is built so."""
        built = self.kb.zones[mark[0]].only_if
        if next(contradictions(self.kb, Finding("", *mark), self.cause), None) is not None:
            return False
        if any(self.facts.get(fact, value) != value for fact, value in built.items()):
            return False
        self.facts.update(built)
        return True

    def _finding(self, mark: Mark, number: int, side: str) -> Finding:
        zone, sign = mark
        gone = self.kb.frequencies.absent.get(mark, ())
        note = learning.gone(self.chance.choice(gone)) if gone else ""
        return Finding(f"mark-{number}", zone, sign, side if self.kb.zones[zone].sided else None, note=note)

    def _built(self, findings: list[Finding]) -> Boat:
        """The boat with every fact that her marks hang on, built as she must be to have them."""
        boat = Boat(self._pick(dict.fromkeys(NAMES, 1.0)), self.facts)
        for finding in findings:
            heard = Outlook(Judgement.of(self.kb, boat, [finding]), finding).unknown_facts
            for fact, values in heard.items():
                chances = value_chances(self.kb, fact, values)
                may_be = {one: chances[one] for one in chances if self._built_so(boat, fact, one, findings)}
                boat = boat.knowing(fact, self._pick(may_be or chances), finding.zone)
        return replace(boat, facts={fact: boat.facts[fact] for fact in self.kb.facts if fact in boat.facts})

    def _built_so(self, boat: Boat, fact: str, value: str, findings: list[Finding]) -> bool:
        facts = {**boat.facts, fact: value}
        return not any(True for one in findings for _ in contradictions(self.kb, one, self.cause, facts))

    def _read(self, findings: list[Finding], boat: Boat) -> list[Finding]:
        """The marks with every reading that a visit can give; fewer come back where that is not to be had."""
        reader = Reader(self.kb, self.chance, boat.facts, self.cause)
        read = []
        for finding in findings:
            fits = reader.read(finding, self.wanted.levels if finding is findings[0] else {})
            if fits is None:
                break
            read.append(fits)
        return read

    def _events(self, cause: Cause) -> tuple[Happened, ...]:
        told = {one: 1.0 for one in self.kb.happenings.events.values() if cause.id in one.speaks_for}
        if not told or self.chance.random() >= TOLD:
            return ()
        return (Happened(self._pick(told).id),)
