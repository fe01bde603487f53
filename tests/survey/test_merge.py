"""Two who began with one survey: nothing that either of them answered is lost."""

from __future__ import annotations

from dataclasses import replace

from hypothesis import given, settings
from hypothesis import strategies as st

from tests.dialogue.test_edits import edits
from tests.strategies import boats_with_findings
from triage.dialogue.edits import apply
from triage.dialogue.facts import fact_of
from triage.errors import BadSurvey
from triage.knowledge.model import KnowledgeBase
from triage.survey.merge import Clash, merge
from triage.survey.model import Boat, Finding, Reading, Survey

PLATE = Finding("plate", "chainplate", "fastener_cracks", "port", {"fitting_play": Reading.at(0, "still")})
FIRM, SOFT = Reading.at(0, "firm"), Reading.at(2, "soft")


def wagtail(*marks: Finding, **facts: str) -> Survey:
    return Survey(Boat("Wagtail", facts), marks)


def changed(draw: st.DataObject, kb: KnowledgeBase, survey: Survey) -> Survey:
    """The survey after a few edits, whatever they are."""
    for _ in range(draw.draw(st.integers(0, 4))):
        try:
            survey, _ = apply(kb, survey, draw.draw(edits(kb, survey)))
        except BadSurvey:
            continue
    return survey


def same(one: Survey, other: Survey, kb: KnowledgeBase) -> bool:
    return one.in_walk_order(kb) == other.in_walk_order(kb)


@settings(max_examples=75)
@given(data=st.data())
def test_what_only_one_of_them_changed_is_as_he_left_it(kb: KnowledgeBase, data: st.DataObject) -> None:
    boat, found = data.draw(boats_with_findings(kb, most=3))
    base = Survey(boat, found).in_walk_order(kb)
    mine = changed(data, kb, base)

    for both, clashes in (merge(base, mine, base), merge(base, base, mine), merge(base, mine, mine)):
        assert () == clashes
        assert same(mine, both, kb)


@settings(max_examples=100)
@given(data=st.data())
def test_every_answer_of_both_is_there_or_told(kb: KnowledgeBase, data: st.DataObject) -> None:
    boat, found = data.draw(boats_with_findings(kb, most=3))
    base = Survey(boat, found).in_walk_order(kb)
    mine, theirs = changed(data, kb, base), changed(data, kb, base)

    both, clashes = merge(base, mine, theirs)

    told = {(clash.mark, clash.ask) for clash in clashes}
    marks = {one.id: one for one in both.findings}
    before = {one.id: one for one in base.findings}
    for survey, wins in ((mine, True), (theirs, False)):
        for one in survey.findings:
            if one == before.get(one.id):
                continue
            kept = [
                other
                for other in both.findings
                if (other.zone, other.sign, other.side) == (one.zone, one.sign, one.side)
            ]
            assert kept, one
            if one.id not in marks or (marks[one.id].zone, marks[one.id].sign) != (one.zone, one.sign):
                continue
            for scale, reading in one.readings.items():
                was = before[one.id].readings.get(scale) if one.id in before else None
                if reading != was:
                    assert reading == marks[one.id].readings.get(scale) or (not wins and (one.id, scale) in told)
        for fact, value in survey.boat.facts.items():
            if value != fact_of(base.boat, fact):
                assert value == fact_of(both.boat, fact) or (not wins and ("", fact) in told)


def test_answers_to_one_mark_come_together() -> None:
    mine = replace(PLATE, readings={**PLATE.readings, "backing": FIRM})
    theirs = replace(PLATE, readings={**PLATE.readings, "wet_weep": SOFT}, note="seen from below")

    both, clashes = merge(wagtail(PLATE), wagtail(mine, deck="single"), wagtail(theirs, spar="alloy"))

    assert () == clashes
    assert {"fitting_play", "backing", "wet_weep"} == set(both.findings[0].readings)
    assert "seen from below" == both.findings[0].note
    assert {"deck": "single", "spar": "alloy"} == both.boat.facts


def test_of_two_answers_to_one_question_mine_stands_and_the_other_is_told() -> None:
    mine, theirs = (replace(PLATE, readings={"backing": told}) for told in (FIRM, SOFT))

    both, clashes = merge(wagtail(PLATE), wagtail(mine), wagtail(theirs))

    assert {"backing": FIRM} == both.findings[0].readings
    assert (Clash("plate", "backing", "firm", "soft"),) == clashes


def test_an_answer_that_one_took_out_and_the_other_changed_stays_and_is_told() -> None:
    taken_out, changed = (replace(PLATE, readings=told) for told in ({}, {"fitting_play": SOFT}))

    for mine, theirs in ((taken_out, changed), (changed, taken_out)):
        both, clashes = merge(wagtail(PLATE), wagtail(mine), wagtail(theirs))

        assert (changed,) == both.findings
        assert (Clash("plate", "fitting_play", "soft", ""),) == clashes


def test_a_mark_that_one_took_out_and_the_other_answered_stays_and_is_told() -> None:
    answered = replace(PLATE, readings={**PLATE.readings, "backing": FIRM})

    for mine, theirs in ((wagtail(), wagtail(answered)), (wagtail(answered), wagtail())):
        both, clashes = merge(wagtail(PLATE), mine, theirs)

        assert (answered,) == both.findings
        assert (Clash("plate", "", "fastener_cracks", ""),) == clashes


def test_a_mark_that_one_took_out_and_the_other_left_alone_is_gone() -> None:
    assert () == merge(wagtail(PLATE), wagtail(), wagtail(PLATE))[0].findings


def test_two_new_marks_of_one_name_are_both_kept() -> None:
    mine, theirs = replace(PLATE, side="starboard"), PLATE

    both, clashes = merge(wagtail(), wagtail(mine), wagtail(theirs))

    assert () == clashes
    assert [("plate", "port"), ("plate.2", "starboard")] == [(one.id, one.side) for one in both.findings]


def test_a_mark_that_one_of_them_moved_is_where_he_put_it_unless_the_other_answered_it() -> None:
    moved, answered = replace(PLATE, side="starboard"), replace(PLATE, readings={"backing": FIRM})

    assert (moved,) == merge(wagtail(PLATE), wagtail(PLATE), wagtail(moved))[0].findings
    assert (moved,) == merge(wagtail(PLATE), wagtail(moved), wagtail(PLATE))[0].findings
    assert (moved, replace(answered, id="plate.2")) == merge(wagtail(PLATE), wagtail(answered), wagtail(moved))[
        0
    ].findings


def test_where_the_conversation_was_left_is_mine() -> None:
    mine, theirs = (replace(wagtail(), conversation={"asking": {"what": what}}) for what in ("marks", "ended"))

    assert {"asking": {"what": "marks"}} == merge(wagtail(), mine, theirs)[0].conversation
