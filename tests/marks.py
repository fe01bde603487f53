"""Every mark there is, judged alone on a boat of which nothing else is known."""

from __future__ import annotations

from collections.abc import Iterator
from functools import cache

from triage.inference.evaluate import evaluate
from triage.inference.evaluation import Evaluation
from triage.knowledge.model import KnowledgeBase
from triage.survey.model import Boat, Finding, Reading

BOAT = Boat("Wagtail")


@cache
def judged_marks(kb: KnowledgeBase) -> tuple[Evaluation, ...]:
    """Every sign in every zone at its mildest, with each reading at its worst, and with all of them so."""
    return tuple(_marks(kb))


def _marks(kb: KnowledgeBase) -> Iterator[Evaluation]:
    for zone, signs in kb.offers.items():
        for sign in signs:
            scales = kb.applicable(zone, sign)
            for worst in ((), *((scale,) for scale in scales), scales):
                levels = {scale: kb.best(sign, scale) for scale in scales}
                levels |= {scale: kb.worst(sign, scale) for scale in worst}
                readings = {scale: Reading.at(level) for scale, level in levels.items()}
                yield evaluate(kb, BOAT, [Finding("mark", zone, sign, None, readings)])[0]
