"""How a finding is mended: the first repair of the knowledge that fits what was concluded."""

from __future__ import annotations

from collections.abc import Sequence, Set

from triage.conclusions.repairs import RepairAdvice
from triage.inference.evaluate import satisfies, state_at
from triage.inference.evaluation import BOUNDS, Bound, Evaluation
from triage.knowledge.compiled.conjuncts import Conjunct, conjuncts_of
from triage.knowledge.model import AFLOAT, HANDS, TOW, KnowledgeBase
from triage.knowledge.model import repair as known
from triage.knowledge.per_knowledge import per_knowledge
from triage.survey.model import Boat


def repair_of(kb: KnowledgeBase, boat: Boat, judged: Evaluation, bound: Bound) -> known.Repair | None:
    """The first repair that fits the finding at this end of its range.

    Where rules ask for a repairer it is the first of theirs, so that nobody reads an owner's work and price there.
    """
    state = state_at(kb, boat, judged, bound)
    fitting = [repair for repair, conjuncts in _compiled(kb) if satisfies(conjuncts, state, bound)]
    return meant(kb, fitting, judged.end(bound).level(HANDS))


def meant(kb: KnowledgeBase, fitting: Sequence[known.Repair], asked: int) -> known.Repair | None:
    """Of the repairs that fit, the one to tell where rules ask for these hands."""
    if asked == kb.level_of(HANDS, "professional"):
        return next((one for one in fitting if one.who >= asked), next(iter(fitting), None))
    return next(iter(fitting), None)


def mendings(
    kb: KnowledgeBase, boat: Boat, judged: Evaluation
) -> tuple[RepairAdvice | None, RepairAdvice | None, tuple[int, int]]:
    """What mending takes for what is known, and for the worst it may be where that is another repair; and the hands for
    it at both ends: those that the rules ask for, or the repair where it asks for more.
    """
    now, at_worst = (repair_of(kb, boat, judged, bound) for bound in BOUNDS)
    least = hands_for(judged, now, "lower")
    most = max(least, hands_for(judged, at_worst, "upper"))
    other = at_worst is not None and at_worst is not now
    return (
        advice(kb, now, least, barred(kb, judged, "lower")) if now else None,
        advice(kb, at_worst, most, barred(kb, judged, "upper")) if at_worst and other else None,
        (least, most),
    )


def hands_for(judged: Evaluation, repair: known.Repair | None, bound: Bound) -> int:
    """The hands at this end: those that the rules ask for, or the repair where it asks for more."""
    asked = judged.end(bound).level(HANDS)
    return max(asked, repair.who) if repair else asked


def barred(kb: KnowledgeBase, judged: Evaluation, bound: Bound) -> frozenset[str]:
    """The answers that bar her at this end."""
    return frozenset(scale for scale in (AFLOAT, TOW) if judged.end(bound).level(scale) == kb.level_of(scale, "barred"))


def advice(kb: KnowledgeBase, repair: known.Repair, level: int, barring: Set[str]) -> RepairAdvice:
    """What is told of a repair that needs hands of this level, where these answers bar her."""
    shared = kb.mending
    prices = shared.prices
    hands = kb.scales[HANDS].levels[level]
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
        holding=repair.holding if not barring & set(repair.lets) else "",
        hazards=tuple(shared.hazards[id_].say for id_ in repair.hazards),
        stop_when=tuple(shared.stops[id_] for id_ in repair.stop_when),
        basis=repair.basis,
    )


@per_knowledge
def _compiled(kb: KnowledgeBase) -> tuple[tuple[known.Repair, tuple[Conjunct, ...]], ...]:
    return tuple((repair, conjuncts_of(kb, repair.when)) for repair in kb.mending.repairs)
