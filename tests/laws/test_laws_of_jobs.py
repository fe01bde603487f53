"""The laws of jobs: joining marks that are one damage makes nothing milder, cheaper or quieter."""

from __future__ import annotations

from collections.abc import Callable

from hypothesis import given, settings
from hypothesis import strategies as st

from tests.laws.ranges import shipped
from tests.strategies import boats_with_findings, boats_with_marks_together
from triage.concluding.assess import assess_survey
from triage.concluding.jobs import key_of
from triage.conclusions.assessment import Assessment, FindingAssessment, Job
from triage.conclusions.repairs import RepairAdvice
from triage.conclusions.values import Range
from triage.knowledge.model import HANDS
from triage.survey.model import Survey

OUTCOMES: tuple[Callable[[FindingAssessment | Job], Range], ...] = (
    lambda one: one.verdict,
    lambda one: one.afloat.range,
    lambda one: one.tow.range,
    lambda one: one.hands.range,
)


def assessed(data: st.DataObject) -> Assessment:
    kb = shipped()
    boat, found = data.draw(st.one_of(boats_with_findings(kb, most=4), boats_with_marks_together(kb)))
    return assess_survey(Survey(boat, found), kb)


def marks(assessment: Assessment, job: Job) -> list[FindingAssessment]:
    return [assessment.finding(id_) for id_ in job.findings]


def at_worst(one: FindingAssessment | Job) -> RepairAdvice | None:
    return one.mending_at_worst or one.mending


@settings(max_examples=25)
@given(data=st.data())
def test_every_mark_is_in_exactly_one_job_and_what_has_none_is_in_no_job(data: st.DataObject) -> None:
    assessment = assessed(data)

    told = [id_ for job in assessment.jobs for id_ in job.findings]
    assert sorted(told) == sorted(one.id for one in assessment.findings if not (one.passed or one.looked_at_only))


@settings(max_examples=25)
@given(data=st.data())
def test_a_job_is_at_both_ends_as_bad_as_the_worst_of_its_marks(data: st.DataObject) -> None:
    assessment = assessed(data)

    for job in assessment.jobs:
        for outcome in OUTCOMES:
            for end in (0, 1):
                assert outcome(job).levels[end] == max(outcome(one).levels[end] for one in marks(assessment, job))


@settings(max_examples=25)
@given(data=st.data())
def test_joining_drops_no_check_no_suspicion_and_no_word_of_care(data: st.DataObject) -> None:
    assessment = assessed(data)

    for job in assessment.jobs:
        joined = marks(assessment, job)
        assert {key_of(check) for one in joined for check in one.checks} == {key_of(check) for check in job.checks}
        assert {note for one in joined for note in one.notes} == set(job.notes)
        led = [one for one in assessment.suspicions if set(one.come_from) & set(job.findings)]
        assert {(one.zone, one.side) for one in led} == {(one.zone, one.side) for one in job.suspects}
        for own, its in ((job.mending, [one.mending for one in joined]), (at_worst(job), list(map(at_worst, joined)))):
            for repair in filter(None, its):
                assert own is not None
                assert set(repair.hazards) <= set(own.hazards)
                assert set(repair.stop_when) <= set(own.stop_when)


@settings(max_examples=25)
@given(data=st.data())
def test_a_job_takes_no_less_work_and_money_than_any_of_its_marks(data: st.DataObject) -> None:
    assessment = assessed(data)

    for job in assessment.jobs:
        joined = marks(assessment, job)
        for own, its in ((job.mending, [one.mending for one in joined]), (at_worst(job), list(map(at_worst, joined)))):
            for repair in filter(None, its):
                assert own is not None
                for span in ("hours", "materials", "repairer"):
                    asked, told = getattr(repair, span), getattr(own, span)
                    assert asked is None or (told[0] >= asked[0] and told[1] >= asked[1])
        assert {own.id for own in (job.mending, at_worst(job)) if own} <= {
            repair.id for one in joined for repair in (one.mending, at_worst(one)) if repair
        }


@settings(max_examples=25)
@given(data=st.data())
def test_hands_and_the_repairs_say_the_same(data: st.DataObject) -> None:
    assessment = assessed(data)
    names = [level.name for level in shipped().scales[HANDS].levels]

    told: list[FindingAssessment | Job] = [*assessment.findings, *assessment.jobs]
    for one in told:
        least, most = one.hands.range.levels
        if one.mending:
            assert least == names.index(one.mending.who)
        if one.mending_at_worst:
            assert most == names.index(one.mending_at_worst.who)


@settings(max_examples=25)
@given(data=st.data())
def test_hands_are_never_below_the_repair(data: st.DataObject) -> None:
    assessment = assessed(data)
    asks = {repair.id: repair.who for repair in shipped().mending.repairs}

    told: list[FindingAssessment | Job] = [*assessment.findings, *assessment.jobs]
    for one in told:
        for level, repair in zip(one.hands.range.levels, (one.mending, at_worst(one)), strict=True):
            assert repair is None or level >= asks[repair.id]


@settings(max_examples=20)
@given(data=st.data())
def test_the_order_of_the_findings_changes_no_job(data: st.DataObject) -> None:
    kb = shipped()
    boat, found = data.draw(boats_with_marks_together(kb))
    shuffled = tuple(data.draw(st.permutations(found)))

    assert assess_survey(Survey(boat, found), kb).jobs == assess_survey(Survey(boat, shuffled), kb).jobs


@settings(max_examples=20)
@given(data=st.data())
def test_no_job_is_on_both_sides(data: st.DataObject) -> None:
    assessment = assessed(data)

    for job in assessment.jobs:
        assert len({one.side for one in job.places if one.side}) <= 1
