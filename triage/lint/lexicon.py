"""Words that are missing, complaints that two places or marks claim, and answers that two levels do."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator

from triage.errors import Problem
from triage.knowledge.model import KnowledgeBase
from triage.listening.observing import ways_of


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


def claimed_twice(kb: KnowledgeBase) -> Iterator[Problem]:
    """Whole complaints that stand under more than one mark at a place: the very same words can only mean one."""
    owners: dict[str, list[str]] = defaultdict(list)
    for zone, marks in kb.lexicon.speech.complaints.items():
        for sign, sentences in marks.items():
            for sentence in dict.fromkeys(sentences):
                owners[sentence].append(f"{sign} at {zone}")
    for sentence, claims in owners.items():
        if len(claims) > 1:
            zone = claims[0].rpartition(" ")[2]
            what = f"“{sentence}” is a complaint of {', and of '.join(claims)}"
            yield Problem(kb.zones[zone].place, what, "Keep it under complaints where it most often means just that.")


def answered_twice(kb: KnowledgeBase) -> Iterator[Problem]:
    """Ways of answering that say the very same of two levels of a scale: none of them would ever be taken."""
    for scale in kb.scales.values():
        claims: dict[frozenset[str], dict[int, str]] = defaultdict(dict)
        for way in ways_of(kb, scale.id, at_question=True) if scale.observed else ():
            if way.exact:
                claims[way.words].setdefault(way.level, way.phrase)
        for said in claims.values():
            if len(said) > 1:
                told = ", and ".join(f"“{phrase}” is “{scale.levels[level].name}”" for level, phrase in said.items())
                what = f"the words say the same of two levels of {scale.id}: {told}"
                yield Problem(scale.place, what, "Keep them where they most often mean just that.")
