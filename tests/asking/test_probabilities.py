"""How likely each verdict is: exact where that is cheap, a matter of what is known and not of names."""

from __future__ import annotations

from dataclasses import replace

import pytest

from triage.asking import probabilities
from triage.asking.probabilities import verdict_chances
from triage.inference.whatif import WhatIf
from triage.knowledge.model import KnowledgeBase
from triage.survey.model import Boat, Finding, Reading


def chances(kb: KnowledgeBase, finding: Finding, boat: Boat | None = None) -> dict[int, float]:
    whatif = WhatIf(kb, boat or Boat("Wagtail"), finding, [finding])
    return dict(verdict_chances(kb, whatif.outlook, (*whatif.unanswered, *whatif.attempted)))


@pytest.mark.parametrize("combinations", [0, probabilities.MAX_COMBINATIONS])
def test_a_mark_under_another_name_has_the_same_chances(
    kb: KnowledgeBase, combinations: int, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(probabilities, "MAX_COMBINATIONS", combinations)
    for zone, signs in list(kb.offers.items())[:8]:
        one = Finding("one", zone, signs[0])

        assert chances(kb, one) == chances(kb, replace(one, id="other", note="seen from afar"))


def test_samples_come_near_to_what_is_exact(kb: KnowledgeBase, monkeypatch: pytest.MonkeyPatch) -> None:
    marks = [Finding("mark", "stem", "edge_chip"), Finding("mark", "topside", "gouge_fibre")]
    exact = [chances(kb, mark) for mark in marks]
    monkeypatch.setattr(probabilities, "MAX_COMBINATIONS", 0)
    monkeypatch.setattr(probabilities, "SAMPLES", 4000)

    for expected, actual in zip(exact, (chances(kb, mark) for mark in marks), strict=True):
        assert pytest.approx(1.0) == sum(expected.values())
        for level in expected.keys() | actual.keys():
            assert pytest.approx(expected.get(level, 0.0), abs=0.04) == actual.get(level, 0.0)


def test_an_answer_that_may_mean_several_levels_leaves_only_these(kb: KnowledgeBase) -> None:
    scale = kb.applicable("topside", "gouge_fibre")[0]
    top = kb.worst("gouge_fibre", scale)
    unclear = Finding("mark", "topside", "gouge_fibre", None, {scale: Reading(top - 1, top, "one of the two")})
    classes = WhatIf(kb, Boat("Wagtail"), unclear, [unclear]).outlook.equivalence_classes(scale)

    assert {top - 1, top} == {level for levels in classes for level in levels}
    assert pytest.approx(1.0) == sum(chances(kb, unclear).values())
