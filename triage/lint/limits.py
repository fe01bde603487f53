"""Limits that say otherwise than the words of their levels: "more than 5 litres" begins over five, and not at five."""

from __future__ import annotations

import re
from collections.abc import Iterator

from triage.errors import Problem
from triage.knowledge.model import Crowd, KnowledgeBase, Measure, Scale

_BEYOND = r"(?:more than|longer than|deeper than|wider than|above|over) {}"
_UP_TO = r"(?:up to|at most|to within) {}"
_SHORT_OF = r"(?:less than|shorter than|smaller than|fewer than|under|below) {}"
_AND_MORE = r"{}(?: \w+| ?%)? or more"


def misworded_limits(kb: KnowledgeBase) -> Iterator[Problem]:
    """Levels whose words put what is exactly at their limit on the other side of it than ``over`` does."""
    for scale in kb.scales.values():
        measured = scale.measure if scale.measure and not scale.measure.smaller_is_worse else None
        for way in (measured, scale.ways.crowd):
            for level, limit in enumerate(way.limits if way else (), start=1):
                yield from _at(scale, way, level, limit) if way and limit else ()


def _at(scale: Scale, way: Measure | Crowd, level: int, limit: float) -> Iterator[Problem]:
    beyond = _says(scale, level, limit, _BEYOND) or _says(scale, level - 1, limit, _UP_TO)
    reached = _says(scale, level, limit, _AND_MORE) or _says(scale, level - 1, limit, _SHORT_OF)
    if beyond and not reached and limit not in way.over:
        yield Problem(
            scale.place, f"{scale.id} {level} begins at {limit:g}, and its words say over it", f"Add over: [{limit:g}]."
        )
    if reached and not beyond and limit in way.over:
        what = f"{scale.id} {level} begins over {limit:g}, and its words say at it"
        yield Problem(scale.place, what, "Take the limit out of over, or mend the words.")


def _says(scale: Scale, level: int, limit: float, how: str) -> bool:
    words = re.compile(how.format(rf"(?<![\d.]){re.escape(f'{limit:g}')}(?![\d.]*\d)"))
    return any(words.search(one.say) for one in scale.levels[level].observations)
