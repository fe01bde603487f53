"""How few answers settle a mark, when each is the mildest that the sign allows.

``python -m tests.settling`` prints the table of `asking/everyday_marks.yaml` anew; then read the difference.
"""

from __future__ import annotations

import heapq
import itertools
import sys
from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from triage.inference.evaluate import evaluate
from triage.inference.evaluation import Evaluation
from triage.knowledge.model import VERDICT, KnowledgeBase
from triage.survey.model import Boat, Finding, Reading

BOAT = Boat(
    "Wagtail",
    {
        "deck": "single",
        "hull": "single",
        "spar": "alloy",
        "standing_rigging": "wire",
        "floor": "separate",
        "bow_pole": "yes",
        "trapeze": "yes",
        "after_swamp_test": "no",
    },
)
"""A common boat, of which every fact is known."""

DEFERRED = "growth"
"""Nobody can answer it on a first visit."""


@dataclass(frozen=True)
class Settled:
    """The fewest answers after which best and worst verdict are the same, and that verdict."""

    answers: tuple[str, ...]
    verdict: str

    def __str__(self) -> str:
        return f"{len(self.answers)} {self.verdict}"


def mildest(kb: KnowledgeBase, zone: str, sign: str) -> dict[str, int]:
    """Each scale of the mark that can be answered on a first visit, at the mildest level the sign's picture allows."""
    least = kb.signs[sign].least
    return {scale: least.get(scale, 0) for scale in kb.applicable(zone, sign) if scale != DEFERRED}


def judge(kb: KnowledgeBase, zone: str, sign: str, levels: Mapping[str, int], boat: Boat = BOAT) -> Evaluation:
    """One mark on an otherwise unknown boat."""
    readings = {scale: Reading.at(level) for scale, level in levels.items()}
    return evaluate(kb, boat, [Finding("mark", zone, sign, None, readings)])[0]


def fewest_answers(kb: KnowledgeBase, zone: str, sign: str) -> Settled | None:
    """Best-first search over sets of answers, smallest set first; None when even all of them settle nothing.

    A scale without which all the others settle nothing is in every set that settles, so the search starts from those.
    """
    levels = mildest(kb, zone, sign)
    known: dict[frozenset[str], Evaluation] = {}

    def judged(answers: frozenset[str]) -> Evaluation:
        if answers not in known:
            known[answers] = judge(kb, zone, sign, {scale: levels[scale] for scale in levels if scale in answers})
        return known[answers]

    def settled(answers: frozenset[str]) -> bool:
        best, worst = judged(answers).interval(VERDICT)
        return best == worst

    everything = frozenset(levels)
    if not settled(everything):
        return None
    start = frozenset(scale for scale in levels if not settled(everything - {scale}))
    count = itertools.count()
    frontier = [(len(start), next(count), start)]
    reached = {start}
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


def table(kb: KnowledgeBase) -> dict[str, dict[str, Settled | None]]:
    """By zone and sign, for every pair that is offered."""
    return {zone: {sign: fewest_answers(kb, zone, sign) for sign in signs} for zone, signs in kb.offers.items()}


def as_yaml(found: Mapping[str, Mapping[str, Settled | None]]) -> Iterator[str]:
    """The table with the signs of a zone gathered by what settles them."""
    for zone, signs in found.items():
        yield f"  {zone}:"
        gathered: dict[str, list[str]] = {}
        for sign, settled in signs.items():
            gathered.setdefault(str(settled or "never"), []).append(sign)
        for what, those in sorted(gathered.items()):
            yield f"    {what}: [{', '.join(those)}]"


if __name__ == "__main__":
    from tests.conftest import ROOT
    from triage.knowledge.store.load import load_knowledge

    sys.stdout.write("\n".join(as_yaml(table(load_knowledge(ROOT / "rules")))) + "\n")
