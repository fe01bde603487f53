"""How a finding is mended: the first repair of the knowledge that fits what was concluded."""

from __future__ import annotations

from triage.conclusions.repairs import RepairAdvice
from triage.inference.evaluate import satisfies, state_at
from triage.inference.evaluation import Bound, Evaluation
from triage.knowledge.compiled.conjuncts import Conjunct, conjuncts_of
from triage.knowledge.model import HANDS, KnowledgeBase
from triage.knowledge.model import repair as known
from triage.knowledge.per_knowledge import per_knowledge
from triage.survey.model import Boat


def repair_of(kb: KnowledgeBase, boat: Boat, judged: Evaluation, bound: Bound) -> known.Repair | None:
    """The first repair that fits the finding at this end of its range."""
    state = state_at(kb, boat, judged, bound)
    return next((repair for repair, conjuncts in _compiled(kb) if satisfies(conjuncts, state, bound)), None)


def mendings(kb: KnowledgeBase, boat: Boat, judged: Evaluation) -> tuple[RepairAdvice | None, RepairAdvice | None]:
    """What mending takes for what is known, and for the worst it may be where that is another repair."""
    now, at_worst = mending(kb, boat, judged, "lower"), mending(kb, boat, judged, "upper")
    same = now is not None and at_worst is not None and now.id == at_worst.id
    return now, None if same else at_worst


def mending(kb: KnowledgeBase, boat: Boat, judged: Evaluation, bound: Bound) -> RepairAdvice | None:
    """What mending the finding takes, at this end of its range; never in milder hands than the rules say."""
    repair = repair_of(kb, boat, judged, bound)
    if repair is None:
        return None
    shared = kb.mending
    prices = shared.prices
    hands = kb.scales[HANDS].levels[max(repair.who, judged.end(bound).level(HANDS))]
    return RepairAdvice(
        id=repair.id,
        name=repair.name,
        who=hands.name,
        who_role=hands.role,
        outline=repair.outline,
        workshop=tuple(shared.workshop[id_] for id_ in repair.workshop),
        hours=repair.hours,
        materials=repair.materials,
        repairer=repair.repairer,
        per=repair.per,
        wait=repair.wait,
        year=prices.year if prices else None,
        unit=prices.unit if prices else "",
        note=prices.note if prices else "",
        meanwhile=repair.meanwhile,
        holding=repair.holding,
        hazards=tuple(shared.hazards[id_].say for id_ in repair.hazards),
        stop_when=tuple(shared.stops[id_] for id_ in repair.stop_when),
        basis=repair.basis,
    )


@per_knowledge
def _compiled(kb: KnowledgeBase) -> tuple[tuple[known.Repair, tuple[Conjunct, ...]], ...]:
    return tuple((repair, conjuncts_of(kb, repair.when)) for repair in kb.mending.repairs)
