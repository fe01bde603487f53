"""Cards: a mark at its place on the front; on the back what it is, what it may come to, and the next check."""

from __future__ import annotations

import random
from collections.abc import Iterator, Sequence, Set
from dataclasses import dataclass

from triage.conclusions.values import Range
from triage.drawing.boat.draw import drawn_spots, plain_chart
from triage.drawing.svg import drawn
from triage.knowledge.model import KnowledgeBase
from triage.knowledge.model.teaching import Confusion, Lesson, LessonCase, Lookalike
from triage.teaching.single import assess_single, verdict_of

MANY = 12
"""Cards of a quiz: four on a sheet, for some five minutes."""

OF_CONFUSIONS = 5
"""How many of them show something that is easily taken for something else."""


@dataclass(frozen=True)
class Card:
    """A mark to be judged. ``drawing`` is what is seen, ``name`` what it is, and ``check`` the next one to make.

    ``at_sight`` is what it may come to with nothing tried; ``tells`` is what the check finds, and ``then`` what that
    comes to (None, and empty, where the card leaves it to the class).
    """

    zone: str
    drawing: str
    name: str
    at_sight: Range
    check: str
    tells: str = ""
    then: Range | None = None


def card_of_mark(kb: KnowledgeBase, zone: str, sign: str) -> Card:
    """A mark with nothing tried, and the check that the program would name first (empty: none is left to make)."""
    found = assess_single(kb, zone, sign)
    check = next((one.check for one in found.checks if one.check), "")
    return Card(zone, sign, kb.signs[sign].name, found.verdict, check)


def card_of_lookalike(kb: KnowledgeBase, confusion: Confusion, one: Lookalike) -> Card:
    """One of two things that look alike. At sight it may be either, so at sight it may come to what either may."""
    seen = joined([verdict_of(kb, other.zone, other.sign) for other in confusion.pair])
    then = verdict_of(kb, one.zone, one.sign, one.readings)
    return Card(one.zone, one.drawing, one.name, seen, confusion.checks[0], one.tells, then)


def joined(ranges: Sequence[Range]) -> Range:
    """From the mildest to the gravest end of them all."""
    best = min(ranges, key=lambda one: one.levels[0])
    worst = max(ranges, key=lambda one: one.levels[1])
    levels = (best.levels[0], worst.levels[1])
    return Range(best.best, worst.worst, levels[0] == levels[1], levels, (best.roles[0], worst.roles[1]))


def quiz(kb: KnowledgeBase, seed: int, many: int = MANY) -> tuple[Card, ...]:
    """Cards for so many questions; the same seed gives the same ones. Marks are everyday ones, no sign twice."""
    chance = random.Random(f"quiz/{seed}")
    pairs = list(kb.teaching.confusions.values())
    chosen = chance.sample(pairs, min(len(pairs), OF_CONFUSIONS, many))
    cards = [card_of_lookalike(kb, one, chance.choice(one.pair)) for one in chosen]
    shown = {one.sign for confusion in chosen for one in confusion.pair}
    cards += [card_of_mark(kb, *mark) for mark in _everyday(kb, chance, many - len(cards), shown)]
    chance.shuffle(cards)
    return tuple(cards)


def _everyday(kb: KnowledgeBase, chance: random.Random, many: int, shown: Set[str]) -> Iterator[tuple[str, str]]:
    places = {zone for zone, _ in drawn_spots(plain_chart(kb.zones))}
    by_sign: dict[str, list[str]] = {}
    for mark in kb.everyday.marks:
        if mark.zone in places and mark.sign in drawn("marks") - shown:
            by_sign.setdefault(mark.sign, []).append(mark.zone)
    for sign in chance.sample(sorted(by_sign), min(many, len(by_sign))):
        yield chance.choice(by_sign[sign]), sign


def cases_of(kb: KnowledgeBase, lesson: Lesson) -> tuple[Card, ...]:
    """The cases of a lesson as they stand on its sheets: alike on every run, so answers fit what was handed out."""
    chance = random.Random(f"lesson/{lesson.id}")
    return tuple(card for case in lesson.cases for card in _of_case(kb, chance, case))


def _of_case(kb: KnowledgeBase, chance: random.Random, case: LessonCase) -> Iterator[Card]:
    """Of a confusion first the one, then the other, beginning with either; of a mark the same however often."""
    if case.confusion:
        confusion = kb.teaching.confusions[case.confusion]
        pair = chance.sample(confusion.pair, 2)
        yield from (card_of_lookalike(kb, confusion, pair[number % 2]) for number in range(case.count))
    else:
        yield card_of_mark(kb, case.zone, case.sign)
