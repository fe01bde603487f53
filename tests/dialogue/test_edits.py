"""Edits of a survey: each gives a survey that can be, or changes nothing; each can be undone, and written down."""

from __future__ import annotations

import datetime
from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.strategies import boats_with_findings, findings
from triage.dialogue.edits import (
    AddFinding,
    Edit,
    NameBoat,
    RemoveFinding,
    SeeOn,
    SetFact,
    SetNote,
    SetReading,
    apply,
    apply_all,
)
from triage.dialogue.facts import fact_of
from triage.dialogue.kept_edits import edit_from, plain
from triage.errors import BadSurvey
from triage.knowledge.model import BUOYANCY, KnowledgeBase
from triage.survey.model import COULD_NOT_TELL, Boat, Finding, Reading, Survey
from triage.survey.read import checked, survey_from_text
from triage.survey.validity import MAX_FINDINGS
from triage.survey.write import survey_text

PLATE = Finding("plate", "chainplate", "fastener_cracks", "port", {"fitting_play": Reading.at(0, "still")})


def wagtail(*marks: Finding, **facts: str) -> Survey:
    return Survey(Boat("Wagtail", facts), marks)


@st.composite
def edits(draw: st.DrawFn, kb: KnowledgeBase, survey: Survey) -> Edit:
    """Any edit of the survey, many of which cannot be."""
    marks = [one.id for one in survey.findings] + ["nobody"]
    kind = draw(st.sampled_from(["add", "remove", "read", "fact", "buoyant", "name"]))
    if kind == "add":
        return AddFinding(draw(findings(kb, id=draw(st.sampled_from(["f0", "new", "newer"])))))
    if kind == "remove":
        return RemoveFinding(draw(st.sampled_from(marks)))
    if kind == "read":
        scale = draw(st.sampled_from([one for one in kb.scales.values() if one.observed]))
        levels = st.integers(0, scale.top).map(Reading.at)
        return SetReading(
            draw(st.sampled_from(marks)), scale.id, draw(st.one_of(st.none(), levels, st.just(Reading.attempted())))
        )
    if kind == "name":
        return NameBoat(draw(st.sampled_from(["Wagtail", "Teal", "", "\x1b[2J", "x" * 201])))
    if kind == "buoyant":
        value = draw(st.sampled_from(["yes", "no", "perhaps", COULD_NOT_TELL, None]))
        return SetFact(BUOYANCY, value, draw(st.sampled_from(list(kb.zones))))
    fact = draw(st.sampled_from(list(kb.facts.values())))
    return SetFact(fact.id, draw(st.sampled_from([*fact.values, "perhaps", COULD_NOT_TELL, None])))


@settings(max_examples=50)
@given(data=st.data())
def test_an_edit_gives_what_can_be_and_is_undone_to_the_letter(kb: KnowledgeBase, data: st.DataObject) -> None:
    boat, found = data.draw(boats_with_findings(kb, most=3))
    survey = Survey(boat, found).in_walk_order(kb)
    edit = data.draw(edits(kb, survey))

    try:
        after, back = apply(kb, survey, edit)
    except BadSurvey:
        return

    assert after == checked(after, kb)
    assert (survey, edit) == apply(kb, after, back)


@settings(max_examples=50)
@given(data=st.data())
def test_an_edit_that_was_made_is_the_same_after_it_was_written_down(kb: KnowledgeBase, data: st.DataObject) -> None:
    boat, found = data.draw(boats_with_findings(kb, most=2))
    edit = data.draw(edits(kb, Survey(boat, found)))
    try:
        apply(kb, Survey(boat, found), edit)
    except BadSurvey:
        return

    assert edit == edit_from(kb, plain(edit))


def test_several_edits_are_undone_in_one_go(kb: KnowledgeBase) -> None:
    survey = wagtail(PLATE, deck="single")
    done: list[Edit] = [
        SetFact("deck", COULD_NOT_TELL),
        SetReading("plate", "fitting_play", None),
        AddFinding(replace(PLATE, id="other", side="starboard")),
        NameBoat("Teal"),
    ]

    after, backs = apply_all(kb, survey, done)

    assert ["plate", "other"] == [one.id for one in after.findings]
    assert {} == after.findings[0].readings
    assert (COULD_NOT_TELL, "Teal") == (fact_of(after.boat, "deck"), after.boat.name)
    assert survey == apply_all(kb, after, backs)[0]


@pytest.mark.parametrize(
    "edit",
    [
        RemoveFinding("nobody"),
        SetReading("nobody", "fitting_play", None),
        SetReading("plate", "cloth_state", Reading.at(0)),
        SetReading("plate", "fitting_play", Reading.at(9)),
        SetFact("deck", "steel"),
        SetFact("colour", "red"),
        SetFact("colour", COULD_NOT_TELL),
        SetFact(BUOYANCY, COULD_NOT_TELL, "nowhere"),
        AddFinding(PLATE),
        AddFinding(replace(PLATE, id="other", zone="sails")),
        NameBoat("x" * 201),
        NameBoat("\x1b]0;mine\x07"),
        NameBoat("\udcff"),
        NameBoat(" "),
    ],
    ids=str,
)
def test_what_cannot_be_is_refused(kb: KnowledgeBase, edit: Edit) -> None:
    with pytest.raises(BadSurvey):
        apply(kb, wagtail(PLATE), edit)


def test_a_mark_too_many_is_refused(kb: KnowledgeBase) -> None:
    full = wagtail(*(replace(PLATE, id=f"f{number}") for number in range(MAX_FINDINGS)))

    with pytest.raises(BadSurvey, match="301 findings are more than a survey holds"):
        apply(kb, full, AddFinding(replace(PLATE, id="more")))


def test_an_answer_that_contradicts_a_place_is_refused(kb: KnowledgeBase) -> None:
    zone = next(zone for zone in kb.zones.values() if zone.only_if)
    fact, value = next(iter(zone.only_if.items()))
    other = next(one for one in kb.facts[fact].values if one != value)
    survey = wagtail(Finding("there", zone.id, kb.offers[zone.id][0]))

    with pytest.raises(BadSurvey, match="cannot both be"):
        apply(kb, survey, SetFact(fact, other))


def test_a_mark_with_its_date_and_note_comes_back_from_what_was_written(kb: KnowledgeBase) -> None:
    edit = AddFinding(replace(PLATE, note="two\nlines", seen_on=datetime.date(2026, 4, 11), photos=("a.jpg",)))

    assert edit == edit_from(kb, plain(edit))


def test_the_day_a_mark_was_seen_is_changed_taken_back_and_written(kb: KnowledgeBase) -> None:
    survey = wagtail(replace(PLATE, seen_on=datetime.date(2026, 4, 11)))

    for day in (datetime.date(2026, 5, 3), None):
        edit = SeeOn(PLATE.id, day)
        after, back = apply(kb, survey, edit)
        assert day == after.findings[0].seen_on
        assert survey == apply(kb, after, back)[0]
        assert edit == edit_from(kb, plain(edit))


def test_what_was_told_of_a_mark_is_added_to_taken_back_and_written(kb: KnowledgeBase) -> None:
    survey = wagtail(replace(PLATE, note="by the mast"))
    edit = SetNote(PLATE.id, "by the mast; pops in 6 mm")

    after, back = apply(kb, survey, edit)

    assert after.findings[0].note == "by the mast; pops in 6 mm"
    assert survey == apply(kb, after, back)[0]
    assert edit == edit_from(kb, plain(edit))


@pytest.mark.parametrize("entries", [{}, {"do": "burn"}, {"do": "set reading", "mark": "a", "ask": "smell"}])
def test_what_is_no_edit_is_refused(kb: KnowledgeBase, entries: dict[str, str]) -> None:
    with pytest.raises((KeyError, ValueError)):
        edit_from(kb, entries)


def test_a_survey_file_holds_where_a_conversation_was_left(kb: KnowledgeBase) -> None:
    added = AddFinding(replace(PLATE, seen_on=datetime.date(2026, 4, 11)))
    left = {
        "asking": {"what": "confirm", "text": "crack by the mast", "zone": "mast_step"},
        "explained": ["Grab and feel"],
        "undo": [{"asking": {"what": "describe"}, "edits": [plain(added), plain(SetReading("a", "wet_weep", None))]}],
    }
    survey = replace(wagtail(PLATE), conversation=left)

    again = survey_from_text(survey_text(survey), kb)

    assert survey == replace(again, source="")
    assert added == edit_from(kb, again.conversation["undo"][0]["edits"][0])


def test_a_survey_file_without_a_conversation_still_reads(kb: KnowledgeBase) -> None:
    text = survey_text(wagtail(PLATE))

    assert "conversation" not in text
    assert {} == survey_from_text(text, kb).conversation


def test_a_conversation_of_an_odd_shape_is_asked_about(kb: KnowledgeBase) -> None:
    text = survey_text(wagtail(PLATE)) + "conversation: {asking: {what: dance}}\n"

    with pytest.raises(BadSurvey, match='"what" cannot be "dance"'):
        survey_from_text(text, kb)
