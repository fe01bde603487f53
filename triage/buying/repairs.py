"""What mends the worst that a mark may be, for places at which nobody has answered anything."""

from __future__ import annotations

from triage.inference.evaluate import evaluate, satisfies, state_at
from triage.knowledge.compiled.conjuncts import Conjunct, conjuncts_of
from triage.knowledge.model import NOTHING_SEEN, KnowledgeBase
from triage.knowledge.model.repair import Repair
from triage.knowledge.per_knowledge import per_knowledge
from triage.survey.model import Boat, Finding


@per_knowledge
def worst_repair(kb: KnowledgeBase, zone: str, sign: str) -> Repair | None:
    """The repair of such a mark with nothing known of it and of the boat, at its worst."""
    boat = Boat("any")
    (judged,) = evaluate(kb, boat, [Finding("any", zone, sign)])
    state = state_at(kb, boat, judged, "upper")
    return next((one for one, conjuncts in _repairs(kb) if satisfies(conjuncts, state, "upper")), None)


@per_knowledge
def hidden(kb: KnowledgeBase, zone: str) -> float:
    """What a repairer asks for the worst that may be behind a place without a mark."""
    repair = worst_repair(kb, zone, NOTHING_SEEN)
    if repair and repair.repairer:
        return sum(repair.repairer) / 2
    least, likely, most = kb.purchase.figures["hidden_damage"].values
    return (least + 4 * likely + most) / 6


@per_knowledge
def _repairs(kb: KnowledgeBase) -> tuple[tuple[Repair, tuple[Conjunct, ...]], ...]:
    return tuple((repair, conjuncts_of(kb, repair.when)) for repair in kb.mending.repairs)
