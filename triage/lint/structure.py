"""Ontology and rules that do not meet: words that nothing reaches, uses, reads or tells apart."""

from __future__ import annotations

import re
from collections.abc import Iterator

from triage.errors import Problem
from triage.knowledge.compiled.conjuncts import conjuncts_of
from triage.knowledge.model import NOTHING_SEEN, KnowledgeBase, Rule
from triage.knowledge.model.conditions import AtLeast, Condition, Is, parts
from triage.knowledge.model.event import EventRule

TELLS_OF_WAITING = re.compile(r"\b(?:for|another) (?:half )?(?:an?|\d+) (?:hours?|days?|nights?)\b|\bthe next day\b")
"""How a step says that time goes by in which nobody works."""


def structure_problems(kb: KnowledgeBase) -> Iterator[Problem]:
    """All of them, zone by zone and scale by scale."""
    yield from _zones_without_rules(kb)
    yield from _scales_without_checks(kb)
    yield from _scales_nobody_answers(kb)
    yield from _scales_nothing_reads(kb)
    yield from _levels_nothing_raises(kb)
    yield from _signs_nowhere(kb)
    yield from _one_sided_neighbours(kb)
    yield from _waits_untold(kb)
    yield from _suspects_nobody_clears(kb)


def _zones_without_rules(kb: KnowledgeBase) -> Iterator[Problem]:
    conjuncts = [conjunct for rule in kb.rules if rule.raises for conjunct in conjuncts_of(kb, rule.when)]
    for zone in kb.zones.values():
        if not any(conjunct.zones is not None and zone.id in conjunct.zones for conjunct in conjuncts):
            yield Problem(zone.place, f'no rule speaks of the zone "{zone.id}" or of a group it is in', "Write one.")


def _scales_without_checks(kb: KnowledgeBase) -> Iterator[Problem]:
    for zone, signs in kb.offers.items():
        applying = dict.fromkeys(scale for sign in signs for scale in kb.applicable(zone, sign))
        for scale in applying:
            if not kb.checks_for(scale, zone):
                yield Problem(
                    kb.scales[scale].place, f"no check reads {scale} at {zone}", "Write one, or widen only_in."
                )


def _scales_nobody_answers(kb: KnowledgeBase) -> Iterator[Problem]:
    judged = {scale for zone, signs in kb.offers.items() for sign in signs for scale in kb.applicable(zone, sign)}
    for scale in kb.scales.values():
        if scale.observed and scale.id not in judged:
            what = f"nobody is ever asked about {scale.id}: no mark is judged by it"
            yield Problem(scale.place, what, "Name it in the scales of a sign, or in passed_by of a zone.")


def _conditions(kb: KnowledgeBase) -> Iterator[Condition]:
    for rule in kb.all_rules:
        yield from parts(rule.when)


def _scales_nothing_reads(kb: KnowledgeBase) -> Iterator[Problem]:
    read = {part.scale for part in _conditions(kb) if isinstance(part, AtLeast)}
    tested = {part.word for part in _conditions(kb) if isinstance(part, Is)}
    for scale in kb.scales.values():
        if scale.observed and scale.id not in read:
            yield Problem(scale.place, f"no rule reads the scale {scale.id}", "Write a rule, or drop the scale.")
    needed = {fact for zone in kb.zones.values() for fact in zone.only_if}
    for fact in kb.facts.values():
        if fact.id not in tested | needed:
            what = f"no rule and no zone asks for the boat fact {fact.id}"
            yield Problem(fact.place, what, "Write a rule, or drop the fact.")
    used = {value for part in _conditions(kb) if isinstance(part, Is) and part.word == "group" for value in part.values}
    for group in kb.groups.values():
        if group.id not in used:
            yield Problem(group.place, f"no rule uses the group {group.id}", "Drop it.")


def _levels_nothing_raises(kb: KnowledgeBase) -> Iterator[Problem]:
    raised = {effect for rule in kb.rules for effect in rule.raises}
    for scale in kb.scales.values():
        if not scale.observed:
            for level in range(1, scale.top + 1):
                if (scale.id, level) not in raised:
                    what = f"no rule raises {scale.id} to {level} ({scale.levels[level].name})"
                    yield Problem(scale.place, what, "Write one, or drop the level.")


def _signs_nowhere(kb: KnowledgeBase) -> Iterator[Problem]:
    offered = {sign for signs in kb.offers.values() for sign in signs}
    for sign in kb.signs.values():
        if sign.id not in offered:
            yield Problem(sign.place, f'the sign "{sign.id}" is offered nowhere', "Add it to offers.")
    for zone, signs in kb.offers.items():
        if not signs:
            yield Problem(kb.zones[zone].place, f'no sign is offered at "{zone}"', "Add it to offers.")


def _one_sided_neighbours(kb: KnowledgeBase) -> Iterator[Problem]:
    for zone in kb.zones.values():
        for neighbour in zone.neighbours:
            if zone.id not in kb.zones[neighbour].neighbours:
                what = f"{zone.id} names {neighbour} as a neighbour, but not the other way round"
                yield Problem(zone.place, what, "Name both.")


def _waits_untold(kb: KnowledgeBase) -> Iterator[Problem]:
    for check in kb.checks.values():
        told = next((match.group() for step in check.steps if (match := TELLS_OF_WAITING.search(step))), "")
        if told and check.wait is None:
            what = f'a step of {check.id} tells of waiting ("{told}"), but its minutes are all that is planned'
            yield Problem(check.place, what, "Add wait: {hours: …, say: …}; minutes are of work alone.")


def _suspects_nobody_clears(kb: KnowledgeBase) -> Iterator[Problem]:
    """What tells of a suspected mark must be said of a part without one too: found well there, or tried in vain."""
    rules: tuple[Rule | EventRule, ...] = (*kb.rules, *kb.happenings.rules)
    for rule in rules:
        for suspect in rule.suspects:
            answered = kb.applicable(suspect.zone, NOTHING_SEEN)
            for scale in kb.about(suspect.zone, suspect.sign):
                if scale not in answered:
                    told = f"{rule.id} suspects {suspect.sign} at {suspect.zone}"
                    what = f"{told}, and nobody can say there that {scale} is well"
                    yield Problem(rule.place, what, f"Add {scale} to also_open of {suspect.zone}.")
