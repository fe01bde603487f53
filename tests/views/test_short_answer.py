"""The short answer: the same few lines everywhere, first what was asked, and nothing that withholds a yes left out."""

from __future__ import annotations

import json
import re
from collections import Counter
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.laws.ranges import shipped
from tests.panel.cases import cases
from tests.strategies import boats_with_findings
from triage.concluding.assess import assess_survey
from triage.conclusions.assessment import Assessment
from triage.knowledge.model import KnowledgeBase
from triage.parsing.text import WIDTH
from triage.phrases.asked import QUESTIONS
from triage.phrases.next_steps import AS_BEFORE
from triage.survey.asked import asked_about
from triage.survey.model import Survey
from triage.survey.read import survey_from
from triage.views.report import render
from triage.views.short_answer import MOST_STEPS, short_answer

Assess = Callable[[str], Assessment]

ONE_MARK = """
boat: {name: Wagtail, length: 4.2 m}
findings:
  - {zone: mast_step, sign: fastener_cracks}
"""

SIX_MARKS = """
boat: {name: Dunlin}
findings:
  - {zone: joint_bow, sign: joint_crack, readings: {joint_gap: 2}}
  - {zone: rudder_fittings, sign: worn_bush, readings: {slop: 1}}
  - {zone: side_deck, side: port, sign: crazing}
  - {zone: bottom, sign: blister}
  - {zone: topside, side: port, sign: chalky_fade}
  - {zone: end_tank, sign: tank_wet, readings: {tank_water: 0.5 L}}
"""

LONGEST_OF_ONE, LONGEST_OF_SIX = 25, 60
"""Lines: a screen, and a page on paper."""


def told_of_stories(kb: KnowledgeBase) -> Iterator[tuple[str, Assessment]]:
    for case in cases("stories"):
        for survey in case.surveys():
            yield case.id, assess_survey(survey_from(survey, kb), kb)


def test_one_mark_fits_a_screen_and_six_a_page(kb: KnowledgeBase, assess_text: Assess) -> None:
    assessed = [*told_of_stories(kb), *(("ours", assess_text(survey)) for survey in (ONE_MARK, SIX_MARKS))]
    lines = [(name, len(one.jobs), render(one).count("\n")) for name, one in assessed]

    assert len([jobs for _, jobs, _ in lines if jobs == 1]) > 50
    assert [] == [told for told in lines if told[1] <= 1 and told[2] > LONGEST_OF_ONE]
    assert [] == [told for told in lines if told[1] <= 6 and told[2] > LONGEST_OF_SIX]


def test_a_check_of_both_sides_is_one_thing_to_do_and_its_twin_is_told_as_the_first(assess_text: Assess) -> None:
    answer = short_answer(
        assess_text("""
        boat: {name: Wagtail}
        findings:
          - {zone: bottom, side: port, sign: dent}
          - {zone: bottom, side: starboard, sign: dent}
        """)
    )

    places = Counter(step.what for step in answer.steps)
    assert 1 == max(places.values())
    assert any(step.where == " at 1 and 2" for step in answer.steps)
    assert "The same as 1." == answer.jobs[1].why


def test_when_to_look_again_says_at_which_of_several_marks(assess_text: Assess, root: Path) -> None:
    answer = short_answer(assess_text((root / "examples/club-boat.yaml").read_text()))
    (watched,) = (job.number for job in answer.jobs if job.headline == "Monitor")

    assert any(step.what.startswith(f"At {watched}: look again ") for step in answer.steps)


def test_what_withholds_a_yes_comes_first_and_says_what_each_answer_means(assess_text: Assess) -> None:
    answer = short_answer(assess_text(ONE_MARK))

    assert answer.afloat.startswith("Not yet. First steps 1 and 2 below and 1 more check, some ")
    assert "Grab and feel" == answer.steps[0].what
    assert answer.afloat.endswith(" All good: in light wind near help. One bad: no. Between: not settled.")
    good, bad = (
        "the base of the fitting stays still under a hard pull",
        "the movement of the fitting can be felt but not seen, or worse",
    )
    assert f"Good: {good}. Bad: {bad}." == answer.steps[0].comes_of


def test_a_known_weakness_is_mended_first_and_no_date_is_promised(assess_text: Assess) -> None:
    answer = short_answer(
        assess_text("""
        boat: {name: Wagtail}
        findings:
          - {zone: shrouds, side: port, sign: wire_fray, readings: {wire_state: 3}}
        """)
    )

    assert "Mend this before she sails" == answer.steps[0].what
    assert not any("season" in step.what for step in answer.steps)


def test_a_number_that_does_not_match_is_no_mark_that_may_stay_as_it_is(assess_text: Assess) -> None:
    answer = short_answer(
        assess_text("""
        boat: {name: Wagtail}
        findings:
          - {zone: identity, sign: id_odd, readings: {id_match: 2}}
        """)
    )

    assert () == answer.looks_only
    assert "This does not weaken her, but a buyer needs an answer to it in writing." == answer.jobs[0].why
    assert "Say that it does not match, and ask. Accuse nobody; get the answer in writing." == answer.steps[0].what


@pytest.mark.parametrize("level", [2, 3])
def test_a_number_to_ask_about_is_neither_looks_nor_mended_by_anybody(assess_text: Assess, level: int) -> None:
    told = short_answer(
        assess_text(f"""
        boat: {{name: Wagtail}}
        findings:
          - {{zone: identity, sign: id_odd, readings: {{id_match: {level}}}}}
          - {{zone: topside, sign: chalky_fade}}
        """)
    )

    assert "Nothing found weakens her; what to do about it stands below." == told.means
    assert "Nothing to mend." == told.jobs[0].mending
    assert any("never pay a deposit" in step.what.casefold() for step in told.steps)


def test_what_has_to_be_mended_as_well_is_said_first(assess_text: Assess) -> None:
    told = short_answer(
        assess_text("""
        boat: {name: Wagtail}
        findings:
          - {zone: identity, sign: id_odd, readings: {id_match: 3}}
          - {zone: rudder_fittings, sign: play, readings: {fitting_play: 1}}
        """)
    )

    assert "Mend it before normal use." == told.means


def test_marks_that_are_only_looks_take_one_sentence(assess_text: Assess) -> None:
    answer = short_answer(
        assess_text("boat: {name: Ruff}\nfindings: [{zone: stem, sign: scuff}, {zone: topside, sign: chalky_fade}]")
    )

    assert () == answer.jobs
    assert 2 == len(answer.looks_only)


def test_the_answer_is_the_same_in_text_page_and_json(assess_text: Assess) -> None:
    assessment = assess_text(SIX_MARKS)
    answer = short_answer(assessment)
    texts = [" ".join(render(assessment, form).split()) for form in ("text", "full")]
    page = re.sub(r"\s+", " ", re.sub(r"<[^>]+>", "", render(assessment, "html"))).replace("&#39;", "'")
    told = json.loads(render(assessment, "json"))["short"]

    for text in (*texts, page.replace("&#34;", '"')):
        for part in (answer.headline, answer.afloat, answer.tow, answer.defers, *answer.rests_on):
            assert part in text
        for job in answer.jobs:
            assert job.title in text
            assert job.mending in text
        for step in answer.steps:
            assert step.comes_of in text
    assert [job.title for job in answer.jobs] == [job["title"] for job in told["jobs"]]
    assert list(answer.rests_on) == told["rests_on"]


@pytest.mark.parametrize(
    ("asked", "questions"),
    [
        ("Can I sail her, how much is it, and who can mend it?", ("afloat", "cost", "hands")),
        ("Is she OK to be towed?", ("verdict", "tow")),
        ("Hello?", ()),
    ],
)
def test_what_was_asked_is_understood(kb: KnowledgeBase, asked: str, questions: tuple[str, ...]) -> None:
    assert questions == asked_about(kb, asked)


def test_every_question_that_is_understood_has_an_answer(kb: KnowledgeBase) -> None:
    assert {*kb.lexicon.speech.questions, *kb.lexicon.asking} == set(QUESTIONS)


def test_what_was_asked_is_answered_first_and_everywhere_alike(assess_text: Assess) -> None:
    assessment = assess_text(f"visit: {{asked: 'Can I sail her? What will it cost? Who can mend it?'}}{ONE_MARK}")
    answer = short_answer(assessment)
    text = render(assessment)

    assert [("May she sail?", "Not yet."), ("What does it cost?", "120 to 1000 at a repairer.")] == [
        (one.question, one.answer) for one in answer.asked[:2]
    ]
    assert "Handy owner, or repairer if it proves worse." == answer.asked[2].answer
    assert text.index("May she sail? Not yet.") < text.index("Sailing  ")
    for page in (render(assessment, "html"), render(assessment, "full")):
        assert page.index("What does it cost?") < page.index("Grab and feel")
    told = json.loads(render(assessment, "json"))["short"]["asked"]
    assert {"question": "May she sail?", "answer": "Not yet."} == told[0]


def test_the_reason_of_two_suspicions_is_told_once(assess_text: Assess, root: Path) -> None:
    answer = short_answer(assess_text((root / "examples/club-boat.yaml").read_text()))

    reasons = Counter(step.comes_of for step in answer.steps if step.comes_of.startswith("When you can. "))
    assert 1 == max(reasons.values())
    assert any(step.comes_of == AS_BEFORE for step in answer.steps)


def test_a_page_folds_all_views_of_the_boat_but_the_first(assess_text: Assess) -> None:
    page = render(assess_text(SIX_MARKS), "html")

    folded = page.index("Other views: ")
    assert 1 == page[:folded].count('class="views"')
    assert page.index('id="boat-deck') < folded < page.index('id="boat-rig')


def test_of_the_steps_that_are_not_told_those_are_named_that_a_yes_also_needs(assess_text: Assess) -> None:
    answer = short_answer(assess_text(ONE_MARK))

    assert "1 more check: “Quarter turn”. And 3 more things to look at when you can." == answer.later


def test_a_part_that_bars_only_the_road_is_mended_before_she_is_towed(assess_text: Assess) -> None:
    survey = "boat: {name: Ruff}\nfindings: [{zone: trailer_run, sign: tyre_old, readings: {road_gear: 2}}]"
    answer = short_answer(assess_text(survey))

    assert "Structural for the road, not for sailing" == answer.headline
    assert "Mend it before she is towed." == answer.means
    assert answer.tow.startswith("No. ")
    assert answer.steps[0].what.endswith("before she is towed")


@pytest.mark.parametrize("survey", [ONE_MARK, SIX_MARKS])
def test_no_sentence_stands_twice(assess_text: Assess, survey: str) -> None:
    answer = short_answer(assess_text(survey))
    sentences = Counter([*answer.care, *answer.rests_on, *(step.what + step.where for step in answer.steps)])

    assert 1 == max(sentences.values())


def test_what_two_yeses_mean_is_said_once(assess_text: Assess) -> None:
    answer = short_answer(assess_text("boat: {name: Wagtail}\nfindings: [{zone: topside, sign: chalky_fade}]"))

    assert "Nothing that was found speaks against it." in answer.afloat
    assert "Yes." == answer.tow


@settings(max_examples=25, deadline=None)
@given(data=st.data())
def test_nothing_that_decides_is_lost(data: st.DataObject) -> None:
    kb = shipped()
    boat, found = data.draw(boats_with_findings(kb, most=4))
    assessment = assess_survey(Survey(boat, found), kb)
    answer = short_answer(assessment)
    text = render(assessment)

    told = {job.number for job in (*answer.jobs, *answer.other_jobs)}
    assert len(assessment.jobs) == len(told) + len(answer.looks_only)
    assert len(answer.steps) <= MOST_STEPS
    if assessment.afloat.awaits:
        assert any(step.what in {one.check.name for one in assessment.afloat.awaits} for step in answer.steps)
    for asked in (assessment.afloat, assessment.tow):
        for awaited in asked.awaits:
            assert asked.then == awaited.turns[0].now or awaited.turns[0].level is None
    if assessment.not_looked_at:
        assert any(line.startswith("Not looked at, so not known: ") for line in answer.rests_on)
    assert answer.defers in " ".join(text.split())
    assert max(len(line) for line in text.splitlines()) <= WIDTH
    assert re.search(r"\bsafe\b", text, re.IGNORECASE) is None


TWO_SIDES = """
boat: {{name: Wagtail, facts: {{deck: single, spar: alloy}}}}
findings:
  - {{zone: chainplate, side: port, sign: fastener_cracks}}
  - {{zone: chainplate, side: starboard, sign: fastener_cracks{there}}}
"""


def test_a_check_that_comes_to_the_same_on_both_sides_is_one_step_that_takes_twice_as_long(
    assess_text: Assess,
) -> None:
    both = short_answer(assess_text(TWO_SIDES.format(there="")))
    one = short_answer(assess_text(TWO_SIDES.format(there=", readings: {fitting_play: still}")))

    grab = both.steps[0]
    assert (grab.what, grab.where) == ("Grab and feel", " at 1 and 2")
    assert both.afloat.startswith("Not yet. First steps 1, 2 and 3 below, some 36 minutes. All good: ")
    assert Counter(step.what for step in both.steps).most_common(1)[0][1] == 1
    assert grab.minutes == 2 * one.steps[0].minutes


def test_what_was_tried_on_one_side_is_asked_for_on_the_other_alone(assess_text: Assess) -> None:
    answer = short_answer(assess_text(TWO_SIDES.format(there=", readings: {fitting_play: still}")))

    assert [step.where for step in answer.steps if step.what == "Grab and feel"] == [" at 1"]


def test_nothing_is_loaded_where_something_is_structural_already(assess_text: Assess) -> None:
    assessment = assess_text("""
        boat: {name: Wagtail}
        findings:
          - {zone: mast_tube, sign: tube_leak, readings: {tube_level: 3}}
          - {zone: mast_tube, sign: ring_crack}
        """)
    loading = {check.name for job in assessment.jobs for check in job.checks if check.loads}

    assert loading, "one of the checks would load the tube"
    assert loading.isdisjoint(step.what for step in short_answer(assessment).steps)
