"""A second, naive reading of the rules, written from the design and not from the engines.

It walks the condition trees as they are written, applies every rule to every finding again and again until nothing
changes, and works out presumptions from their ground rules. Slow, and meant to be obviously right.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field

from triage.knowledge.model import KnowledgeBase, Presumption
from triage.knowledge.model.conditions import All, Any, AtLeast, AtMost, Condition, Elsewhere, Is
from triage.survey.model import Boat, Finding


@dataclass
class Naive:
    """What the oracle concludes of one finding at one end of its range."""

    levels: dict[str, int]
    fired: set[str] = field(default_factory=set)


def judge(kb: KnowledgeBase, boat: Boat, findings: Sequence[Finding]) -> list[dict[str, Naive]]:
    """For each finding: {"lower": Naive, "upper": Naive}."""
    result: list[dict[str, Naive]] = [{} for _ in findings]
    for bound in ("lower", "upper"):
        naive = [Naive(dict(observed_levels(kb, boat, finding, bound))) for finding in findings]
        changed = True
        while changed:
            changed = False
            for me in range(len(findings)):
                for rule in kb.rules:
                    if rule.id in naive[me].fired or not holds(kb, boat, findings, naive, me, rule.when, bound):
                        continue  # once fired, a rule has raised all that it can
                    naive[me].fired.add(rule.id)
                    for scale, level in rule.raises:
                        if naive[me].levels.get(scale, 0) < level:
                            naive[me].levels[scale] = level
                            changed = True
        for me, outcome in enumerate(naive):
            result[me][bound] = outcome
    return result


def observed_levels(kb: KnowledgeBase, boat: Boat, finding: Finding, bound: str) -> dict[str, int]:
    told = {scale: reading for scale, reading in finding.readings.items() if reading.told}
    if bound == "lower":
        least = shown(kb, finding)
        return least | {scale: max(int(reading.low or 0), least.get(scale, 0)) for scale, reading in told.items()}
    levels = {scale: int(reading.high or 0) for scale, reading in told.items()}
    worst = {
        scale: kb.signs[finding.sign].caps[scale].level
        if scale in kb.signs[finding.sign].caps
        else len(kb.scales[scale].levels) - 1
        for scale in kb.applicable(finding.zone, finding.sign)
    }
    for presumption in kb.presumptions:
        for scale, level in spoken(kb, boat, finding, presumption).items():
            if scale in worst and scale not in levels:
                worst[scale] = min(worst[scale], level)
    return worst | levels


def shown(kb: KnowledgeBase, finding: Finding) -> dict[str, int]:
    """What the mark itself shows, whatever anybody answers."""
    applicable, sign = kb.applicable(finding.zone, finding.sign), kb.signs[finding.sign]
    return {scale: least for scale, least in sign.least.items() if scale in applicable}


def spoken(kb: KnowledgeBase, boat: Boat, finding: Finding, presumption: Presumption) -> dict[str, int]:
    """What a presumption says about this finding, after the ground rules; empty when it says nothing."""
    levels = {scale: int(reading.high or 0) for scale, reading in finding.readings.items() if reading.told}
    about = kb.about(finding.zone, finding.sign)
    if not presumed(kb, boat, finding, presumption.when):
        return {}
    known = shown(kb, finding) | levels
    if any(scale not in about and scale in known and known[scale] > level for scale, level in presumption.presumes):
        return {}
    sets = kb.named_sets(finding.zone, finding.sign)
    complete = any(all(scale in levels for scale in way) for way in sets)
    named = set().union(*sets) if sets else set()
    return {
        scale: level for scale, level in presumption.presumes if scale not in about and (complete or scale not in named)
    }


def presumed(kb: KnowledgeBase, boat: Boat, finding: Finding, condition: Condition) -> bool:
    match condition:
        case All(parts):
            return all(presumed(kb, boat, finding, part) for part in parts)
        case Any(parts):
            return any(presumed(kb, boat, finding, part) for part in parts)
        case AtMost(scale, level):
            reading = finding.readings.get(scale)
            return reading is not None and reading.high is not None and reading.high <= level
        case Is(word, values):
            return bool(set(values) & set(word_values(kb, boat, finding, word) or ()))
        case AtLeast() | Elsewhere():
            raise AssertionError("not in a presumption")


def word_values(kb: KnowledgeBase, boat: Boat, finding: Finding, word: str) -> tuple[str, ...] | None:
    """The values a word has for this finding; None when nobody knows."""
    zone = kb.zones[finding.zone]
    match word:
        case "zone":
            return (zone.id,)
        case "sign":
            return (finding.sign,)
        case "side":
            return None if finding.side is None else (finding.side,)
        case "criticality":
            return (zone.criticality,)
        case "load":
            return (zone.load,)
        case "below_water":
            return (zone.below_water,)
        case "group":
            return tuple(group.id for group in kb.groups.values() if zone.id in group.zones)
        case "encloses_buoyancy":
            said = boat.encloses_buoyancy.get(zone.id, zone.encloses_buoyancy)
            return None if said == "varies" else (said,)
        case _:
            return (boat.facts[word],) if word in boat.facts else None


def holds(
    kb: KnowledgeBase,
    boat: Boat,
    findings: Sequence[Finding],
    naive: Sequence[Naive],
    me: int,
    condition: Condition,
    bound: str,
) -> bool:
    match condition:
        case All(parts):
            return all(holds(kb, boat, findings, naive, me, part, bound) for part in parts)
        case Any(parts):
            return any(holds(kb, boat, findings, naive, me, part, bound) for part in parts)
        case AtLeast(scale, level):
            return naive[me].levels.get(scale, 0) >= level
        case Is(word, values):
            known = word_values(kb, boat, findings[me], word)
            return bound == "upper" if known is None else bool(set(values) & set(known))
        case Elsewhere(inner, count, where):
            others = [
                other
                for other in range(len(findings))
                if other != me
                and stands(kb, findings[me], findings[other], where, bound)
                and holds(kb, boat, findings, naive, other, inner, bound)
            ]
            return len(others) >= count
        case AtMost():
            raise AssertionError("not in a rule")


def stands(kb: KnowledgeBase, mine: Finding, other: Finding, where: str, bound: str) -> bool:
    both_known = mine.side is not None and other.side is not None
    sided = kb.zones[mine.zone].sided and kb.zones[other.zone].sided
    if where == "twin":
        if mine.zone != other.zone or not sided:
            return False
        return mine.side != other.side if both_known else bound == "upper"
    if where == "same side" and sided:
        return mine.side == other.side if both_known else bound == "upper"
    return True
