"""The outlook, on which questions are chosen, sees what the engines would conclude."""

from __future__ import annotations

from dataclasses import replace

from hypothesis import given, settings
from hypothesis import strategies as st

from tests.strategies import boats_with_findings, knowledge_bases
from triage.inference.compiled import Judgement
from triage.inference.evaluate import evaluate
from triage.inference.evaluation import Evaluation
from triage.inference.outlook import Outlook
from triage.inference.terms import ASKED_ABOUT
from triage.knowledge.model import KnowledgeBase
from triage.survey.model import Boat, Finding, Reading


def ranges(judged: Evaluation) -> tuple[tuple[int, int], ...]:
    return tuple(judged.interval(scale) for scale in ASKED_ABOUT)


def check_alone(kb: KnowledgeBase, boat: Boat, finding: Finding, data: st.DataObject) -> None:
    """Some of the finding's answers that mean one level are told to the outlook as what-ifs instead."""
    exact = sorted(scale for scale, level in finding.upper.items() if finding.lower[scale] == level)
    later = data.draw(st.sets(st.sampled_from(exact or [""])))
    begun = {scale: reading for scale, reading in finding.readings.items() if scale not in later}
    asked = replace(finding, readings=begun)
    outlook = Outlook(Judgement.of(kb, boat, [asked]), asked)

    prospect = outlook.answering({scale: finding.upper[scale] for scale in later if scale})

    assert ranges(evaluate(kb, boat, [finding])[0]) == prospect.ranges


@settings(max_examples=25)
@given(data=st.data())
def test_for_a_mark_alone_it_concludes_what_the_reference_does_on_random_rules(data: st.DataObject) -> None:
    kb = data.draw(knowledge_bases())
    boat, (finding,) = data.draw(boats_with_findings(kb, most=1))

    check_alone(kb, boat, finding, data)


@settings(max_examples=20)
@given(data=st.data())
def test_for_a_mark_alone_it_concludes_what_the_reference_does_on_our_rules(
    kb: KnowledgeBase, data: st.DataObject
) -> None:
    boat, (finding,) = data.draw(boats_with_findings(kb, most=1))

    check_alone(kb, boat, finding, data)


@settings(max_examples=20)
@given(data=st.data())
def test_beside_others_it_is_exact_as_things_stand_and_never_too_narrow_for_what_if(data: st.DataObject) -> None:
    kb = data.draw(knowledge_bases())
    boat, findings = data.draw(boats_with_findings(kb))
    finding = data.draw(st.sampled_from(findings))
    outlook = Outlook(Judgement.of(kb, boat, findings), finding)
    open_scales = [s for s in kb.applicable(finding.zone, finding.sign) if s not in finding.readings]
    answers = {
        scale: data.draw(st.integers(kb.best(finding.sign, scale), kb.worst(finding.sign, scale)))
        for scale in data.draw(st.sets(st.sampled_from(open_scales)) if open_scales else st.just(set()))
    }
    readings = {**finding.readings, **{scale: Reading.at(level) for scale, level in answers.items()}}
    changed = [replace(finding, readings=readings) if one is finding else one for one in findings]

    now = next(one for one in evaluate(kb, boat, findings) if one.finding is finding)
    then = next(one for one in evaluate(kb, boat, changed) if one.finding.id == finding.id)

    assert ranges(now) == outlook.answering({}).ranges
    for (best, worst), (seen_best, seen_worst) in zip(ranges(then), outlook.answering(answers).ranges, strict=True):
        assert seen_best <= best
        assert worst <= seen_worst


@settings(max_examples=25)
@given(data=st.data())
def test_a_fact_told_later_is_a_fact_told(kb: KnowledgeBase, data: st.DataObject) -> None:
    boat, (finding,) = data.draw(boats_with_findings(kb, most=1))
    outlook = Outlook(Judgement.of(kb, boat, [finding]), finding)
    for fact, values in outlook.unknown_facts.items():
        value = data.draw(st.sampled_from(values))

        told = outlook.knowing(fact, value).answering({})

        assert ranges(evaluate(kb, boat.knowing(fact, value, finding.zone), [finding])[0]) == told.ranges


@settings(max_examples=25)
@given(data=st.data())
def test_levels_called_alike_are_alike(kb: KnowledgeBase, data: st.DataObject) -> None:
    boat, (finding,) = data.draw(boats_with_findings(kb, most=1))
    outlook = Outlook(Judgement.of(kb, boat, [finding]), finding)
    for scale in kb.applicable(finding.zone, finding.sign):
        if scale not in finding.readings:
            for run in outlook.equivalence_classes(scale):
                assert 1 == len({outlook.answering({scale: level}).ranges for level in run})


def test_a_settled_mark_hangs_on_nothing(kb: KnowledgeBase) -> None:
    finding = Finding("f", "topside", "chalky_fade")

    prospect = Outlook(Judgement.of(kb, Boat("Wagtail"), [finding]), finding).answering({})

    assert 0 == prospect.width
    assert frozenset() == prospect.in_play
