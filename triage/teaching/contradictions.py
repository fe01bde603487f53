"""What on a boat denies itself: readings that its mark's picture rules out, or that deny each other."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from types import MappingProxyType

from triage.knowledge.model import KnowledgeBase
from triage.knowledge.model.frequencies import Never
from triage.survey.model import Finding

NO_FACTS: Mapping[str, str] = MappingProxyType({})


def contradictions(
    kb: KnowledgeBase, finding: Finding, cause: str = "", facts: Mapping[str, str] = NO_FACTS
) -> Iterator[Never]:
    """What the knowledge says is never met together and is met on this finding, which this cause left (empty: none) on
    a boat with these facts.
    """
    upper, said = finding.upper, {reading.said for reading in finding.readings.values()}
    for one in kb.frequencies.never:
        if (
            finding.sign in one.signs
            and finding.zone in one.zones
            and (not one.causes or cause in one.causes)
            and one.facts.items() <= facts.items()
            and all(upper.get(scale) in levels for scale, levels in one.levels.items())
            and (not one.said or one.said & said)
        ):
            yield one
