"""What somebody who wrote a rule is told of claims that broke, that nobody could decide, and that nothing showed."""

from __future__ import annotations

from typing import Any

import pytest

from tests.inference.small import rule
from tests.proof.asking import promise, promised, proved
from triage.knowledge.model import KnowledgeBase
from triage.knowledge.model.conditions import All, AtLeast, Is
from triage.proof.cache import AnswerCache
from triage.proof.report import report
from triage.proof.run import Outcome
from triage.proof.symbolic import Formula, Solver, Undecided
from triage.proof.symbolic_state import SymbolicState

SOFT_RIM = All((Is("zone", ("rim",)), Is("sign", ("line",)), AtLeast("give", 2)))
KB = promised(rule("soft", SOFT_RIM, {"verdict": 1}), promise("p/soft", SOFT_RIM, at_least={"verdict": 2}))


def lines(kb: KnowledgeBase, *outcomes: Outcome) -> list[str]:
    return list(report(kb, outcomes))


def test_a_broken_promise_is_told_with_its_place_the_survey_and_what_came_of_it() -> None:
    found = lines(KB, proved(KB, "promise")["promise", "p/soft"])

    assert [
        "Promises, over every survey there can be",
        "  BROKEN  p/soft.",
        "          p/soft (a test), at 1 of 1 place; for example:",
        "",
        "          survey: 1",
        "          boat:",
        "            name: Example",
        "          findings:",
        "          - zone: rim",
        "            sign: line",
        "            readings:",
        "              give: give 2",
        "",
        "          rim.line: verdict: verdict 1 for certain",
        "",
    ] == found[:15]


def test_of_many_places_where_it_breaks_three_are_shown() -> None:
    kb = promised(promise("p/soft", AtLeast("give", 1), at_least={"verdict": 1}))
    outcome = proved(kb, "promise")["promise", "p/soft"]

    assert 3 < len(outcome.found)
    assert 3 == lines(kb, outcome).count("          survey: 1")


def test_two_surveys_that_break_a_law_together_are_told_one_after_the_other(monkeypatch: pytest.MonkeyPatch) -> None:
    honest = SymbolicState.level

    def never_loud(self: SymbolicState, scale: str, level: int) -> Formula:
        return scale != "sound" and honest(self, scale, level)

    kb = promised(rule("loud", AtLeast("sound", 2), {"verdict": 1}), rule("soft", AtLeast("give", 2), {"verdict": 2}))
    monkeypatch.setattr("triage.proof.laws.graver", lambda left, right: left.level("verdict", 2))
    monkeypatch.setattr(SymbolicState, "level", never_loud)

    found = lines(kb, proved(kb, "law")["law", "law/worse-never-milder"])

    assert "          compared with" in found
    assert found.index("          survey: 1") < found.index("          compared with")


def test_what_the_engines_do_not_find_in_the_survey_is_said_to_be_in_doubt(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(SymbolicState, "apply", lambda self, stratum, context: {})  # the formulas know no rules
    kept = promised(rule("soft", SOFT_RIM, {"verdict": 2}), promise("p/soft", SOFT_RIM, at_least={"verdict": 2}))

    outcome = proved(kept, "promise")["promise", "p/soft"]

    assert not outcome.holds
    assert (
        "          The engines do not find this in the survey: it needs context, or the proof itself is at fault."
        in (lines(kept, outcome))
    )


def test_what_the_solver_gave_up_is_not_proved_and_not_remembered(monkeypatch: pytest.MonkeyPatch) -> None:
    def gives_up(self: Solver, *_: Any) -> bool:
        raise Undecided("timeout")

    monkeypatch.setattr(Solver, "can", gives_up)
    cache = AnswerCache()
    kept: list[dict[str, bool]] = []
    monkeypatch.setattr(cache, "store", kept.append)

    outcome = proved(KB, "promise", cache=cache)["promise", "p/soft"]

    assert not outcome.holds
    assert [{}] == kept
    assert ["  OPEN    p/soft.", "          p/soft (a test): the solver gave up 1 time (timeout)"] == lines(
        KB, outcome
    )[1:3]


def test_a_rule_that_nothing_shows_is_told_with_its_place() -> None:
    kb = promised(rule("soft", SOFT_RIM, {"verdict": 1}), rule("softer", SOFT_RIM, {"verdict": 1}))

    outcomes = proved(kb, "nonvacuity")

    (idle,) = (line for line in lines(kb, *outcomes.values()) if line.startswith("  IDLE    softer"))
    assert idle.startswith("  IDLE    softer (a test): there is no survey of which this holds: softer says something")
