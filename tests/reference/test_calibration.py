"""How far confidence is from what came true, against a published example."""

from __future__ import annotations

import pytest

from tests.teaching.test_marking import run
from triage.knowledge.model import KnowledgeBase
from triage.teaching.classes import Class


def test_brier_score_of_the_docstring_of_scikit_learn(kb: KnowledgeBase) -> None:
    """scikit-learn 1.9.1, sklearn.metrics.brier_score_loss: outcomes 0, 1, 1, 0 at 0.1, 0.9, 0.8, 0.3 give 0.0375."""
    from triage.teaching.marking import marked_class

    told = ((0, 10), (2, 90), (2, 80), (0, 30))
    one = Class("A", tuple(run(str(who), verdict=verdict, confidence=sure) for who, (verdict, sure) in enumerate(told)))

    brier = marked_class(kb, one).brier

    assert brier is not None
    assert brier.value == pytest.approx(0.0375)
