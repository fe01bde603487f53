"""What the engines are measured against still knows the rules as they are: nothing else would notice."""

from __future__ import annotations

import random

import pytest

from tests.benchmarks import naive_experta
from tests.benchmarks.__main__ import agreement, some_boat
from triage.knowledge.model import KnowledgeBase


@pytest.mark.slow
def test_rules_as_one_would_first_write_them_come_to_the_same(kb: KnowledgeBase) -> None:
    boats = [some_boat(kb, 5, random.Random(seed)) for seed in range(2)]

    assert [(True, True, True, True)] * 2 == agreement(kb, naive_experta.build(kb), boats)
