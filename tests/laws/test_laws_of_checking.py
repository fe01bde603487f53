"""The laws of what is open: the checks on offer settle all of it, and no presumption settles it in their place."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.laws.ranges import shipped
from tests.strategies import boats_with_findings
from triage.conclusions.ranges import is_open
from triage.coverage import Coverage
from triage.dialogue.interview import add_finding, answer, next_question
from triage.dialogue.question import Done, Question
from triage.inference.evaluate import evaluate
from triage.knowledge.model import AFLOAT, TOW, VERDICT, KnowledgeBase
from triage.proof.symbolic import Formula, both, either, no
from triage.proof.symbolic_state import SymbolicState, symbolic_states
from triage.proof.symbolic_survey import SymbolicSurvey
from triage.survey.model import Boat, Survey
from triage.survey.read import survey_from_text

UNKNOWN = Boat("any")
ANSWERS = (VERDICT, AFLOAT, TOW)


def pairs(kb: KnowledgeBase) -> Iterator[tuple[str, str]]:
    """Every sign in every zone."""
    yield from ((zone, sign) for zone, signs in kb.offers.items() for sign in signs)


def asked_to_the_end(kb: KnowledgeBase, zone: str, sign: str, choose: Callable[[Question], str]) -> Survey:
    """A mark on a boat of which nothing is known, after every question that was asked about it was answered."""
    survey, mark = add_finding(kb, Survey(UNKNOWN, ()), zone, sign)
    for _ in range(len(kb.applicable(zone, sign)) + len(kb.facts) + 2):
        step = next_question(kb, survey, mark)
        if isinstance(step, Done):
            return survey
        survey = answer(kb, survey, mark, step.ask, choose(step))
    raise AssertionError(f"{sign} at {zone} is asked about for ever")


def left_open(kb: KnowledgeBase, survey: Survey) -> bool:
    judged = evaluate(kb, survey.boat, survey.marks)
    coverage = Coverage(kb, survey, judged)
    return any(map(is_open, judged)) or not all(map(coverage.passes_alone, survey.looks))


@settings(max_examples=25)
@given(data=st.data())
def test_answering_what_is_asked_settles_any_mark(data: st.DataObject) -> None:
    kb = shipped()
    zone, sign = data.draw(st.sampled_from(list(pairs(kb))))

    survey = asked_to_the_end(
        kb, zone, sign, lambda step: data.draw(st.sampled_from([choice.answer for choice in step.choices]))
    )

    assert not left_open(kb, survey)


@pytest.mark.slow
@pytest.mark.parametrize("end", [0, -1], ids=["all well", "all at its worst"])
def test_answering_what_is_asked_settles_every_mark_there_is(kb: KnowledgeBase, end: int) -> None:
    unsettled = [
        (zone, sign)
        for zone, sign in pairs(kb)
        if left_open(kb, asked_to_the_end(kb, zone, sign, lambda step: step.choices[end].answer))
    ]

    assert len(list(pairs(kb))) > 1000
    assert [] == unsettled


def test_whatever_may_be_open_has_a_check_or_a_question(kb: KnowledgeBase) -> None:
    """With the law that nothing is open once all is answered and known: whatever is open can be settled."""
    unread = [
        (zone, sign, scale)
        for zone, sign in pairs(kb)
        for scale in kb.applicable(zone, sign)
        if not kb.checks_for(scale, zone) or not kb.scales[scale].asks
    ]

    assert [] == unread
    assert all(fact.asks and fact.find_out for fact in kb.facts.values())


@settings(max_examples=25)
@given(data=st.data())
def test_a_presumption_never_touches_the_best_end_and_never_raises_the_worst(data: st.DataObject) -> None:
    kb = shipped()
    boat, found = data.draw(boats_with_findings(kb, most=4))

    for with_, without in zip(
        evaluate(kb, boat, found), evaluate(replace(kb, presumptions=()), boat, found), strict=True
    ):
        assert with_.lower.levels == without.lower.levels
        assert all(level <= without.upper.level(scale) for scale, level in with_.upper.levels.items())


def differ(kb: KnowledgeBase, scale: str, more: SymbolicState, less: SymbolicState) -> Formula:
    """The scale is worse at the one end than at the other."""
    levels = range(1, kb.scales[scale].top + 1)
    return either(both((more.level(scale, level), no(less.level(scale, level)))) for level in levels)


def settled_by_presuming(kb: KnowledgeBase, bare: KnowledgeBase, zone: str, sign: str) -> Iterator[Survey]:
    """Marks of which a presumption closes a range although not one whole set of the named checks was answered."""
    survey = SymbolicSurvey(kb, [(zone, sign)])
    (lower,), (upper,) = survey.states["lower"], survey.states["upper"]
    (unpresumed,) = symbolic_states(bare, survey.findings, "upper")
    unmade = no(survey.finding.named_checks_complete())
    for scale in ANSWERS:
        closed = both((no(differ(kb, scale, upper, lower)), differ(kb, scale, unpresumed, upper)))
        found = survey.solver.find(both((unmade, closed)))
        if found is not None:
            yield survey_from_text(survey.inputs.written(found), kb)


@pytest.mark.slow
def test_where_main_loads_enter_no_presumption_settles_a_mark_before_the_named_checks(kb: KnowledgeBase) -> None:
    """Proved, over every answer. Where a named check is missing all the same, it is taken at its worst, unpresumed,
    and does no more than is so: a leak at the pivot, damp under a step out of shape, clearance of boom and tiller.
    """
    primary = [(zone, sign) for zone, sign in pairs(kb) if kb.zones[zone].criticality == "primary"]
    named = [(zone, sign) for zone, sign in primary if kb.named_sets(zone, sign)]

    bare = replace(kb, presumptions=())

    found = [survey for pair in named for survey in settled_by_presuming(kb, bare, *pair)]

    assert len(named) > 400
    unnamed = [(zone, sign) for zone, sign in set(primary) - set(named) if kb.signs[sign].named_checks != "none"]
    assert {zone for zone, _ in unnamed} == {"rudder_blade", "board"}  # marks there are judged by what they are
    for survey in found:
        (finding,) = survey.findings
        (judged,) = evaluate(kb, survey.boat, survey.findings)
        missing = frozenset().union(*kb.named_sets(finding.zone, finding.sign)) - finding.answered
        assert missing
        assert not missing & {scale for one in judged.presumed for scale, _ in one.levels}
    assert {survey.findings[0].zone for survey in found} == {"pivot", "mast_step", "boom", "tiller"}
