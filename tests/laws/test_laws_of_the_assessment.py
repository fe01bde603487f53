"""The laws of what is told in the end: the assessment of a survey by the shipped rules. Each test's name is the law."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace

from hypothesis import assume, given, settings
from hypothesis import strategies as st

from tests.laws.ranges import Range, changed, ranges, shipped, with_answer
from tests.strategies import boats_with_findings
from triage.concluding.assess import assess_survey
from triage.conclusions.assessment import Assessment
from triage.inference.evaluate import evaluate
from triage.knowledge.model import AFLOAT, TOW, VERDICT, KnowledgeBase
from triage.survey.model import Boat, Finding, Reading, Survey


@settings(max_examples=15)
@given(data=st.data())
def test_the_order_in_which_findings_are_written_changes_nothing(data: st.DataObject) -> None:
    kb = shipped()
    boat, found = data.draw(boats_with_findings(kb, most=4))
    shuffled = tuple(data.draw(st.permutations(found)))

    assert assess_survey(Survey(boat, found), kb) == assess_survey(Survey(boat, shuffled), kb)


OPINIONS = st.sampled_from(
    ["", "It has always been like that.", "My surveyor mate says it is fine.", "Sell by Sunday!"]
)


@settings(max_examples=15)
@given(data=st.data())
def test_who_asks_and_what_they_think_of_it_changes_nothing(data: st.DataObject) -> None:
    kb = shipped()
    boat, found = data.draw(boats_with_findings(kb, most=3))
    assume(len({(one.zone, one.side, one.sign) for one in found}) == len(found))  # or notes tell alike ones apart
    opinionated = tuple(replace(one, note=data.draw(OPINIONS), photos=("new-paint.jpg",)) for one in found)
    by = data.draw(st.sampled_from(["an owner", "a buyer", "a trainer", "a repairer"]))

    plain = assess_survey(Survey(boat, found), kb)
    told = assess_survey(Survey(boat, opinionated, by=by, note=data.draw(OPINIONS)), kb)

    assert without_words(plain) == without_words(told)


def without_words(assessment: Assessment) -> tuple[object, ...]:
    """The assessment without what is only passed on: who said what."""
    silent = {finding.id: replace(finding, note="", photos=()) for finding in assessment.findings}
    return replace(assessment, by="", note="", findings=()), silent


@settings(max_examples=20)
@given(data=st.data())
def test_a_finding_is_settled_exactly_when_its_best_is_its_worst(data: st.DataObject) -> None:
    kb = shipped()
    boat, found = data.draw(boats_with_findings(kb, most=2))
    verdicts = [level.name for level in kb.scales[VERDICT].levels]

    for judged in evaluate(kb, boat, found):
        assert all(best <= worst for best, worst in map(judged.interval, kb.scales))
    for finding in assess_survey(Survey(boat, found), kb).findings:
        assert finding.verdict.settled == (finding.verdict.best == finding.verdict.worst)
        assert verdicts.index(finding.verdict.best) <= verdicts.index(finding.verdict.worst)


@settings(max_examples=20)
@given(data=st.data())
def test_the_boat_is_at_least_as_grave_as_her_gravest_finding(data: st.DataObject) -> None:
    kb = shipped()
    boat, found = data.draw(boats_with_findings(kb, most=3))
    assessment = assess_survey(Survey(boat, found), kb)

    for scale, whole in ((VERDICT, assessment.verdict), (AFLOAT, assessment.afloat.range), (TOW, assessment.tow.range)):
        names = [level.name for level in kb.scales[scale].levels]
        for one in ranges(kb, boat, [finding for finding in found if not finding.is_look]):
            assert names.index(whole.best) >= one[scale][0]
            assert names.index(whole.worst) >= one[scale][1]


def test_the_answers_to_the_first_check_of_an_untested_mark_lead_to_different_outcomes(kb: KnowledgeBase) -> None:
    boat = Boat("Wagtail")
    marks = [Finding("f", zone, sign) for sign in kb.signs for zone in zones_of(kb, sign)[:2]]

    assert [mark.sign for mark in marks if useless_first_checks(kb, boat, [mark])] == []


@settings(max_examples=25)
@given(data=st.data())
def test_the_answers_to_the_first_check_of_any_finding_lead_to_different_outcomes(data: st.DataObject) -> None:
    kb = shipped()
    boat, drawn = data.draw(boats_with_findings(kb, most=2))
    found = [replace(one, readings={s: r for s, r in one.readings.items() if r.told}) for one in drawn]

    assert useless_first_checks(kb, boat, found) == []


def test_the_first_check_leads_to_different_outcomes_even_after_another_was_tried_in_vain(kb: KnowledgeBase) -> None:
    readings = {"panel_give": Reading.attempted(), "joint_gap": Reading.at(0, "closed")}

    assert useless_first_checks(kb, Boat("Wagtail"), [Finding("f", "bulkhead", "soft_panel", readings=readings)]) == []


def zones_of(kb: KnowledgeBase, sign: str) -> list[str]:
    return [zone for zone, offered in kb.offers.items() if sign in offered]


def useless_first_checks(kb: KnowledgeBase, boat: Boat, found: Sequence[Finding]) -> list[tuple[Finding, str]]:
    """Open findings of which the first check that is asked for leads to the same outcome whatever the answer.

    A check that must not be left out at a place may: what its answers have in common holds once it was made.
    """
    useless = []
    for open_ in assess_survey(Survey(boat, tuple(found)), kb).findings:
        finding = next(one for one in found if one.id == open_.id)
        named = {scale for way in kb.named_sets(finding.zone, finding.sign) for scale in way}
        for check in () if finding.is_look else open_.checks[:1]:
            if check.scale in named:
                continue
            answers = every_answer(kb, boat, found, finding, check.scale)
            if len({outcome(kb, *told, finding) for told in answers}) == 1:
                useless.append((finding, check.scale))
    return useless


def every_answer(
    kb: KnowledgeBase, boat: Boat, found: Sequence[Finding], finding: Finding, ask: str
) -> Iterator[tuple[Boat, Sequence[Finding]]]:
    """The boat and her findings with each answer that can be given: a level of a scale, or a fact about the boat."""
    if ask in kb.scales:
        for level in range(kb.signs[finding.sign].least.get(ask, 0), kb.worst(finding.sign, ask) + 1):
            yield boat, changed(found, with_answer(finding, ask, level))
    else:
        for value in kb.facts[ask].values if ask in kb.facts else ("yes", "no"):
            yield boat.knowing(ask, value, finding.zone), found


def outcome(kb: KnowledgeBase, boat: Boat, found: Sequence[Finding], finding: Finding) -> tuple[Range, ...]:
    judged = next(one for one in evaluate(kb, boat, found) if one.finding.id == finding.id)
    return judged.interval(VERDICT), judged.interval(AFLOAT), judged.interval(TOW)
