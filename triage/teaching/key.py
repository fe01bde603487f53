"""The key to a case: what the program makes of the truth, and the cheapest way there."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from functools import cached_property

from triage.concluding.assess import assess_survey
from triage.conclusions.assessment import Assessment, FindingAssessment
from triage.conclusions.checks import OpenCheck
from triage.conclusions.diagnosis import CauseHypothesis
from triage.knowledge.model import Check, KnowledgeBase
from triage.teaching.cases import Case
from triage.teaching.cheapest import Tried, cheapest_way


@dataclass(frozen=True)
class Key:
    """What is right. ``finding`` is the mark to judge, with every reading; ``checks`` are those worth making when
    nothing is known yet, most useful first; ``way`` the cheapest that settles it (empty: it is settled at sight; None:
    no check does).
    """

    case: Case
    assessment: Assessment
    checks: tuple[OpenCheck, ...]
    way: tuple[Tried, ...] | None

    @property
    def finding(self) -> FindingAssessment:
        """The mark to judge, as the program judges it."""
        return self.assessment.finding(self.case.focus)

    @property
    def minutes(self) -> float:
        """Minutes of work on the cheapest way."""
        return sum(one.minutes for one in self.way or ())

    def way_with_places(self, kb: KnowledgeBase) -> list[tuple[Check, str]] | None:
        """The cheapest way, each check with the name of its place where that is not the mark's own."""
        if self.way is None:
            return None
        zones = {one.finding: self.case.finding(one.finding).zone for one in self.way}
        return [
            (one.check, "" if one.finding == self.case.focus else kb.zones[zones[one.finding]].name) for one in self.way
        ]

    @cached_property
    def causes(self) -> tuple[str, ...]:
        """The ids of every cause that is a right answer: the one that was drawn, and what is worth telling."""
        told = [one.id for one in self.likely]
        return tuple(dict.fromkeys(([self.case.cause] if self.case.cause else []) + told))

    @cached_property
    def likely(self) -> tuple[CauseHypothesis, ...]:
        """What the program thinks may have made the mark, the likeliest first."""
        return tuple(one for one in self.assessment.causes if one.worth_telling and self.case.focus in one.findings)

    @cached_property
    def elsewhere(self) -> tuple[str, ...]:
        """The places where this mark sends people to look, the most worthwhile first."""
        return tuple(dict.fromkeys(zone for zone in self._sent() if zone != self.finding.zone))

    def _sent(self) -> Iterator[str]:
        for one in self.assessment.suspicions:
            if self.case.focus in one.come_from:
                yield one.zone
        lines = [line for stop in self.assessment.plan for line in stop.lines if self.case.focus in line.findings]
        for line in sorted(lines, key=lambda line: line.rank):
            yield line.zone

    @property
    def because(self) -> str:
        """Why the verdict is what it is, in the words of the rule that was moved first, or why it is only looks."""
        return self.finding.why[0].because if self.finding.why else self.finding.harmless

    @property
    def rule(self) -> str:
        """The rule that was moved first; empty where nothing raises the verdict."""
        return self.finding.why[0].rule if self.finding.why else ""


def key_of(kb: KnowledgeBase, case: Case) -> Key:
    """The key to a case: the program's own assessment of the truth."""
    first = assess_survey(case.shown, kb).finding(case.focus)
    return Key(case, assess_survey(case.truth, kb), first.checks, cheapest_way(kb, case))
