"""Frequencies: what people are asked about and nobody has said how often it is met; what cannot be met anyway."""

from __future__ import annotations

from collections.abc import Iterator

from triage.errors import Problem
from triage.knowledge.model import BUOYANCY, KnowledgeBase
from triage.knowledge.model.frequencies import Never

HINT = "Add it to frequencies; an estimate will do."


def missing_frequencies(kb: KnowledgeBase) -> Iterator[Problem]:
    """Readings, marks and boat facts that are asked about without a frequency.

    A base that gives no frequency at all asks without them, and is left alone.
    """
    given = kb.frequencies
    if not (given.levels or given.damaged or given.facts):
        return
    offered = {sign: None for signs in kb.offers.values() for sign in signs}
    asked = {scale for zone, signs in kb.offers.items() for sign in signs for scale in kb.applicable(zone, sign)}
    for scale in kb.scales.values():
        if scale.id in asked and scale.id not in given.levels:
            yield Problem(scale.place, f"how often is each level of {scale.id} met? Nothing says", HINT)
    for sign in offered:
        if sign not in given.damaged:
            what = f"how often is there more behind {sign} than it shows? Nothing says"
            yield Problem(kb.signs[sign].place, what, HINT)
    for fact in kb.facts.values():
        if fact.id not in given.facts:
            yield Problem(fact.place, f"how many boats are there of each {fact.id}? Nothing says", HINT)
    varying = next((zone for zone in kb.zones.values() if zone.encloses_buoyancy == "varies"), None)
    if varying and BUOYANCY not in given.facts:
        yield Problem(varying.place, f"how often is {BUOYANCY} yes where it varies? Nothing says", HINT)


def idle_nevers(kb: KnowledgeBase) -> Iterator[Problem]:
    """What is said never to be met together, and could not be met together if nobody had said so."""
    for one in kb.frequencies.never:
        marks = ((zone, sign) for zone in one.zones for sign in one.signs & set(kb.offers[zone]))
        if not any(_could_be_met(kb, one, zone, sign) for zone, sign in marks):
            what = "no mark can have these readings together, so nothing need forbid it"
            yield Problem(one.place, what, "Take it out, or name the marks, places or readings that it is about.")


def _could_be_met(kb: KnowledgeBase, one: Never, zone: str, sign: str) -> bool:
    here = {scale: range(kb.best(sign, scale), kb.worst(sign, scale) + 1) for scale in kb.applicable(zone, sign)}
    said = {
        words.say
        for scale, levels in here.items()
        for level in levels
        if level in one.levels.get(scale, levels)
        for words in kb.scales[scale].levels[level].observations
    }
    read = all(levels & set(here.get(scale, ())) for scale, levels in one.levels.items())
    return read and (not one.said or bool(one.said & said))
