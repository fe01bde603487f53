"""What the graphs of a knowledge base come to whatever the boat: plain data, worked out once and kept with the rules.

networkx walks the graphs. An answer needs only the orders, so that with kept rules no answer waits for networkx.
"""

from __future__ import annotations

from collections.abc import Collection, Iterable, Mapping
from dataclasses import dataclass

from triage.knowledge.model import KnowledgeBase
from triage.knowledge.model.cause import Mark
from triage.knowledge.per_knowledge import bring_along, per_knowledge


@dataclass(frozen=True)
class Elimination:
    """The order in which causes are summed out, and the most causes that then ever stand in one table."""

    order: tuple[str, ...]
    width: int


@dataclass(frozen=True)
class Orders:
    """All of them, for keeping; ``of_buying`` are the strata of the rules by which a purchase is judged."""

    strata: Mapping[str, int]
    of_buying: Mapping[str, int]
    marks: tuple[Mark, ...]
    elimination: Elimination


@per_knowledge
def strata(kb: KnowledgeBase) -> Mapping[str, int]:
    """For each derived scale the stratum after which it is final, from 1. The rules must be without cycles."""
    from triage.knowledge.compiled.strata import strata_of_scales

    return strata_of_scales(kb)


@per_knowledge
def marks(kb: KnowledgeBase) -> tuple[Mark, ...]:
    """Every mark that makes a rule suspect another, and these others, each before all that follow from it.

    The suspicions must be without cycles.
    """
    from triage.knowledge.compiled.consequences import in_order

    return in_order(kb)


@per_knowledge
def elimination(kb: KnowledgeBase) -> Elimination:
    """The order in which the causes are summed out, tied together by the marks that they leave."""
    effects: dict[Mark, list[str]] = {}
    for cause in kb.causation.causes.values():
        for mark in dict.fromkeys(left.mark for left in cause.leaves):
            effects.setdefault(mark, []).append(cause.id)
    return elimination_of(kb.causation.causes, effects.values())


def elimination_of(causes: Iterable[str], effects: Iterable[Collection[str]]) -> Elimination:
    """The order for any causes, when each effect ties together those that bring it about."""
    from triage.knowledge.compiled.elimination import fewest_ties_first

    return Elimination(*fewest_ties_first(causes, effects))


def orders_of(kb: KnowledgeBase) -> Orders:
    """What is kept with the knowledge."""
    judging = kb.purchase.judging
    return Orders(strata(kb), strata(judging) if judging else {}, marks(kb), elimination(kb))


def bring_orders(kb: KnowledgeBase, orders: Orders) -> None:
    """Have the orders of ``kb`` known, as they were kept with it."""
    bring_along(kb, strata, orders.strata)
    if kb.purchase.judging:
        bring_along(kb.purchase.judging, strata, orders.of_buying)
    bring_along(kb, marks, orders.marks)
    bring_along(kb, elimination, orders.elimination)
