"""Missing words: places and marks of which nothing says what people call them."""

from __future__ import annotations

from collections.abc import Iterator

from triage.errors import Problem
from triage.knowledge.model import KnowledgeBase


def missing_words(kb: KnowledgeBase) -> Iterator[Problem]:
    """Zones and signs without words of their own; a base that gives no words at all is left alone."""
    if not (kb.lexicon.zones or kb.lexicon.signs):
        return
    for zone in kb.zones.values():
        if zone.id not in kb.lexicon.zones:
            yield Problem(zone.place, f"what do people call {zone.id}? Nothing says", "Add it to zones under words.")
    for sign in kb.signs.values():
        if sign.id not in kb.lexicon.signs:
            yield Problem(sign.place, f"what do people call {sign.id}? Nothing says", "Add it to signs under words.")
