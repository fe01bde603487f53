"""The causes of a survey that was judged by any engine."""

from __future__ import annotations

from collections.abc import Sequence

from triage.causes.diagnose import Diagnosis, diagnose
from triage.causes.referrals import referrals_of, suspected
from triage.coverage import Coverage
from triage.inference.evaluation import Evaluation
from triage.knowledge.model import KnowledgeBase
from triage.survey.model import Survey


def diagnosis(kb: KnowledgeBase, survey: Survey, evaluations: Sequence[Evaluation]) -> Diagnosis:
    coverage = Coverage(kb, survey, evaluations)
    referrals = referrals_of(coverage)
    return diagnose(coverage, referrals, suspected(coverage, referrals))
