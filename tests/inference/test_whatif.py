"""What if: judging only what an answer can rest on gives the same as judging the whole boat again."""

from __future__ import annotations

from dataclasses import replace

from hypothesis import given, settings
from hypothesis import strategies as st

from tests.strategies import boats_with_findings, knowledge_bases
from triage.inference.evaluate import evaluate
from triage.inference.whatif import WhatIf, rests_on
from triage.knowledge.model import KnowledgeBase
from triage.survey.model import Reading


def check_one_answer(kb: KnowledgeBase, data: st.DataObject) -> None:
    boat, findings = data.draw(boats_with_findings(kb, most=6))
    me = data.draw(st.integers(0, len(findings) - 1))
    whatif = WhatIf(kb, boat, findings[me], rests_on(kb, boat, findings)[me])
    if not whatif.applicable:
        return
    scale = data.draw(st.sampled_from(whatif.applicable))
    level = data.draw(st.sampled_from(whatif.levels(scale)))
    readings = {**findings[me].readings, scale: Reading(level, "what if")}
    whole = [replace(one, readings=readings) if n == me else one for n, one in enumerate(findings)]

    expected = evaluate(kb, boat, whole)[me]

    assert expected == whatif.judged({scale: level})


@settings(max_examples=150)
@given(data=st.data())
def test_on_random_rules(data: st.DataObject) -> None:
    check_one_answer(data.draw(knowledge_bases()), data)


@settings(max_examples=100)
@given(data=st.data())
def test_on_the_shipped_rules(kb: KnowledgeBase, data: st.DataObject) -> None:
    check_one_answer(kb, data)
