"""Non-vacuity: every rule, presumption, promise and repair can hold for some sign in some zone."""

from __future__ import annotations

from collections.abc import Iterator

from triage.errors import Problem
from triage.knowledge.compiled.conjuncts import Conjunct, conjuncts_of
from triage.knowledge.model import KnowledgeBase
from triage.knowledge.model.cause import Mark
from triage.knowledge.model.conditions import Condition
from triage.parsing.text import did_you_mean

MAX_HINTS = 3
"""Places of which a hint says what can be met there."""


def vacuous_rules(kb: KnowledgeBase) -> Iterator[Problem]:
    """Those whose condition no mark can ever satisfy, with what would be possible there."""
    for rule in (*kb.all_rules, *kb.promises, *kb.mending.repairs):
        if not can_hold(kb, rule.when):
            why, hint = _reason(kb, conjuncts_of(kb, rule.when))
            yield Problem(rule.place, f"{rule.id} can never hold: {why}", hint)


def can_hold(kb: KnowledgeBase, condition: Condition) -> bool:
    """Whether some sign is offered in some zone under which the condition can hold."""
    return any(True for conjunct in conjuncts_of(kb, condition) for _ in pairs_of(kb, conjunct))


def pairs_of(kb: KnowledgeBase, conjunct: Conjunct) -> Iterator[Mark]:
    """The zones with a sign offered there on which the conjunct can hold, in the order of the walk."""
    for mark in _offered(kb, conjunct):
        if not unreadable(kb, mark, conjunct):
            yield mark


def marks_for(kb: KnowledgeBase, condition: Condition) -> tuple[Mark, ...]:
    """The zones with a sign offered there on which the condition can hold, in the order of the walk."""
    found = {mark for conjunct in conjuncts_of(kb, condition) for mark in pairs_of(kb, conjunct)}
    return tuple((zone, sign) for zone, signs in kb.offers.items() for sign in signs if (zone, sign) in found)


def _offered(kb: KnowledgeBase, conjunct: Conjunct) -> Iterator[Mark]:
    for zone, signs in kb.offers.items():
        for sign in signs:
            if conjunct.fits(zone, sign):
                yield zone, sign


def unreadable(kb: KnowledgeBase, mark: Mark, conjunct: Conjunct) -> tuple[str, ...]:
    """The observed scales that the conjunct needs and that cannot be read so under this mark."""
    zone, sign = mark
    here = kb.applicable(zone, sign)
    wanted = [(scale, level) for scale, level in conjunct.levels if kb.scales[scale].observed]
    return (
        *(scale for scale, level in wanted if scale not in here or level > kb.worst(sign, scale)),
        *(scale for scale, level in conjunct.bounds if scale not in here or level < kb.best(sign, scale)),
    )


def _reason(kb: KnowledgeBase, conjuncts: tuple[Conjunct, ...]) -> tuple[str, str]:
    """Why none of the conjuncts can hold, told of the first of them, and what to do."""
    if not conjuncts:
        return "its lines exclude each other", "Take one of them out, or join them with any."
    first = conjuncts[0]
    marks = list(_offered(kb, first))
    if marks:
        mark = marks[0]
        scale = unreadable(kb, mark, first)[0]
        judged = [other for other in kb.applicable(*mark) if other != scale]
        why = f"under {mark[1]} at {mark[0]} {scale} is not judged, or never at that level"
        return why, _allowed(f"{mark[1]} at {mark[0]} is judged by", scale, judged)
    zones = [zone for zone in kb.offers if first.zones is None or zone in first.zones]
    signs = sorted(first.signs or ())
    wrong = signs[0] if signs else ""
    why = f"{' or '.join(signs) or 'no sign'} is not offered at {' or '.join(zones[:MAX_HINTS]) or 'any such zone'}"
    hints = [_allowed(f"At {zone} it can be", wrong, list(kb.offers[zone])) for zone in zones[:MAX_HINTS]]
    elsewhere = [zone for zone, offered in kb.offers.items() if not set(offered).isdisjoint(signs)]
    if elsewhere:
        hints.append(f"{' or '.join(signs)} is offered at {', '.join(elsewhere)}.")
    return why, " ".join(hints) or "Name a zone that there is."


def _allowed(said: str, wrong: str, allowed: list[str]) -> str:
    near = did_you_mean(wrong, allowed)
    whole = f"{said}: {', '.join(allowed) or 'nothing'}."
    return f"{near} {whole}" if near.startswith("Did you mean") else whole
