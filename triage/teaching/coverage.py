"""What some cases cover: places, marks, pairs that are taken for each other, and readings at which a verdict turns."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from contextlib import suppress
from dataclasses import dataclass, field

from triage.errors import CannotWork
from triage.inference.terms import terms_of
from triage.knowledge.model import NOTHING_SEEN, VERDICT, KnowledgeBase
from triage.knowledge.per_knowledge import per_knowledge
from triage.teaching.cases import Case, first_visit
from triage.teaching.confusions import marks_of, name_of, pair_named, pairs_of
from triage.teaching.drawn import Named, draw
from triage.teaching.edges import edges_of

PLACES, MARKS, PAIRS, CONFUSIONS, TURNS = "places", "marks", "pairs", "confusions", "turns"
KINDS = (PLACES, MARKS, PAIRS, CONFUSIONS, TURNS)

Thing = tuple[str, str]
"""One of `KINDS`, and the id of what there is of it."""

POOL = 3
"""Cases of any kind that are drawn for each one that is chosen."""


@dataclass(frozen=True)
class Covered:
    """What there is of one kind, and what of it some case is about."""

    kind: str
    all: tuple[str, ...]
    by: frozenset[str] = field(default_factory=frozenset)

    @property
    def missing(self) -> tuple[str, ...]:
        """What no case is about."""
        return tuple(one for one in self.all if one not in self.by)


def touched(kb: KnowledgeBase, case: Case) -> frozenset[Thing]:
    """What a case is about."""
    return frozenset(_touched(kb, case))


def _touched(kb: KnowledgeBase, case: Case) -> Iterator[Thing]:
    finding = case.mark
    yield PLACES, finding.zone
    yield MARKS, finding.sign
    for pair in pairs_of(kb):
        other = {*pair} - {finding.sign}
        if finding.sign in pair and other <= set(kb.offers[finding.zone]):
            yield PAIRS, name_of(pair)
    for confusion in kb.teaching.confusions.values():
        if finding.sign in [sign for _, sign, _ in marks_of(kb, confusion)]:
            yield CONFUSIONS, confusion.id
    for edge in edges_of(kb, case):
        for level in range(edge.verdicts[0] + 1, edge.verdicts[1] + 1):
            yield TURNS, _turn(edge.scale, kb.level_name(VERDICT, level))


def _turn(scale: str, verdict: str) -> str:
    return f"{scale}→{verdict}"


@per_knowledge
def everything(kb: KnowledgeBase) -> tuple[Covered, ...]:
    """All that cases could be about, covered by none."""
    marks = [(zone, sign) for zone, signs in kb.offers.items() for sign in signs if sign != NOTHING_SEEN]
    turns: dict[str, None] = {}
    for zone, sign in marks:
        for (outcome, level), terms in terms_of(kb, zone, sign).items():
            if outcome == VERDICT:
                scales = {scale for term in terms for scale in term.levels} & set(first_visit(kb, zone, sign))
                turns |= dict.fromkeys(
                    _turn(scale, kb.level_name(VERDICT, level)) for scale in kb.scales if scale in scales
                )
    pairs = [pair for pair in pairs_of(kb) if any(set(pair) <= set(signs) for signs in kb.offers.values())]
    return (
        Covered(PLACES, tuple(dict.fromkeys(zone for zone, _ in marks))),
        Covered(MARKS, tuple(dict.fromkeys(sign for _, sign in marks))),
        Covered(PAIRS, tuple(name_of(pair) for pair in pairs)),
        Covered(CONFUSIONS, tuple(kb.teaching.confusions)),
        Covered(TURNS, tuple(turns)),
    )


def coverage_of(kb: KnowledgeBase, cases: Iterable[Case]) -> tuple[Covered, ...]:
    """What these cases cover, kind by kind."""
    found = frozenset(thing for case in cases for thing in touched(kb, case))
    return tuple(
        Covered(one.kind, one.all, frozenset(id_ for kind, id_ in found if kind == one.kind)) for one in everything(kb)
    )


def plan_cases(kb: KnowledgeBase, count: int, first: int = 1, difficulty: str = "") -> tuple[Case, ...]:
    """So many cases that cover as much as can be, chosen one by one out of a pool.

    In the pool are `POOL` times as many cases of any kind, and one for each place, mark, pair and confusion. Each time
    the one that adds most is chosen; of equals, the one that was drawn first. Raises CannotWork.
    """
    names = [Named(seed, difficulty) for seed in range(first, first + count * POOL)]
    places, marks, pairs, confusions, _ = everything(kb)
    names += [Named(first, difficulty, place=place) for place in places.all]
    names += [Named(first, difficulty, mark=mark) for mark in marks.all]
    names += [Named(first, difficulty, pair=pair_named(kb, pair)) for pair in pairs.all]
    names += [Named(first, difficulty, confusion=confusion) for confusion in confusions.all]
    return choose(kb, list(_drawn(kb, names)), count)


def _drawn(kb: KnowledgeBase, names: Iterable[Named]) -> Iterator[Case]:
    """Those of the cases that can be drawn; not every mark can be hard."""
    for named in names:
        with suppress(CannotWork):
            yield draw(kb, named)


def choose(kb: KnowledgeBase, pool: Sequence[Case], count: int) -> tuple[Case, ...]:
    """So many of the cases, in the order in which each adds most. Raises CannotWork when there are not so many."""
    if count > len(pool):
        raise CannotWork(f"There are {len(pool)} cases to choose {count} from. Draw more.")
    about = {case.name: touched(kb, case) for case in pool}
    left, chosen = list(pool), []
    known: set[Thing] = set()
    for _ in range(count):
        best = max(left, key=lambda case: len(about[case.name] - known))
        left.remove(best)
        chosen.append(best)
        known |= about[best.name]
    return tuple(chosen)
