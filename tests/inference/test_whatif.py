"""What if: judging only what an answer can rest on gives the same as judging the whole boat again."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from itertools import product
from typing import get_args

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.inference.small import boat, finding, knowledge, rule
from tests.strategies import boats_with_findings, knowledge_bases
from triage.inference.evaluate import evaluate
from triage.inference.whatif import WhatIf, rests_on
from triage.knowledge.conditions import All, AtLeast, Elsewhere, Is, Where
from triage.knowledge.model import KnowledgeBase
from triage.survey.model import Finding, Reading


def with_answer(findings: Sequence[Finding], me: int, scale: str, level: int) -> list[Finding]:
    """The findings with one scale of one of them answered so."""
    readings = {**findings[me].readings, scale: Reading(level, "what if")}
    return [replace(one, readings=readings) if n == me else one for n, one in enumerate(findings)]


def check_one_answer(kb: KnowledgeBase, data: st.DataObject) -> None:
    wagtail, findings = data.draw(boats_with_findings(kb, most=6))
    me = data.draw(st.integers(0, len(findings) - 1))
    group = rests_on(kb, wagtail, findings)[me]
    as_it_is = [one for one in evaluate(kb, wagtail, findings) if one.finding in group]
    whatif = WhatIf(kb, wagtail, findings[me], group, as_it_is)
    if not whatif.applicable:
        return
    scale = data.draw(st.sampled_from(whatif.applicable))
    level = data.draw(st.sampled_from(whatif.levels(scale)))

    expected = evaluate(kb, wagtail, with_answer(findings, me, scale, level))[me]

    assert expected == whatif.judged({scale: level})


@settings(max_examples=150)
@given(data=st.data())
def test_on_random_rules(data: st.DataObject) -> None:
    check_one_answer(data.draw(knowledge_bases()), data)


@settings(max_examples=100)
@given(data=st.data())
def test_on_the_shipped_rules(kb: KnowledgeBase, data: st.DataObject) -> None:
    check_one_answer(kb, data)


@pytest.mark.parametrize("where", get_args(Where))
@pytest.mark.parametrize("count", [1, 2])
def test_on_findings_that_move_each_other_back_and_forth(count: int, where: Where) -> None:
    """An answer here gives there a hold that this one is judged by in turn, if so many others give as well."""
    kb = knowledge(
        rule("asks", Elsewhere(AtLeast("give", 2), count, where), {"hold": 2}),
        rule("asks-back", Elsewhere(AtLeast("hold", 2), 1, "anywhere"), {"verdict": 2}),
    )
    places = (("deck", "port"), ("deck", "starboard"), ("rim", None), ("tank", None))
    for levels in product((None, 0, 2), repeat=len(places)):
        told = [{} if level is None else {"give": level} for level in levels]
        found = [finding(zone, "line", side, **some) for (zone, side), some in zip(places, told, strict=True)]
        for me, group in enumerate(rests_on(kb, boat(), found)):
            whatif = WhatIf(kb, boat(), found[me], group)
            for level in range(4):
                expected = evaluate(kb, boat(), with_answer(found, me, "give", level))[me]

                assert expected == whatif.judged({"give": level})


def test_a_fact_told_of_the_boat_moves_the_others_too() -> None:
    cored_step = All((Is("zone", ("step",)), Is("build", ("cored",))))
    kb = knowledge(
        rule("core", cored_step, {"glass": 2}),
        rule(
            "beside-the-step",
            All((Is("zone", ("rim",)), Elsewhere(AtLeast("glass", 2), 1, "anywhere"))),
            {"verdict": 2},
        ),
    )
    found = [finding("rim", "line"), finding("step", "line")]
    whatif = WhatIf(kb, boat(), found[0], rests_on(kb, boat(), found)[0])

    assert [(2, 2), (0, 0)] == [whatif.judged({"build": built}).range("verdict") for built in ("cored", "single")]
