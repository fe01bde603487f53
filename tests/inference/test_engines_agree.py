"""One meaning, several engines: verdicts and traces are equal on random surveys and on random rule bases."""

from __future__ import annotations

from collections.abc import Callable, Sequence

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from tests.oracle import judge
from tests.strategies import boats_with_findings, knowledge_bases
from triage.inference.evaluate import evaluate
from triage.inference.forward import forward
from triage.inference.outcome import BOUNDS, Judged
from triage.knowledge.model import KnowledgeBase
from triage.survey.model import Boat, Finding

Engine = Callable[[KnowledgeBase, Boat, Sequence[Finding]], tuple[Judged, ...]]
ENGINES: dict[str, Engine] = {"evaluate": evaluate, "forward": forward}


@pytest.fixture(params=ENGINES)
def engine(request: pytest.FixtureRequest) -> Engine:
    return ENGINES[request.param]


def check_against_oracle(engine: Engine, kb: KnowledgeBase, boat: Boat, found: Sequence[Finding]) -> None:
    expected = judge(kb, boat, found)

    actual = engine(kb, boat, found)

    for naive, judged in zip(expected, actual, strict=True):
        for bound in BOUNDS:
            end = judged.end(bound)
            assert {s: n for s, n in naive[bound].levels.items() if n} == {s: n for s, n in end.levels.items() if n}
            assert naive[bound].fired == {firing.rule.id for firing in end.firings}


@settings(max_examples=150, deadline=None, suppress_health_check=list(HealthCheck))
@given(data=st.data())
def test_an_engine_means_what_the_oracle_means_on_random_rules(engine: Engine, data: st.DataObject) -> None:
    kb = data.draw(knowledge_bases())
    boat, found = data.draw(boats_with_findings(kb))

    check_against_oracle(engine, kb, boat, found)


@settings(max_examples=150, deadline=None, suppress_health_check=list(HealthCheck))
@given(data=st.data())
def test_the_engines_tell_the_same_story_on_random_rules(data: st.DataObject) -> None:
    kb = data.draw(knowledge_bases())
    boat, found = data.draw(boats_with_findings(kb))

    assert evaluate(kb, boat, found) == forward(kb, boat, found)
