"""How the findings of one boat hang together: which of them makes a rule suspect which other, found or not."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from triage.inference.evaluation import Evaluation
from triage.knowledge.model import Rule, Suspect
from triage.survey.model import Finding


@dataclass(frozen=True, eq=False)
class Referral:
    """A rule that certainly holds for a finding sends people somewhere; ``there`` are the findings that are there."""

    finding: Finding
    rule: Rule
    suspect: Suspect
    there: tuple[Finding, ...]


def referrals_of(judged: Sequence[Evaluation]) -> tuple[Referral, ...]:
    """Every lead, in the order of the findings and their rules."""
    findings = [one.finding for one in judged]
    return tuple(
        Referral(one.finding, firing.rule, suspect, _there(one.finding, suspect, findings))
        for one in judged
        for firing in one.lower.firings
        for suspect in firing.rule.suspects
    )


def _there(finding: Finding, suspect: Suspect, findings: Sequence[Finding]) -> tuple[Finding, ...]:
    return tuple(
        other
        for other in findings
        if (other.zone, other.sign) == (suspect.zone, suspect.sign)
        and other is not finding
        and not _opposite(finding, other)
    )


def _opposite(one: Finding, other: Finding) -> bool:
    """Whether the two are known to be on opposite sides."""
    return one.side is not None and other.side is not None and one.side != other.side
