"""The law of hands: what is found worse is not mended by somebody who knows less."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from functools import cache

import pytest

from triage.concluding.mending import mendings
from triage.inference.compiled import compiled
from triage.knowledge.model import KnowledgeBase
from triage.survey.model import Boat, Finding, Reading

REPLACED = {"mend/rudder-or-board-replaced", "mend/bow-pole"}
"""The repairs by which a part that is no longer mended gives way to a new one, which its owner fits."""

Levels = tuple[int, ...]


def steps(kb: KnowledgeBase, zone: str, sign: str) -> Iterator[tuple[Levels, Levels]]:
    """All read as mildly as the sign allows but for one reading at most, and then some reading raised by one level."""
    scales = kb.applicable(zone, sign)
    mildest = tuple(kb.best(sign, scale) for scale in scales)
    worst = tuple(kb.worst(sign, scale) for scale in scales)

    def raised(levels: Levels, place: int, level: int) -> Levels:
        return (*levels[:place], level, *levels[place + 1 :])

    apart = {
        raised(mildest, place, level)
        for place in range(len(scales))
        for level in range(mildest[place], worst[place] + 1)
    }
    for levels in sorted(apart):
        for place, level in enumerate(levels):
            if level < worst[place]:
                yield levels, raised(levels, place, level + 1)


def hands_and_repair(kb: KnowledgeBase, zone: str, sign: str) -> Callable[[Levels], tuple[int, str]]:
    """What is told of a mark that was read so, on a boat of which nothing else is known."""
    scales = kb.applicable(zone, sign)

    @cache
    def told(levels: Levels) -> tuple[int, str]:
        read: Mapping[str, Reading] = dict(zip(scales, map(Reading.at, levels), strict=True))
        boat = Boat("any")
        (judged,) = compiled(kb, boat, [Finding("f", zone, sign, None, read)])
        now, _, (least, _) = mendings(kb, boat, judged)
        return least, now.id if now else ""

    return told


@pytest.mark.slow
def test_worse_evidence_asks_for_lesser_hands_only_where_a_part_is_replaced(kb: KnowledgeBase) -> None:
    fewer = {}
    for zone, signs in kb.offers.items():
        for sign in signs:
            told = hands_and_repair(kb, zone, sign)
            for milder, worse in steps(kb, zone, sign):
                (before, mended), (after, repair) = told(milder), told(worse)
                if after < before and repair not in REPLACED:
                    fewer[zone, sign] = (milder, worse, mended, repair)

    assert {} == fewer
