"""What a rule reads, and on which marks it can hold."""

from __future__ import annotations

from triage.knowledge.compiled.conjuncts import conjuncts_of
from triage.knowledge.model import NOTHING_SEEN, KnowledgeBase, Rule
from triage.knowledge.model.cause import Mark
from triage.knowledge.model.conditions import AtLeast, parts
from triage.knowledge.model.event import EventRule
from triage.knowledge.per_knowledge import per_knowledge


def derived_read(kb: KnowledgeBase, rule: Rule) -> set[str]:
    """The derived scales that a rule reads, of its own finding or of others."""
    read = {part.scale for part in parts(rule.when) if isinstance(part, AtLeast)}
    return {scale for scale in read if not kb.scales[scale].observed}


@per_knowledge
def marks_of(kb: KnowledgeBase, rule: Rule) -> tuple[Mark, ...]:
    """The marks on which the rule can hold."""
    conjuncts = conjuncts_of(kb, rule.when)
    return tuple(
        (zone, sign)
        for zone, offered in kb.offers.items()
        for sign in offered
        if sign != NOTHING_SEEN and any(conjunct.fits(zone, sign) for conjunct in conjuncts)
    )


@per_knowledge
def suspected_marks(kb: KnowledgeBase) -> frozenset[Mark]:
    """The marks that some rule, about a finding or about an event, sends people to look for."""
    sending: tuple[Rule | EventRule, ...] = (*kb.rules, *kb.happenings.rules)
    return frozenset((suspect.zone, suspect.sign) for rule in sending for suspect in rule.suspects)
