"""Unread levels: neighbouring answers to one question that nothing in the knowledge tells apart."""

from __future__ import annotations

from collections.abc import Iterator

from triage.errors import Problem
from triage.knowledge.model import KnowledgeBase
from triage.knowledge.model.conditions import AtLeast, AtMost, parts

Step = tuple[str, int]
"""A scale and a level on it: the step from the milder neighbour up to this level."""


def unread_levels(kb: KnowledgeBase) -> Iterator[Problem]:
    """Levels that people are asked to tell from the milder one although the answer changes nothing.

    A level may say what it is ``kept_for``; one that something reads after all need not say so. Of a scale that
    nothing reads at all only that is reported, by `structure`.
    """
    distinguished = steps_told_apart(kb)
    read = {scale for scale, _ in distinguished}
    for scale in kb.scales.values():
        for level in range(1, scale.top + 1) if scale.observed and scale.id in read else ():
            kept = bool(scale.levels[level].kept_for)
            milder, worse = scale.levels[level - 1].name, scale.levels[level].name
            if (scale.id, level) not in distinguished and not kept:
                what = f'nothing tells {scale.id} {level} ("{worse}") from {level - 1} ("{milder}")'
                hint = "Make one level of them, let something read it, or say what it is kept_for."
                yield Problem(scale.place, what, hint)
            if (scale.id, level) in distinguished and kept:
                what = f'{scale.id} {level} ("{worse}") says what it is kept_for, but it is read'
                yield Problem(scale.place, what, "Take kept_for out.")


def steps_told_apart(kb: KnowledgeBase) -> frozenset[Step]:
    """Every step that some rule, presumption, promise, repair or sign makes a difference at."""
    return frozenset(_steps(kb))


def _steps(kb: KnowledgeBase) -> Iterator[Step]:
    for statement in (*kb.all_rules, *kb.promises, *kb.mending.repairs):
        for part in parts(statement.when):
            if isinstance(part, AtLeast):
                yield part.scale, part.level
            elif isinstance(part, AtMost):
                yield part.scale, part.level + 1
    for presumption in kb.presumptions:
        for scale, level in presumption.presumes:
            yield scale, level + 1
    for sign in kb.signs.values():
        yield from sign.least.items()
        for scale, cap in sign.caps.items():
            yield scale, cap.level + 1
