"""Settling: marks that stay open whatever is answered, and the fewest answers that settle one."""

from __future__ import annotations

import heapq
import itertools
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from math import prod

from triage.errors import Problem
from triage.inference.evaluate import evaluate
from triage.inference.evaluation import Evaluation
from triage.inference.program import program_of
from triage.knowledge.model import BUOYANCY, SIDES, VERDICT, KnowledgeBase
from triage.lint.nonvacuity import unreadable
from triage.survey.model import Boat, Finding, Reading

DEFERRED = "growth"
"""The one scale that nobody can answer on a first visit."""

MAX_BOATS = 256
"""Ways to build a boat on which one mark is tried; where there are more, only the first answer to each fact is."""


@dataclass(frozen=True)
class Settled:
    """The fewest answers after which best and worst verdict are the same, and that verdict."""

    answers: tuple[str, ...]
    verdict: str

    def __str__(self) -> str:
        return f"{len(self.answers)} {self.verdict}"


def unsettled_marks(kb: KnowledgeBase) -> Iterator[Problem]:
    """Marks that can be recorded and never settle, on boats of which everything is known."""
    for zone, signs in kb.offers.items():
        for sign in signs:
            for boat, side in _boats(kb, zone, sign):
                best, worst = judge(kb, zone, sign, mildest(kb, zone, sign), boat, side).interval(VERDICT)
                if best != worst:
                    yield _never(kb, zone, sign, boat, (best, worst))
                    break


def _never(kb: KnowledgeBase, zone: str, sign: str, boat: Boat, bounds: tuple[int, int]) -> Problem:
    best, worst = (kb.level_name(VERDICT, level) for level in bounds)
    built = ", ".join(f"{fact}: {value}" for fact, value in boat.facts.items())
    where = f" on a boat with {built}" if built else ""
    what = f"{sign} at {zone} never settles{where}: with every answer at its best it is {best} or {worst}"
    return Problem(kb.signs[sign].place, what, f"Write a presumption for {DEFERRED}, or a check for what stays open.")


def _boats(kb: KnowledgeBase, zone: str, sign: str) -> Iterator[tuple[Boat, str | None]]:
    """Every way to build a boat that the rules for this mark tell from another, and a side where there are two."""
    tested = words_tested(kb, zone, sign)
    facts = [[(fact.id, value) for value in fact.values] for fact in kb.facts.values() if fact.id in tested]
    if prod(map(len, facts)) > MAX_BOATS:
        facts = [choices[:1] for choices in facts]
    varies = BUOYANCY in tested and kb.zones[zone].encloses_buoyancy == "varies"
    side = SIDES[0] if kb.zones[zone].sided else None
    for chosen in itertools.product(*facts):
        for buoyant in ("yes", "no") if varies else ("",):
            boat = Boat("any", dict(chosen), None, {zone: buoyant} if buoyant else {})
            if boat.has(kb.zones[zone]):
                yield boat, side


def words_tested(kb: KnowledgeBase, zone: str, sign: str) -> frozenset[str]:
    """Facts, and whatever else of the boat or the side, that decide something for this mark."""
    program = program_of(kb)
    conjuncts = (
        *(conjunct for stratum in program.rules_for(zone, sign) for one in stratum for conjunct in one.conjuncts),
        *(conjunct for one in program.presumptions_for(zone, sign) for conjunct in one.conjuncts),
    )
    possible = (conjunct for conjunct in conjuncts if not unreadable(kb, (zone, sign), conjunct))
    return frozenset(word for conjunct in possible for word, _ in conjunct.words)


def mildest(kb: KnowledgeBase, zone: str, sign: str) -> dict[str, int]:
    """Each scale of the mark that can be answered on a first visit, at the mildest level the sign's picture allows."""
    return {scale: kb.best(sign, scale) for scale in kb.applicable(zone, sign) if scale != DEFERRED}


def judge(
    kb: KnowledgeBase, zone: str, sign: str, levels: Mapping[str, int], boat: Boat, side: str | None = None
) -> Evaluation:
    """One mark on an otherwise unknown boat."""
    readings = {scale: Reading.at(level) for scale, level in levels.items()}
    return evaluate(kb, boat, [Finding("mark", zone, sign, side, readings)])[0]


def fewest_answers(kb: KnowledgeBase, zone: str, sign: str, boat: Boat) -> Settled | None:
    """Best-first search over sets of answers, smallest set first; None when even all of them settle nothing.

    A scale without which all the others settle nothing is in every set that settles, so the search starts from those.
    """
    levels = mildest(kb, zone, sign)
    known: dict[frozenset[str], Evaluation] = {}

    def judged(answers: frozenset[str]) -> Evaluation:
        if answers not in known:
            answered = {scale: levels[scale] for scale in levels if scale in answers}
            known[answers] = judge(kb, zone, sign, answered, boat)
        return known[answers]

    def settled(answers: frozenset[str]) -> bool:
        best, worst = judged(answers).interval(VERDICT)
        return best == worst

    everything = frozenset(levels)
    if not settled(everything):
        return None
    initial = frozenset(scale for scale in levels if not settled(everything - {scale}))
    count = itertools.count()
    frontier = [(len(initial), next(count), initial)]
    reached = {initial}
    while True:
        _, _, answers = heapq.heappop(frontier)
        if settled(answers):
            verdict = kb.level_name(VERDICT, judged(answers).lower.level(VERDICT))
            return Settled(tuple(scale for scale in levels if scale in answers), verdict)
        for scale in levels:
            more = answers | {scale}
            if more not in reached:
                reached.add(more)
                heapq.heappush(frontier, (len(more), next(count), more))
