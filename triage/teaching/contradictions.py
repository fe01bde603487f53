"""What on a boat denies itself: readings that its mark's picture rules out, or that deny each other."""

from __future__ import annotations

from collections.abc import Iterator

from triage.knowledge.model import KnowledgeBase
from triage.knowledge.model.frequencies import Never
from triage.survey.model import Finding


def contradictions(kb: KnowledgeBase, finding: Finding) -> Iterator[Never]:
    """What the knowledge says is never met together and is met on this finding."""
    upper, said = finding.upper, {reading.said for reading in finding.readings.values()}
    for one in kb.frequencies.never:
        if (
            finding.sign in one.signs
            and finding.zone in one.zones
            and all(upper.get(scale) in levels for scale, levels in one.levels.items())
            and (not one.said or one.said & said)
        ):
            yield one
