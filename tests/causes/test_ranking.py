"""Causes in words: what comes first, what is equal, what speaks for and against, and what an answer changes."""

from __future__ import annotations

import dataclasses
import re
from collections.abc import Callable
from typing import Any

from hypothesis import given, settings
from hypothesis import strategies as st

from tests.diagnosing import diagnosis
from tests.strategies import boats_with_findings
from triage.concluding.assess import assess_survey
from triage.conclusions.assessment import Assessment
from triage.conclusions.diagnosis import CauseHypothesis, Support
from triage.inference.evaluate import evaluate
from triage.knowledge.store.load import load_knowledge
from triage.phrases.boat import objection
from triage.survey.model import Survey

Assess = Callable[[str], Assessment]

SPLIT = "{zone: board, sign: foil_split}"


def of(assessment: Assessment) -> dict[str, CauseHypothesis]:
    return {cause.id: cause for cause in assessment.causes}


def boat(findings: str, history: str = "{}", facts: str = "{}") -> str:
    return f"boat: {{name: Ruff, facts: {facts}}}\nhistory: {history}\nfindings: [{findings}]"


def test_only_causes_that_something_speaks_for_are_told(assess_text: Assess) -> None:
    assert {"grounding", "capsize_board", "frost"} == set(of(assess_text(boat(SPLIT))))
    assert () == assess_text(boat("")).causes


def test_a_mark_that_was_looked_for_in_vain_speaks_against_its_cause(assess_text: Assess) -> None:
    firm = "sign: nothing_seen, readings: {depth: 0}"
    passed = f"{{zone: stem, {firm}}}, {{zone: forefoot, {firm}}}"

    before, after = assess_text(boat(SPLIT)), assess_text(boat(f"{SPLIT}, {passed}"))

    assert ["grounding", "capsize_board", "frost"] == [cause.id for cause in before.causes]
    assert ["capsize_board", "frost", "grounding"] == [cause.id for cause in after.causes]
    assert ("likely", "possible") == (of(before)["grounding"].likelihood, of(after)["grounding"].likelihood)
    assert "Nose of the hull: no “Chip on an edge” was found. This cause usually leaves it." in [
        objection(one) for one in of(after)["grounding"].speaks_against
    ]


def test_a_bare_look_speaks_for_no_cause_and_against_none(assess_text: Assess) -> None:
    seen = "{zone: stem, sign: nothing_seen}, {zone: forefoot, sign: nothing_seen}"

    assert assess_text(boat(SPLIT)).causes == assess_text(boat(f"{SPLIT}, {seen}")).causes


def test_equal_causes_are_called_equal_and_by_the_same_word(assess_text: Assess) -> None:
    told = of(assess_text(boat("{zone: mast_low, sign: spar_rot}", facts="{spar: alloy}")))

    assert told["galvanic"].alike == (told["mixed_metal"].name,)
    assert told["mixed_metal"].alike == (told["galvanic"].name,)
    assert told["galvanic"].likelihood == told["mixed_metal"].likelihood


def test_causes_of_different_marks_are_not_compared(assess_text: Assess) -> None:
    told = of(assess_text(boat("{zone: shrouds, sign: wire_fray}, {zone: bottom, sign: blister}")))

    assert all(told[one].name not in told[other].alike for one in ("fatigue", "chafe") for other in ("cradle_wet",))


def test_an_answer_speaks_for_or_against_a_cause_and_is_told_as_somebodys_word(assess_text: Assess) -> None:
    yes, no, unknown = (
        of(assess_text(boat(SPLIT, f"{{frost: {answer}}}")))["frost"] for answer in ("yes", "no", "unknown")
    )

    assert ("possible", "little speaks for it", "little speaks for it") == (
        yes.likelihood,
        no.likelihood,
        unknown.likelihood,
    )
    assert Support("said") in yes.speaks_for
    assert Support("said") in no.speaks_against
    assert ("yes", "no", "unknown") == (yes.answer, no.answer, unknown.answer)


def test_a_cause_that_does_less_than_a_likelier_one_says_so(assess_text: Assess) -> None:
    told = of(assess_text(boat(f"{SPLIT}, {{zone: forefoot, sign: gouge_fibre}}")))

    assert Support("likelier", cause=told["grounding"].name) in told["capsize_board"].speaks_against


def words(value: Any) -> list[str]:
    """Every sentence in a value."""
    if isinstance(value, str):
        return [value]
    if dataclasses.is_dataclass(value):
        return [word for field in dataclasses.fields(value) for word in words(getattr(value, field.name))]
    return [word for part in value for word in words(part)] if isinstance(value, tuple) else []


@settings(max_examples=30)
@given(data=st.data())
def test_any_survey_is_told_without_a_figure_of_certainty(data: st.DataObject) -> None:
    kb = load_knowledge()
    made, found = data.draw(boats_with_findings(kb, most=6))
    history = data.draw(
        st.dictionaries(st.sampled_from(list(kb.causation.causes)), st.sampled_from(["yes", "no", "unknown"]))
    )
    survey = Survey(made, found, history=history).in_walk_order(kb)

    told = diagnosis(kb, survey, evaluate(kb, made, survey.findings))

    says = words((told.causes, told.stories, tuple(line.reasons for stop in told.plan for line in stop.lines)))
    assert not [text for text in says if re.search(r"\d+ ?%|0\.\d", text)]
    assert sorted(line.rank for stop in told.plan for line in stop.lines) == list(
        range(1, sum(len(stop.lines) for stop in told.plan) + 1)
    )


@settings(max_examples=40)
@given(data=st.data())
def test_the_order_in_which_things_are_written_changes_nothing(data: st.DataObject) -> None:
    kb = load_knowledge()
    made, found = data.draw(boats_with_findings(kb, most=6))
    mixed = data.draw(st.permutations(found))

    one, other = (Survey(made, tuple(some)).in_walk_order(kb) for some in (found, mixed))

    assert diagnosis(kb, one, evaluate(kb, made, one.findings)) == diagnosis(
        kb, other, evaluate(kb, made, other.findings)
    )


@settings(max_examples=15)
@given(data=st.data())
def test_an_answer_about_a_cause_never_touches_a_verdict(data: st.DataObject) -> None:
    kb = load_knowledge()
    made, found = data.draw(boats_with_findings(kb, most=2))
    history = dict.fromkeys(kb.causation.causes, data.draw(st.sampled_from(["yes", "no"])))

    without, with_answers = (
        assess_survey(Survey(made, found), kb),
        assess_survey(Survey(made, found, history=history), kb),
    )

    nothing: dict[str, Any] = {"causes": (), "stories": (), "plan": ()}
    assert dataclasses.replace(without, **nothing) == dataclasses.replace(with_answers, **nothing)
