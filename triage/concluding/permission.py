"""May she go afloat, may she be towed: the answer for the whole boat, from her findings and from what is suspected."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from triage.asking.awaiting import standing_now
from triage.conclusions.answers import NOT_YET, Answer, Awaited, Turn
from triage.conclusions.checks import OpenCheck
from triage.conclusions.ranges import range_between
from triage.conclusions.values import Range
from triage.knowledge.model import KnowledgeBase, Rule
from triage.knowledge.model.event import EventRule


def whole_range(kb: KnowledgeBase, scale: str, found: Sequence[Range], suspected: Sequence[Range]) -> Range:
    """The whole boat is at least as grave as her gravest finding, and open while anything is.

    While nobody has looked anywhere, she may be anything.
    """
    if not found:
        return range_between(kb, scale, 0, len(kb.scales[scale].levels) - 1)
    best = max(one.levels[0] for one in found)
    return range_between(kb, scale, best, max(one.levels[1] for one in (*found, *suspected)))


def may_she(kb: KnowledgeBase, scale: str, found: Sequence[Answer], suspected: Sequence[Answer]) -> Answer:
    """The gravest answer of any finding, or of what is suspected, speaks for the boat.

    She awaits all that the answers as grave as that await; if one of these awaits nothing, no check can better it.
    """
    range_ = whole_range(kb, scale, [one.range for one in found], [one.range for one in suspected])
    if not found and not suspected:
        return Answer(range_, "", "", now=NOT_YET)
    answers = [*found, *suspected]
    gravest = max(answers, key=lambda one: (_gravity(kb, scale, one.now), one.range.levels[::-1]))
    spoken = replace(gravest, range=range_, awaits=(), then="")
    deciding = [one for one in answers if one.now == gravest.now]
    if not all(one.awaits for one in deciding):
        return spoken
    then = [*(one.now for one in answers if one.now != gravest.now), *(one.then for one in deciding)]
    return replace(spoken, awaits=_each_once(kb, scale, deciding, then), then=_gravest(kb, scale, then))


def of_suspicion(
    kb: KnowledgeBase, scale: str, such: Range, rule: Rule | EventRule, check: OpenCheck | None, mark: str
) -> Answer:
    """What a suspected mark says of it: nothing is there yet, but until somebody has looked, it may be at its worst.

    ``check`` is how to look for it, None where that was tried in vain or cannot be done.
    """
    worst, levels = such.levels[1], kb.scales[scale].levels
    now = standing_now(kb, scale, 0, worst, 0 if check else worst)
    answer = Answer(range_between(kb, scale, 0, worst), rule.id, rule.because, levels[worst].means, now)
    if check is None or not worst:
        return answer
    turns = (Turn(f"no “{mark}” there", None, levels[0].name), Turn(f"“{mark}” is there", None, such.worst))
    return replace(answer, awaits=(Awaited(check, turns),), then=levels[0].name)


def _gravity(kb: KnowledgeBase, scale: str, now: str) -> float:
    """Where an answer stands among the levels; "not yet" is graver than any but those that bar her."""
    if now == NOT_YET:
        return kb.level_of(scale, "barred") - 0.5
    return [level.name for level in kb.scales[scale].levels].index(now)


def _gravest(kb: KnowledgeBase, scale: str, now: Sequence[str]) -> str:
    return max(now, key=lambda one: _gravity(kb, scale, one))


def _each_once(kb: KnowledgeBase, scale: str, answers: Sequence[Answer], then: Sequence[str]) -> tuple[Awaited, ...]:
    """What they await, each check of a reading at a place once, with what its answers would make of the boat: never
    milder than what all her marks come to (``then``) once everything has come out well.
    """
    found: dict[tuple[object, ...], Awaited] = {}
    for one in (awaited for answer in answers for awaited in answer.awaits):
        check = one.check
        turns = tuple(replace(turn, now=_gravest(kb, scale, [turn.now, *then])) for turn in one.turns)
        key = (check.check, check.scale, check.zone if check.check else "", check.side)
        found.setdefault(key, replace(one, turns=turns))
    return tuple(found.values())
