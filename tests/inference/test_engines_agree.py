"""One meaning, several engines: levels, fired rules and traces are equal on random surveys and on random rule bases.

The larger runs are marked slow; TRIAGE_EXAMPLES says how many examples each of them makes. 100,000 is a night's work.
"""

from __future__ import annotations

import math
import os
from collections.abc import Mapping, Sequence
from dataclasses import replace
from itertools import product
from typing import get_args

import pytest
from hypothesis import given, note, seed, settings
from hypothesis import strategies as st

from tests.engines import PLAIN, TRACING, Told, Tracing, told
from tests.inference.small import boat, finding, knowledge, rule
from tests.oracle import judge
from tests.strategies import boats_with_findings, knowledge_bases, shown
from triage.inference.evaluate import evaluate
from triage.inference.evaluation import Evaluation, Fixpoint
from triage.knowledge.compiled.conjuncts import Conjunct, conjuncts_of
from triage.knowledge.model import KnowledgeBase
from triage.knowledge.model.conditions import Any as AnyOf
from triage.knowledge.model.conditions import AtLeast, Elsewhere, Where
from triage.knowledge.store.load import load_knowledge
from triage.survey.model import Boat, Finding

EXAMPLES = int(os.environ.get("TRIAGE_EXAMPLES", "100"))

BATCH = 100
"""hypothesis remembers every example of a run; in batches, each with a seed of its own, a long night fits in memory."""

BOATS_FOR_EACH_BASE = 3
"""Random rules are dear to draw, random boats are cheap."""


def in_batches(examples: int) -> pytest.MarkDecorator:
    return pytest.mark.parametrize("batch", range(math.ceil(examples / BATCH)))


def above_best(findings: Told) -> list[dict[str, tuple[dict[str, int], set[str]]]]:
    """What an engine told, without levels of 0, which it may tell or leave out."""
    return [
        {bound: ({s: n for s, n in naive.levels.items() if n}, naive.fired) for bound, naive in finding.items()}
        for finding in findings
    ]


def agree(kb: KnowledgeBase, boat: Boat, findings: Sequence[Finding]) -> None:
    traces = {name: engine(kb, boat, findings) for name, engine in TRACING.items()}
    found = {name: told(trace) for name, trace in traces.items()}
    found |= {name: engine(kb, boat, findings) for name, engine in PLAIN.items()}

    actual = {name: above_best(one) for name, one in found.items()}

    assert dict.fromkeys(found, above_best(judge(kb, boat, findings))) == actual
    assert dict.fromkeys(traces, traces["evaluate"]) == traces


def agree_on_shipped_rules(data: st.DataObject) -> None:
    kb = load_knowledge()
    boat, found = data.draw(boats_with_findings(kb, most=4))

    agree(kb, boat, found)


def agree_on_random_rules(data: st.DataObject) -> None:
    kb = data.draw(knowledge_bases())
    note(shown(kb))
    for wagtail, found in data.draw(st.lists(boats_with_findings(kb), min_size=1, max_size=BOATS_FOR_EACH_BASE)):
        agree(kb, wagtail, found)


@pytest.mark.parametrize("where", get_args(Where))
def test_the_engines_agree_on_who_stands_where(where: Where) -> None:
    """Every two places, each on either side or on nobody knows which."""
    kb = knowledge(rule("asks", Elsewhere(AtLeast("give", 1), 1, where), {"verdict": 1}))
    places = [("deck", "port"), ("deck", "starboard"), ("deck", None), ("rim", None), ("tank", None)]

    for (zone, side), (its_zone, its_side) in product(places, repeat=2):
        agree(kb, boat(), [finding(zone, "line", side), finding(its_zone, "gouge", its_side, give=1)])


def latest_first(kb: KnowledgeBase, boat: Boat, findings: Sequence[Finding]) -> tuple[Evaluation, ...]:
    """Fires in the wrong order."""

    def upside_down(end: Fixpoint) -> Fixpoint:
        return replace(end, firings=end.firings[::-1])

    judged = evaluate(kb, boat, findings)
    return tuple(replace(one, lower=upside_down(one.lower), upper=upside_down(one.upper)) for one in judged)


def last_conjunct(kb: KnowledgeBase, boat: Boat, findings: Sequence[Finding]) -> tuple[Evaluation, ...]:
    """Of several conjuncts that hold it lets the wrong one speak."""

    def otherwise(end: Fixpoint) -> Fixpoint:
        firings = (
            replace(one, conjunct=[c for c in conjuncts_of(kb, one.rule.when) if holds_at(c, end.levels)][-1])
            for one in end.firings
        )
        return replace(end, firings=tuple(firings))

    judged = evaluate(kb, boat, findings)
    return tuple(replace(one, lower=otherwise(one.lower), upper=otherwise(one.upper)) for one in judged)


def holds_at(conjunct: Conjunct, levels: Mapping[str, int]) -> bool:
    return all(levels.get(scale, 0) >= level for scale, level in conjunct.levels)


@pytest.mark.parametrize("wrong", [latest_first, last_conjunct])
def test_an_engine_whose_trace_alone_is_wrong_is_noticed(wrong: Tracing, monkeypatch: pytest.MonkeyPatch) -> None:
    soft_or_dull = rule("soft-or-dull", AnyOf((AtLeast("give", 1), AtLeast("sound", 1))), {"verdict": 1})
    kb = knowledge(soft_or_dull, rule("soft", AtLeast("give", 1), {"verdict": 2}))
    found = [finding("rim", "line", give=1, sound=1)]
    agree(kb, boat(), found)

    monkeypatch.setitem(TRACING, "wrong", wrong)

    with pytest.raises(AssertionError):
        agree(kb, boat(), found)


@settings(max_examples=25)
@given(data=st.data())
def test_the_engines_agree_on_the_shipped_rules(data: st.DataObject) -> None:
    agree_on_shipped_rules(data)


@settings(max_examples=30)
@given(data=st.data())
def test_the_engines_agree_on_a_rule_or_two(data: st.DataObject) -> None:
    """What is wrong in most engines is wrong here already, and is shrunk in seconds."""
    kb = data.draw(knowledge_bases(rules=2, presumptions=1))
    note(shown(kb))

    agree(kb, *data.draw(boats_with_findings(kb, most=2)))


@settings(max_examples=25)
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
