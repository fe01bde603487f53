"""A rule's inline cases: does it fire where its author says, and stay silent where its author says?

`fires` reads the tree as it was written and shares nothing with the engines: a second opinion, and meant to stay one.
"""

from __future__ import annotations

from collections.abc import Iterator

from triage.errors import Problem
from triage.knowledge.compiled.conjuncts import zone_words
from triage.knowledge.model import OTHER_SIDE, Case, KnowledgeBase, Presumption, Rule
from triage.knowledge.model.conditions import All, Any, AtLeast, AtMost, Condition, Elsewhere, Is


def wrong_cases(kb: KnowledgeBase) -> Iterator[Problem]:
    """Cases whose rule does the opposite of what they expect."""
    for rule in kb.all_rules:
        for case in rule.cases:
            if fires(kb, rule.when, case) != case.fires:
                expected, found = ("fires", "stays silent") if case.fires else ("silent", "fires")
                what = f"{rule.id}: expected {expected}, but it {found} on {describe(case)}"
                yield Problem(case.place, what, "Mend the condition, or the case.")


def fires(kb: KnowledgeBase, condition: Condition, case: Case) -> bool:
    """Whether the condition holds for the case. What it leaves out is unknown; rules take a scale left out as 0."""
    match condition:
        case All(parts):
            return all(fires(kb, part, case) for part in parts)
        case Any(parts):
            return any(fires(kb, part, case) for part in parts)
        case AtLeast(scale, level):
            return case.levels.get(scale, 0) >= level
        case AtMost(scale, level):
            return scale in case.levels and case.levels[scale] <= level
        case Is(word, values):
            return bool(set(values) & set(_words(kb, case, word)))
        case Elsewhere(inner, count, where):
            there = [o for o in case.elsewhere if _stands(kb, case, o, where) and fires(kb, inner, o)]
            return len(there) >= count


def _words(kb: KnowledgeBase, case: Case, word: str) -> tuple[str, ...]:
    if word in case.words:
        return (case.words[word],)
    zone = kb.zones.get(case.words.get("zone", ""))
    if zone is None:
        return ()
    buoyant = () if zone.encloses_buoyancy == "varies" else (zone.encloses_buoyancy,)
    return {**zone_words(zone), "encloses_buoyancy": buoyant}.get(word, ())


def _stands(kb: KnowledgeBase, mine: Case, other: Case, where: str) -> bool:
    my_zone, its_zone = mine.words.get("zone", ""), other.words.get("zone", "")
    my_side, its_side = mine.words.get("side", ""), other.words.get("side", "")
    sided = all(zone in kb.zones and kb.zones[zone].sided for zone in (my_zone, its_zone))
    if where == "twin":
        return sided and my_zone == its_zone and OTHER_SIDE.get(my_side) == its_side
    if where == "same side":
        return not sided or (bool(my_side) and my_side == its_side)
    return True


def describe(case: Case) -> str:
    """The case in one line, as it might be written."""
    given = ", ".join(f"{key}: {value}" for key, value in {**case.words, **case.levels}.items())
    if case.elsewhere:
        given += ", elsewhere: [" + ", ".join(describe(other) for other in case.elsewhere) + "]"
    return "{" + given + "}"


def survives(kb: KnowledgeBase, rule: Rule | Presumption, mutant: Condition) -> bool:
    """Whether no case of the rule notices that its condition was replaced by ``mutant``."""
    return all(fires(kb, mutant, case) == case.fires for case in rule.cases)
