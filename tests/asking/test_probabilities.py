"""How likely each verdict is: what trying every answer gives, and a matter of what is known and not of names."""

from __future__ import annotations

import itertools
import math
from collections.abc import Mapping
from dataclasses import replace

import pytest

from triage.asking.probabilities import damaged_chance, shares_of_classes, verdict_chances
from triage.inference.whatif import WhatIf
from triage.knowledge.model import KnowledgeBase
from triage.survey.model import Boat, Finding, Reading

FEW = 300
"""Ways of answering that are tried one by one."""


def what_if(kb: KnowledgeBase, finding: Finding) -> WhatIf:
    return WhatIf(kb, Boat("Wagtail"), finding, [finding])


def chances(kb: KnowledgeBase, finding: Finding) -> Mapping[int, float]:
    whatif = what_if(kb, finding)
    return verdict_chances(kb, whatif.outlook, (*whatif.unanswered, *whatif.attempted))


def tried_one_by_one(kb: KnowledgeBase, whatif: WhatIf) -> dict[int, float]:
    """The chances by the best end of what every way of answering comes to."""
    damaged = damaged_chance(kb, whatif.finding)
    ways = [
        [(scale, level, shares) for level, shares in shares_of_classes(kb, whatif.outlook, scale).items()]
        for scale in whatif.unanswered
    ]
    found: dict[int, float] = {}
    for way in itertools.product(*ways):
        best = whatif.outlook.answering({scale: level for scale, level, _ in way}).ranges[0][0]
        sound, worse = (math.prod(shares[kind] for _, _, shares in way) for kind in (False, True))
        found[best] = found.get(best, 0.0) + (1 - damaged) * sound + damaged * worse
    return found


def test_the_chances_are_those_of_trying_every_answer(kb: KnowledgeBase) -> None:
    tried = 0
    for zone, signs in kb.offers.items():
        whatif = what_if(kb, Finding("mark", zone, signs[0]))
        ways = math.prod(len(whatif.outlook.equivalence_classes(scale)) for scale in whatif.unanswered)
        if 1 < ways <= FEW and not whatif.outlook.unknown_facts:
            expected = tried_one_by_one(kb, whatif)
            assert {k: v for k, v in chances(kb, whatif.finding).items() if v} == pytest.approx(
                {k: v for k, v in expected.items() if v}
            )
            tried += 1
    assert tried >= 3


def test_a_mark_under_another_name_has_the_same_chances(kb: KnowledgeBase) -> None:
    for zone, signs in list(kb.offers.items())[:8]:
        one = Finding("one", zone, signs[0])

        assert chances(kb, one) == chances(kb, replace(one, id="other", note="seen from afar"))


def test_an_answer_that_may_mean_several_levels_leaves_only_these(kb: KnowledgeBase) -> None:
    scale = kb.applicable("topside", "gouge_fibre")[0]
    top = kb.worst("gouge_fibre", scale)
    unclear = Finding("mark", "topside", "gouge_fibre", None, {scale: Reading(top - 1, top, "one of the two")})
    classes = what_if(kb, unclear).outlook.equivalence_classes(scale)

    assert {top - 1, top} == {level for levels in classes for level in levels}
    assert pytest.approx(1.0) == sum(chances(kb, unclear).values())
