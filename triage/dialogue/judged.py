"""A boat of a conversation, judged once for all that a step says about it."""

from __future__ import annotations

from functools import cached_property, lru_cache

from triage.coverage import Coverage
from triage.inference.compiled import Judgement
from triage.inference.evaluation import Evaluation
from triage.inference.forward import forward
from triage.knowledge.model import KnowledgeBase
from triage.survey.model import Survey


class JudgedBoat:
    """A survey in walk order, and what its marks come to."""

    def __init__(self, kb: KnowledgeBase, survey: Survey) -> None:
        self.kb, self.survey = kb, survey.in_walk_order(kb)

    @cached_property
    def evaluations(self) -> tuple[Evaluation, ...]:
        """Every mark, judged by experta."""
        return forward(self.kb, self.survey.boat, self.survey.marks)

    @cached_property
    def judgement(self) -> Judgement:
        """The same by the engine that can judge again when one answer changes."""
        return Judgement.of(self.kb, self.survey.boat, self.survey.marks)

    @cached_property
    def coverage(self) -> Coverage:
        """What was looked at on her."""
        return Coverage(self.kb, self.survey, self.evaluations)


class Same:
    """A key that is the same only for the very same knowledge and survey."""

    def __init__(self, kb: KnowledgeBase, survey: Survey) -> None:
        self.kb, self.survey = kb, survey

    def __eq__(self, other: object) -> bool:
        return isinstance(other, Same) and self.kb is other.kb and self.survey is other.survey

    def __hash__(self) -> int:
        return hash((id(self.kb), id(self.survey)))


def judged_boat(kb: KnowledgeBase, survey: Survey) -> JudgedBoat:
    """The boat, judged; the last few are kept, for a step says several things about one and the one before."""
    return _judged_boat(Same(kb, survey))


@lru_cache(maxsize=4)
def _judged_boat(same: Same) -> JudgedBoat:
    return JudgedBoat(same.kb, same.survey)
