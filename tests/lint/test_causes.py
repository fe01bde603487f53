"""Causes that cannot be weighed, that nothing tells apart, or that send people where nothing matters."""

from __future__ import annotations

import pytest

from tests.mistakes import small_base
from triage.causes.evidence import WIDEST, network_of
from triage.errors import BadRules
from triage.knowledge.model import KnowledgeBase
from triage.lint.causes import cause_problems

CAUSE = """
  {id}:
    name: A kick
    happens: A foot meets the tank.
    prior: rare
    ask: Has anybody kicked her?
    leaves: [{{zone: tank, sign: open_leak, strength: {strength}}}]
    follow_ups: [{{zone: {zone}, check: {check}, strength: weak, because: It may have suffered.}}]
    basis: estimate
"""


def base(*causes: str) -> KnowledgeBase:
    return small_base(kicks="causes:" + "".join(causes))


def cause(name: str, *, strength: str = "strong", zone: str = "tank", check: str = "fill") -> str:
    return CAUSE.format(id=name, strength=strength, zone=zone, check=check)


def problems(kb: KnowledgeBase) -> list[str]:
    found = list(cause_problems(kb))

    assert all(problem.place.line for problem in found)
    return [problem.what for problem in found]


def test_causes_in_good_order_pass() -> None:
    assert [] == problems(base(cause("kick"), cause("punch", strength="weak")))


def test_two_causes_that_leave_the_same_cannot_be_told_apart() -> None:
    assert ["punch leaves the same as kick, as often"] == problems(base(cause("kick"), cause("punch")))


def test_a_check_that_finds_nothing_grave_is_never_worth_making() -> None:
    kb = base(cause("kick", zone="stem", check="measure"))

    assert ["kick sends to measure at stem, which finds nothing that matters"] == problems(kb)


def test_causes_too_entangled_for_an_exact_answer_are_refused_in_place_of_a_guess() -> None:
    kb = base(*(cause(f"kick{number}") for number in range(WIDEST + 1)))
    weights = kb.causation.weights
    assert weights is not None

    with pytest.raises(BadRules, match=f"{WIDEST + 1} of them must be weighed at once"):
        network_of(kb, weights)

    assert any("must be weighed at once" in what for what in problems(kb))
