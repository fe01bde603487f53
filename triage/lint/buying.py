"""The rules of buying, which are a small knowledge base of their own, put through the passes that speak of rules."""

from __future__ import annotations

from collections.abc import Callable, Iterator

from triage.errors import Problem
from triage.knowledge.model import KnowledgeBase
from triage.knowledge.model.conditions import AtLeast, parts
from triage.lint.cases import wrong_cases
from triage.lint.mutants import surviving_mutants
from triage.lint.nonvacuity import vacuous_rules
from triage.lint.redundancy import redundant_rules
from triage.lint.unread import unread_levels
from triage.parsing.text import did_you_mean

PASSES: tuple[Callable[[KnowledgeBase], Iterator[Problem]], ...] = (
    wrong_cases,
    surviving_mutants,
    unread_levels,
    vacuous_rules,
    redundant_rules,
)


def buying_problems(kb: KnowledgeBase) -> Iterator[Problem]:
    """What is wrong with the rules of buying, and what the sale may show that nothing counts."""
    judging = kb.purchase.judging
    if judging is None:
        return
    for run in PASSES:
        yield from run(judging)
    yield from _unknown_legs(kb)
    yield from _unknown_places(kb)
    read = {part.scale for rule in judging.rules for part in parts(rule.when) if isinstance(part, AtLeast)}
    for scale in judging.scales.values():
        if scale.observed and scale.id not in read:
            yield Problem(scale.place, f"no rule of buying reads {scale.id}", "Write one, or drop the scale.")
    raised = {effect for rule in judging.rules for effect in rule.raises}
    for scale in judging.scales.values():
        for level in range(1, scale.top + 1) if not scale.observed else ():
            if (scale.id, level) not in raised:
                what = f"no rule raises {scale.id} to {level} ({scale.levels[level].name})"
                yield Problem(scale.place, what, "Write one, or drop the level.")


def _unknown_legs(kb: KnowledgeBase) -> Iterator[Problem]:
    """What is said of viewing a part of the walk that is none."""
    legs = [leg.id for leg in kb.walk]
    viewing = kb.purchase.viewing
    named = [(leg, one.place) for leg, one in viewing.setting_up.items()] if viewing else []
    if viewing and (afloat := viewing.afloat):
        named += [(leg, afloat.place) for leg in (*afloat.beyond, *afloat.stands)]
    for leg, place in named:
        if leg not in legs:
            yield Problem(place, f'no part of the walk is called "{leg}"', f"It can be: {', '.join(legs)}.")


def _unknown_places(kb: KnowledgeBase) -> Iterator[Problem]:
    """Where gear is said to be that is no place of a boat."""
    for gear in kb.purchase.gear.values():
        for zone in gear.at:
            if zone not in kb.zones:
                hint = did_you_mean(zone, kb.zones) or "Name a place of the boat."
                yield Problem(gear.place, f'no place of the boat is called "{zone}"', hint)
