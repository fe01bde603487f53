"""From a judged survey to its causes, its stories and the plan of what to look at next."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from triage.causes.descriptions import Descriptions
from triage.causes.evidence import evidence, weighed
from triage.causes.plan import Planner
from triage.causes.rank import ranking
from triage.causes.referrals import Referral, Suspected
from triage.causes.stories import stories
from triage.conclusions.diagnosis import CauseHypothesis, Stop, Story
from triage.coverage import Coverage


@dataclass(frozen=True)
class Diagnosis:
    """What a survey says about causes."""

    causes: tuple[CauseHypothesis, ...] = ()
    stories: tuple[Story, ...] = ()
    plan: tuple[Stop, ...] = ()


def diagnose(coverage: Coverage, referrals: Sequence[Referral], open_: Sequence[Suspected]) -> Diagnosis:
    """The causes of what was found, and what to look at next: for their sake, and for what is suspected (``open_``).

    Raises BadRules when the causes share so many marks that an exact answer would take too long.
    """
    kb = coverage.kb
    weights = kb.causation.weights
    if weights is None:
        return Diagnosis()
    known = evidence(coverage, referrals)
    posterior = weighed(kb, weights, known)
    described = Descriptions(coverage, weights, known, ranking(kb, weights, known, posterior))
    plan = Planner(coverage, described, posterior, open_).plan()
    return Diagnosis(described.causes(), stories(described, referrals), plan)
