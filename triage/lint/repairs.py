"""Repairs and findings that do not meet: a finding that matters and has no repair, a repair that is never shown."""

from __future__ import annotations

from collections.abc import Iterator

from triage.concluding.mending import repair_of
from triage.errors import Problem
from triage.inference.evaluate import evaluate
from triage.inference.evaluation import Evaluation
from triage.knowledge.model import VERDICT, KnowledgeBase
from triage.survey.model import Boat, Finding, Reading

BOAT = Boat("any")


def repair_problems(kb: KnowledgeBase) -> Iterator[Problem]:
    """Every mark, at its mildest, with each reading at its worst, and with all of them so."""
    if not kb.mending.repairs:
        return
    shown: set[str] = set()
    for zone, signs in kb.offers.items():
        for sign in signs:
            missing = False
            for judged in _marks(kb, zone, sign):
                repair = repair_of(kb, BOAT, judged, "lower")
                if repair is not None:
                    shown.add(repair.id)
                missing = missing or (repair is None and judged.lower.level(VERDICT) > 0)
            if missing:
                what = f"{sign} at {zone} can be graver than {kb.level_name(VERDICT, 0)}, and no repair fits it"
                yield Problem(kb.signs[sign].place, what, "Widen a repair, or write one for what is left.")
    for repair in kb.mending.repairs:
        if repair.id not in shown:
            what = f"{repair.id} is never shown: nothing fits it, or an earlier repair always does"
            yield Problem(repair.place, what, "Put it before the more general ones, or drop it.")


def _marks(kb: KnowledgeBase, zone: str, sign: str) -> Iterator[Evaluation]:
    scales = kb.applicable(zone, sign)
    least = {scale: kb.signs[sign].least.get(scale, 0) for scale in scales}
    for worst in ((), *((scale,) for scale in scales), scales):
        levels = least | {scale: kb.worst(sign, scale) for scale in worst}
        readings = {scale: Reading.at(level) for scale, level in levels.items()}
        yield evaluate(kb, BOAT, [Finding("mark", zone, sign, None, readings)])[0]
