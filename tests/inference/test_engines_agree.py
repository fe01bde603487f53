"""One meaning, several engines: levels, fired rules and traces are equal on random surveys and on random rule bases.

The larger runs are marked slow; TRIAGE_EXAMPLES says how many examples each of them makes. 100,000 is a night's work.
"""

from __future__ import annotations

import math
import os
from collections.abc import Sequence
from itertools import product
from typing import get_args

import pytest
from hypothesis import given, seed, settings
from hypothesis import strategies as st

from tests.engines import ENGINES, Told
from tests.inference.small import boat, finding, knowledge, rule
from tests.oracle import judge
from tests.strategies import boats_with_findings, knowledge_bases
from triage.inference.evaluate import evaluate
from triage.inference.forward import forward
from triage.knowledge.model import KnowledgeBase
from triage.knowledge.model.conditions import AtLeast, Elsewhere, Where
from triage.knowledge.store.load import load_knowledge
from triage.survey.model import Boat, Finding

EXAMPLES = int(os.environ.get("TRIAGE_EXAMPLES", "1000"))

BATCH = 500
"""hypothesis remembers every example of a run; in batches, each with a seed of its own, a long night fits in memory."""

BOATS_FOR_EACH_BASE = 3
"""Random rules are dear to draw, random boats are cheap."""


def in_batches(examples: int) -> pytest.MarkDecorator:
    return pytest.mark.parametrize("batch", range(math.ceil(examples / BATCH)))


def above_best(told: Told) -> list[dict[str, tuple[dict[str, int], set[str]]]]:
    """What an engine told, without levels of 0, which it may tell or leave out."""
    return [
        {bound: ({s: n for s, n in naive.levels.items() if n}, naive.fired) for bound, naive in finding.items()}
        for finding in told
    ]


def agree(kb: KnowledgeBase, boat: Boat, found: Sequence[Finding]) -> None:
    expected = above_best(judge(kb, boat, found))

    actual = {name: above_best(engine(kb, boat, found)) for name, engine in ENGINES.items()}

    assert dict.fromkeys(ENGINES, expected) == actual
    assert evaluate(kb, boat, found) == forward(kb, boat, found)  # the traces too


def agree_on_shipped_rules(data: st.DataObject) -> None:
    kb = load_knowledge()
    boat, found = data.draw(boats_with_findings(kb, most=4))

    agree(kb, boat, found)


def agree_on_random_rules(data: st.DataObject) -> None:
    kb = data.draw(knowledge_bases())
    for wagtail, found in data.draw(st.lists(boats_with_findings(kb), min_size=1, max_size=BOATS_FOR_EACH_BASE)):
        agree(kb, wagtail, found)


@pytest.mark.parametrize("where", get_args(Where))
def test_the_engines_agree_on_who_stands_where(where: Where) -> None:
    """Every two places, each on either side or on nobody knows which."""
    kb = knowledge(rule("asks", Elsewhere(AtLeast("give", 1), 1, where), {"verdict": 1}))
    places = [("deck", "port"), ("deck", "starboard"), ("deck", None), ("rim", None), ("tank", None)]

    for (zone, side), (its_zone, its_side) in product(places, repeat=2):
        agree(kb, boat(), [finding(zone, "line", side), finding(its_zone, "gouge", its_side, give=1)])


@settings(max_examples=80)
@given(data=st.data())
def test_the_engines_agree_on_the_shipped_rules(data: st.DataObject) -> None:
    agree_on_shipped_rules(data)


@settings(max_examples=80)
@given(data=st.data())
def test_the_engines_agree_on_random_rules(data: st.DataObject) -> None:
    agree_on_random_rules(data)


@pytest.mark.slow
@in_batches(EXAMPLES)
def test_the_engines_agree_on_many_more_surveys(batch: int) -> None:
    seed(batch)(settings(max_examples=BATCH)(given(data=st.data())(agree_on_shipped_rules)))()


@pytest.mark.slow
@in_batches(EXAMPLES)
def test_the_engines_agree_on_many_more_random_rules(batch: int) -> None:
    seed(batch)(settings(max_examples=BATCH)(given(data=st.data())(agree_on_random_rules)))()
