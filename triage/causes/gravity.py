"""How grave the worst is that a check can find somewhere."""

from __future__ import annotations

from triage.inference.compiled import compiled
from triage.knowledge.model import VERDICT, KnowledgeBase
from triage.knowledge.per_knowledge import per_knowledge
from triage.survey.model import Boat, Finding, Reading


def worst_verdict(kb: KnowledgeBase, boat: Boat, zone: str, check: str) -> int:
    """The gravest verdict for certain, once the check has found its worst there and nothing else is known."""
    facts = tuple(sorted(boat.facts.items()))
    return _worst(kb, facts, boat.encloses_buoyancy.get(zone, ""), zone, check)


@per_knowledge
def _worst(kb: KnowledgeBase, facts: tuple[tuple[str, str], ...], buoyant: str, zone: str, check: str) -> int:
    boat = Boat("any", dict(facts), None, {zone: buoyant} if buoyant else {})
    reads = set(kb.checks[check].reads)
    signs = [sign for sign in kb.offers[zone] if not reads.isdisjoint(kb.applicable(zone, sign))]
    telling = [sign for sign in signs if not reads.isdisjoint(kb.about(zone, sign))]
    verdicts = []
    for sign in telling or signs:
        scales = [scale for scale in kb.applicable(zone, sign) if scale in reads]
        readings = {scale: Reading.at(kb.worst(sign, scale), "at worst") for scale in scales}
        (judged,) = compiled(kb, boat, [Finding("worst", zone, sign, None, readings)])
        verdicts.append(judged.lower.level(VERDICT))
    return max(verdicts, default=0)
