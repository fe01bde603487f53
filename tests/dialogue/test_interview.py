"""The next question: worth asking, in the right order, with its reasons; and an end when nothing more can be learnt."""

from __future__ import annotations

import json
from collections.abc import Iterator
from dataclasses import asdict, replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.conftest import ROOT
from tests.settling import BOAT
from tests.strategies import boats_with_findings
from triage.asking.effort import WITH_ALL, Resources
from triage.asking.probabilities import damaged_chance, level_chances
from triage.asking.suggest import Option, ranked
from triage.concluding.assess import assess_survey
from triage.conclusions.answers import NOT_YET, Answer
from triage.conclusions.ranges import intervals, is_open, range_between
from triage.dialogue.interview import (
    add_finding,
    answer,
    change_in_verdict,
    next_question,
    question_about,
    typical_outcome,
)
from triage.dialogue.question import Done, Question
from triage.errors import BadSurvey
from triage.inference.evaluate import evaluate
from triage.inference.whatif import WhatIf
from triage.knowledge.model import BUOYANCY, KnowledgeBase
from triage.knowledge.model.everyday import EverydayMark
from triage.knowledge.store.load import load_knowledge
from triage.phrases.answers import asks, outcome_sentence
from triage.phrases.short import may_she
from triage.survey.model import COULD_NOT_TELL, Boat, Finding, Reading, Survey

EVERYDAY = load_knowledge(ROOT / "rules").everyday.marks


def begin(kb: KnowledgeBase, zone: str, sign: str, boat: Boat = BOAT, **answers: str) -> tuple[Survey, str]:
    return add_finding(kb, Survey(boat, ()), zone, sign, said=answers)


def asked(kb: KnowledgeBase, survey: Survey, mark: str, means: Resources = WITH_ALL) -> Iterator[Question]:
    """The questions of an interview in which everything is as good as it can be."""
    while isinstance(step := next_question(kb, survey, mark, means), Question):
        yield step
        survey = answer(kb, survey, mark, step.ask, step.choices[0].answer)


@pytest.mark.parametrize("mark", EVERYDAY, ids=lambda mark: f"{mark.sign}-{mark.zone}")
def test_an_everyday_mark_that_is_harmless_settles_in_as_few_answers_as_a_practised_eye_needs(
    kb: KnowledgeBase, mark: EverydayMark
) -> None:
    fewest = max(mark.expected.answers, mark.outcome.answers)

    questions = list(asked(kb, *begin(kb, mark.zone, mark.sign)))

    assert len(questions) <= fewest, [question.ask for question in questions]


def test_what_nobody_could_tell_is_remembered_and_not_asked_again(kb: KnowledgeBase) -> None:
    survey, mark = begin(kb, "chainplate", "fastener_cracks", Boat("Wagtail"))
    seen = []

    while isinstance(step := next_question(kb, survey, mark), Question):
        seen.append(step.ask)
        survey = answer(kb, survey, mark, step.ask, "can't tell")

    assert len(seen) == len(set(seen))
    assert all(reading.low is None for reading in survey.findings[0].readings.values())
    assert not step.settled


def test_an_open_end_names_the_check_that_decides(kb: KnowledgeBase) -> None:
    survey, mark = begin(kb, "chainplate", "fastener_cracks", backing=COULD_NOT_TELL)
    for question in asked(kb, survey, mark):
        survey = answer(kb, survey, mark, question.ask, question.choices[0].answer)

    done = next_question(kb, survey, mark)

    assert isinstance(done, Done)
    assert not done.settled
    assert "Mirror behind the fitting" in done.says
    assert "structural" in done.would_change[0]
    assert "monitor" in done.would_change[0]
    assert "Do not sail before that is known" in done.standing.says


def test_a_settled_end_says_what_would_still_change_it(kb: KnowledgeBase) -> None:
    survey, mark = begin(kb, "side_deck", "hairline", panel_give="firm")

    done = next_question(kb, survey, mark)

    assert isinstance(done, Done)
    assert done.settled
    assert "cosmetic" == done.standing.verdict.best
    assert any("grew" in line for line in done.would_change)


def test_a_question_says_why_it_is_asked_both_ways_and_how_to_answer_it(kb: KnowledgeBase) -> None:
    question = next_question(kb, *begin(kb, "side_deck", "hairline"))

    assert isinstance(question, Question)
    assert "panel_give" == question.ask
    assert "If it is as firm as a good place: cosmetic." in question.why
    assert any(line.startswith("If it gives over three quarters more than a good place: ") for line in question.why)
    assert question.how.steps
    assert question.how.tools
    assert question.how.care
    assert "%" == question.unit
    ways = [way for level in range(4) for way in kb.scales["panel_give"].choices(level)]
    assert ways == [(choice.answer, choice.phrase) for choice in question.choices]
    assert "cosmetic" == question.choices[0].then


def test_where_main_loads_enter_the_named_checks_come_before_all_others(kb: KnowledgeBase) -> None:
    for zone, signs in kb.offers.items():
        if kb.zones[zone].criticality == "primary":
            for sign in signs[::4]:
                named = {scale for way in kb.named_sets(zone, sign) for scale in way} | set(kb.about(zone, sign))
                order = [option.ask for option in rank(kb, BOAT, Finding("f", zone, sign))]
                first = [ask in named for ask in order]

                assert first == sorted(first, reverse=True), (zone, sign, order)


def rank(kb: KnowledgeBase, boat: Boat, finding: Finding) -> tuple[Option, ...]:
    judged = evaluate(kb, boat, [finding])[0]
    return ranked(kb, judged, WhatIf(kb, boat, finding, [finding]))


def test_of_what_is_no_damage_nothing_usual_is_said_nor_that_sailing_may_change_it(kb: KnowledgeBase) -> None:
    survey, mark = begin(kb, "identity", "id_odd", Boat("Wagtail"))

    assert typical_outcome(kb, survey, mark) == ""
    (told,) = assess_survey(survey, kb).findings
    assert "monitor" == told.verdict.worst or "structural" == told.verdict.worst
    assert not [note for note in told.notes if note.kind == "recheck"]


def test_a_boat_fact_is_asked_when_the_answer_hangs_on_it_and_only_once(kb: KnowledgeBase) -> None:
    survey, mark = begin(kb, "cockpit_floor", "crazing", Boat("Wagtail"), panel_give="firm")

    question = next_question(kb, survey, mark)
    told = next_question(kb, answer(kb, survey, mark, "deck", "single"), mark)
    attempted = next_question(kb, answer(kb, survey, mark, "deck", "could not tell"), mark)

    assert isinstance(question, Question)
    assert ("deck", "boat") == (question.ask, question.about)
    assert kb.facts["deck"].find_out in question.how.steps
    assert isinstance(told, Done)
    assert told.settled
    assert isinstance(attempted, Question)
    assert "tap_dull" == attempted.ask


def test_a_check_without_its_tool_or_helper_comes_later(kb: KnowledgeBase) -> None:
    survey, mark = begin(kb, "topside", "hairline", Boat("Wagtail"))

    usual_order = [question.how for question in asked(kb, survey, mark)]
    without = frozenset(usual_order[0].tools[:1])
    other_order = [question.how for question in asked(kb, survey, mark, Resources(without))]

    assert usual_order[0].name != other_order[0].name


def test_a_check_that_was_made_already_is_called_so(kb: KnowledgeBase) -> None:
    survey, mark = begin(kb, "foredeck", "star_crack", back_face="faint spot")

    question = question_about(kb, survey, mark, "extent_access")

    assert question.made


def test_the_same_survey_gets_the_same_question_in_whatever_order_it_was_written(kb: KnowledgeBase) -> None:
    survey, first = begin(kb, "chainplate", "fastener_cracks", crack_length="1 inch", fitting_play="still")
    survey, _ = add_finding(kb, survey, "mast_step", "play")
    mirrored = [replace(one, readings=dict(reversed([*one.readings.items()]))) for one in reversed(survey.findings)]

    again = replace(survey, findings=tuple(mirrored))

    assert next_question(kb, survey, first) == next_question(kb, again, first)


def test_questions_and_ends_are_ready_for_json(kb: KnowledgeBase) -> None:
    survey, mark = begin(kb, "side_deck", "hairline")

    question = next_question(kb, survey, mark)
    done = next_question(kb, answer(kb, survey, mark, "panel_give", "firm"), mark)

    for step in (question, done):
        assert json.loads(json.dumps(asdict(step)))["standing"]["verdict"]["best"] == "cosmetic"


@settings(max_examples=25)
@given(data=st.data())
def test_from_any_survey_a_question_is_new_answerable_and_the_last_one_comes(
    kb: KnowledgeBase, data: st.DataObject
) -> None:
    boat, findings = data.draw(boats_with_findings(kb, most=2))
    survey, mark = Survey(boat, findings), "f0"
    most = len(kb.applicable(findings[0].zone, findings[0].sign)) + len(kb.facts) + 1

    for _ in range(most):
        step = next_question(kb, survey, mark)
        if isinstance(step, Done):
            break
        assert step.ask not in next(one for one in survey.findings if one.id == mark).readings
        said = data.draw(st.sampled_from([COULD_NOT_TELL, *(choice.answer for choice in step.choices)]))
        survey = answer(kb, survey, mark, step.ask, said)
    else:
        pytest.fail("it never ends")


@settings(max_examples=20)
@given(data=st.data())
def test_it_ends_only_when_settled_or_when_no_answer_that_is_not_presumed_changes_anything(
    kb: KnowledgeBase, data: st.DataObject
) -> None:
    boat, (finding,) = data.draw(boats_with_findings(kb, most=1))
    whatif = WhatIf(kb, boat, finding, [finding])
    judged = evaluate(kb, boat, [finding])[0]
    if ranked(kb, judged, whatif) or not is_open(judged):
        return
    presumed = {scale: level for used in judged.presumed for scale, level in used.levels}
    for scale in whatif.unanswered:
        for level in whatif.levels(scale):
            if kb.checks_for(scale, finding.zone) and level <= presumed.get(scale, level):
                assert intervals(judged) == intervals(whatif.judged({scale: level})), scale


@settings(max_examples=25)
@given(data=st.data())
def test_every_question_hangs_on_something(kb: KnowledgeBase, data: st.DataObject) -> None:
    boat, findings = data.draw(boats_with_findings(kb, most=3))
    finding = findings[0]
    whatif = WhatIf(kb, boat, finding, findings)
    judged = next(one for one in evaluate(kb, boat, findings) if one.finding is finding)

    for option in ranked(kb, judged, whatif):
        assert option.ask not in finding.readings
        assert option.effort > 0
        assert option.expected_reduction >= -1e-9
        assert 1 < len(option.answers) or option.check is not None


@pytest.mark.parametrize(
    ("said", "hint"),
    [("about so long", "Answer with"), ("9 furlongs", "unit"), ("3 litres", "mm"), ("-2 mm", "less than nothing")],
)
def test_an_answer_that_is_none_is_asked_back_and_changes_nothing(kb: KnowledgeBase, said: str, hint: str) -> None:
    survey, mark = begin(kb, "side_deck", "hairline")

    with pytest.raises(BadSurvey, match=hint):
        answer(kb, survey, mark, "crack_length", said)

    assert {} == survey.findings[0].readings


def test_a_fact_that_cannot_be_is_asked_back(kb: KnowledgeBase) -> None:
    survey, mark = begin(kb, "side_deck", "hairline", Boat("Wagtail"))

    with pytest.raises(BadSurvey, match="Answer with single, cored, or: could not tell"):
        answer(kb, survey, mark, "deck", "steel")


def test_whether_a_closed_space_lies_behind_is_a_fact_of_the_place(kb: KnowledgeBase) -> None:
    survey, mark = begin(kb, "foredeck", "hole_through", Boat("Wagtail"))

    told = answer(kb, survey, mark, BUOYANCY, "no")
    attempted = answer(kb, survey, mark, BUOYANCY, "could not tell")

    assert {"foredeck": "no"} == told.boat.encloses_buoyancy
    assert {(BUOYANCY, "foredeck")} == attempted.boat.attempted


def test_what_an_answer_did_is_told_with_its_reason(kb: KnowledgeBase) -> None:
    survey, mark = begin(kb, "side_deck", "hairline")

    better = change_in_verdict(kb, survey, answer(kb, survey, mark, "panel_give", "firm"), mark)
    worse = change_in_verdict(kb, survey, answer(kb, survey, mark, "panel_give", "very soft"), mark)
    unmoved = change_in_verdict(kb, survey, answer(kb, survey, mark, "crack_length", "short"), mark)

    assert better.startswith("Now cosmetic; before, still between cosmetic and structural.")
    assert worse.startswith("Now structural; before, still between cosmetic and structural.")
    assert len(worse) > len("Now structural; before, still between cosmetic and structural. ")
    assert "That alone does not move it." == unmoved


def test_what_is_usual_is_said_in_words_as_an_estimate_and_never_once_settled(kb: KnowledgeBase) -> None:
    survey, mark = begin(kb, "foredeck", "crazing")

    said = typical_outcome(kb, survey, mark)

    assert said.startswith("Most marks like this turn out as “cosmetic”.")
    assert "our estimate" in said
    assert "clears nothing" in said
    assert "%" not in said
    assert said == typical_outcome(kb, survey, mark)
    assert "" == typical_outcome(kb, answer(kb, survey, mark, "panel_give", "firm"), mark)


def test_bad_answers_make_damage_likelier_and_good_ones_less_likely(kb: KnowledgeBase) -> None:
    def damaged(**levels: int) -> float:
        readings = {scale: Reading.at(level) for scale, level in levels.items()}
        return damaged_chance(kb, Finding("f", "side_deck", "hairline", readings=readings))

    assert damaged(panel_give=0) < damaged() < damaged(panel_give=2) < damaged(panel_give=2, tap_dull=3)


@pytest.mark.parametrize("sign", ["hairline", "edge_chip", "play", "scuff"])
def test_the_chances_of_a_question_are_those_of_what_the_sign_allows_and_sum_to_one(
    kb: KnowledgeBase, sign: str
) -> None:
    zone = next(zone for zone, signs in kb.offers.items() if sign in signs)
    for scale in kb.applicable(zone, sign):
        chances = level_chances(kb, Finding("f", zone, sign), scale)

        assert list(range(kb.best(sign, scale), kb.worst(sign, scale) + 1)) == list(chances)
        assert 1 == pytest.approx(sum(chances.values()))


def test_every_reading_and_every_mark_has_its_frequencies(kb: KnowledgeBase) -> None:
    assert {scale.id for scale in kb.scales.values() if scale.observed} == set(kb.frequencies.levels)
    assert set(kb.signs) == set(kb.frequencies.damaged)
    assert {*kb.facts, BUOYANCY} == set(kb.frequencies.facts)


@pytest.mark.parametrize(
    ("now", "said"),
    [
        ("sail", "Yes: nothing that was found speaks against sailing."),
        ("in light wind near help", "Yes, but: she may be sailed in light wind near help, because it gives."),
        (NOT_YET, "Not yet, because it gives."),
    ],
)
def test_may_she_is_answered_in_one_sentence(kb: KnowledgeBase, now: str, said: str) -> None:
    answer = Answer(range_between(kb, "afloat", 0, 3), "some/rule", "It gives.", now=now)

    assert said == outcome_sentence(kb, "afloat", answer)


def test_a_no_for_want_of_knowing_never_says_that_something_is_to_mend(kb: KnowledgeBase) -> None:
    known = Answer(range_between(kb, "afloat", 3, 3), "some/rule", "It gives.", "Do not sail until mended.", "ashore")
    in_vain = replace(known, range=range_between(kb, "afloat", 0, 3))

    assert "No: she stays ashore, because it gives." == outcome_sentence(kb, "afloat", known)
    assert asks(known) == known.means
    assert asks(in_vain) in outcome_sentence(kb, "afloat", in_vain)
    assert asks(in_vain) in may_she(in_vain)
    assert "until mended" not in asks(in_vain)
    assert "Nobody knows yet" in asks(in_vain)
