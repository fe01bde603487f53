"""Looking is never punished and never clears; "not yet" is what checks can still decide, and nothing else."""

from __future__ import annotations

from dataclasses import replace

from hypothesis import assume, given, settings
from hypothesis import strategies as st

from tests.laws.ranges import shipped
from tests.strategies import boats_with_findings
from tests.suspecting import boats_round_a_suspicion
from triage.asking.told import answer_of
from triage.concluding.assess import assess_survey
from triage.conclusions.answers import NOT_YET, Answer, Awaited
from triage.conclusions.assessment import Assessment
from triage.dialogue.interview import values_of
from triage.knowledge.model import AFLOAT, NOTHING_SEEN, TOW
from triage.survey.model import Boat, Finding, Reading, Survey

KB = shipped()


def answers(assessment: Assessment) -> tuple[Answer, Answer]:
    return assessment.afloat, assessment.tow


def looks_at(boat: Boat, data: st.DataObject, *, tried: bool) -> tuple[Finding, ...]:
    """Parts looked at without a mark; some of what passes them was tried and found as it should be, if anything was."""
    zones = [zone for zone in KB.zones.values() if boat.has(zone)]
    some = data.draw(st.lists(st.sampled_from(zones), min_size=1, max_size=4, unique_by=lambda zone: zone.id))
    found = []
    for zone in some:
        scales = data.draw(st.sets(st.sampled_from(KB.applicable(zone.id, NOTHING_SEEN)))) if tried else ()
        readings = {scale: data.draw(st.sampled_from([Reading.at(0), Reading.attempted()])) for scale in scales}
        found.append(Finding(f"look {zone.id}", zone.id, NOTHING_SEEN, readings=readings))
    return tuple(found)


@settings(max_examples=20)
@given(boats_round_a_suspicion(KB), st.data())
def test_a_bare_look_makes_a_boat_neither_worse_nor_better(survey: Survey, data: st.DataObject) -> None:
    assume(survey.marks)
    looked = replace(survey, findings=(*survey.findings, *looks_at(survey.boat, data, tried=False)))

    before, after = assess_survey(survey, KB), assess_survey(looked, KB)

    assert (before.verdict, answers(before)) == (after.verdict, answers(after))
    assert (before.suspicions, before.causes, before.plan) == (after.suspicions, after.causes, after.plan)
    assert [one for one in after.findings if one in before.findings] == list(before.findings)


@settings(max_examples=20)
@given(boats_round_a_suspicion(KB), st.data())
def test_no_boat_is_worse_for_what_was_tried_and_found_as_it_should_be(survey: Survey, data: st.DataObject) -> None:
    assume(survey.marks)
    looked = replace(survey, findings=(*survey.findings, *looks_at(survey.boat, data, tried=True)))

    before, after = assess_survey(survey, KB), assess_survey(looked, KB)

    assert all(new <= old for new, old in zip(after.verdict.levels, before.verdict.levels, strict=True))
    for was, now in zip(answers(before), answers(after), strict=True):
        assert all(new <= old for new, old in zip(now.range.levels, was.range.levels, strict=True))


@settings(max_examples=25)
@given(boats_round_a_suspicion(KB), st.data())
def test_what_was_tried_elsewhere_changes_no_mark(survey: Survey, data: st.DataObject) -> None:
    looked = replace(survey, findings=(*survey.findings, *looks_at(survey.boat, data, tried=True)))

    before, after = assess_survey(survey, KB), assess_survey(looked, KB)

    for mark in (one for one in before.findings if one.sign != NOTHING_SEEN):
        same = after.finding(mark.id)
        assert (mark.verdict, mark.afloat, mark.tow, mark.hands) == (same.verdict, same.afloat, same.tow, same.hands)


@settings(max_examples=20)
@given(boats_round_a_suspicion(KB))
def test_an_open_suspicion_never_goes_with_plain_sailing(survey: Survey) -> None:
    assessment = assess_survey(survey, KB)

    for suspicion in assessment.suspicions:
        assert not assessment.settled_and_fit
        assert assessment.verdict.levels[1] >= suspicion.verdict.levels[1] > 0
        for whole, its in zip(answers(assessment), (suspicion.afloat, suspicion.tow), strict=True):
            assert whole.range.levels[1] >= its.range.levels[1]
        if suspicion.afloat.range.levels[1]:
            assert assessment.afloat.now != KB.level_name(AFLOAT, 0)


@settings(max_examples=20)
@given(boats_round_a_suspicion(KB))
def test_while_a_suspicion_may_keep_her_ashore_nobody_is_told_to_sail(survey: Survey) -> None:
    assessment = assess_survey(survey, KB)
    barred = KB.level_name(AFLOAT, KB.level_of(AFLOAT, "barred"))

    for suspicion in assessment.suspicions:
        if suspicion.afloat.range.worst == barred:
            assert assessment.afloat.now in (NOT_YET, barred)
            assert suspicion.afloat.now == (NOT_YET if suspicion.afloat.awaits else barred)


@settings(max_examples=25)
@given(st.data())
def test_not_yet_stands_only_where_checks_can_still_clear_her(data: st.DataObject) -> None:
    boat, found = data.draw(boats_with_findings(KB, most=2))

    for finding in assess_survey(Survey(boat, found), KB).findings:
        for scale, answer in ((AFLOAT, finding.afloat), (TOW, finding.tow)):
            barred = KB.level_name(scale, KB.level_of(scale, "barred"))
            if answer.now == NOT_YET:
                assert answer.awaits
                assert answer.range.worst == barred != answer.then
            elif answer.range.worst == barred:
                assert not answer.awaits or answer.then == barred or answer.range.best == barred


@settings(max_examples=25)
@given(st.data())
def test_once_all_that_is_awaited_came_out_well_what_was_said_holds(data: st.DataObject) -> None:
    boat, (mark,) = data.draw(boats_with_findings(KB, most=1))
    (before,) = assess_survey(Survey(boat, (mark,)), KB).findings
    assume(before.afloat.awaits)

    for awaited in before.afloat.awaits:
        boat, mark = answered(boat, mark, awaited, before.afloat.then)
    (after,) = assess_survey(Survey(boat, (mark,)), KB).findings

    assert after.afloat.now == before.afloat.then


def answered(boat: Boat, mark: Finding, awaited: Awaited, then: str) -> tuple[Boat, Finding]:
    """The awaited check with an answer that comes out well."""
    ask, well = awaited.check.scale, next(turn for turn in awaited.turns if turn.now == then)
    if well.level is not None:
        return boat, replace(mark, readings={**mark.readings, ask: Reading.at(well.level)})
    value = next(value for value in values_of(KB, ask) if answer_of(KB, ask, value) == well.answer)
    return boat.knowing(ask, value, mark.zone), mark
