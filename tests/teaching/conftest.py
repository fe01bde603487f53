"""What tests of teaching share: a case, and somebody who plays it."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping

import pytest

from triage.knowledge.model import KnowledgeBase
from triage.survey.model import Finding
from triage.teaching.cases import Case
from triage.teaching.drawn import case_named, draw_case
from triage.teaching.run import State, begin, step

Player = Callable[..., State]

MANY = 150
"""Drawn boats on which the laws are tried."""


@pytest.fixture(scope="session")
def cases(kb: KnowledgeBase) -> list[Case]:
    return [draw_case(kb, seed) for seed in range(1, MANY + 1)]


def findings(cases: list[Case]) -> Iterator[tuple[str, Finding]]:
    return ((case.name, one) for case in cases for one in case.truth.findings)


@pytest.fixture
def play(kb: KnowledgeBase) -> Player:
    """Play a case: what is named by the id of its answer, all else by the first choice; no checks but these."""

    def play(case: Case | str, checks: tuple[str, ...] = (), sure: int = 80, **answers: str) -> State:
        state = begin(kb, case_named(kb, case) if isinstance(case, str) else case)
        wanted = [*checks]
        while (question := state.asks) is not None:
            ids: Mapping[str, int] = {one.id: number for number, one in enumerate(question.choices)}
            if not question.choices:
                number = sure
            elif question.about == "check":
                number = ids[wanted.pop(0) if wanted else "stop"]
            else:
                number = ids[answers[question.about]] if question.about in answers else 0
            state, _ = step(kb, state, number)
        return state

    return play
