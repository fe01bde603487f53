"""A learner's run: a pure step through fixed questions, and the sheet that it is marked by."""

from __future__ import annotations

import random
from dataclasses import replace
from pathlib import Path

import pytest

from tests.teaching.conftest import Player
from triage.knowledge.model import VERDICT, KnowledgeBase
from triage.survey.read import read_survey
from triage.teaching.cases import Case, case_from
from triage.teaching.cheapest import checks_at
from triage.teaching.drawn import case_named, draw_case
from triage.teaching.key import key_of
from triage.teaching.questions import CHECK, CONFIDENCE, ELSEWHERE, MARK, MOST_CHOICES, NEXT, ORDER, STOP
from triage.teaching.run import back, begin, choice_id, step
from triage.teaching.sheet import CHOICE, MISSED, NAMES, PARTS, REASON, UNLOOKED, mark_run, next_is_right
from triage.views.marked_run import told_run

CASE = "177"


def test_what_a_program_gives_and_what_it_leaves_to_the_trainer_are_the_whole_sheet(
    kb: KnowledgeBase, play: Player
) -> None:
    for answers in ({}, {"verdict": "not yet"}):
        marked = mark_run(kb, play(CASE, **answers))
        whole = sum(item.of + item.trainer for item in marked.items)

        assert whole == kb.teaching.sheet.points == 20
        assert all(item.points <= item.of for item in marked.items)
        assert [item.name for item in kb.teaching.sheet.items] == [item.name for item in marked.items][:8]
    assert all(part <= {item.id: item.points for item in kb.teaching.sheet.items}[id_] for id_, part in PARTS.items())


def test_everything_is_asked_in_order_and_then_nothing(kb: KnowledgeBase, play: Player) -> None:
    state = play(CASE)

    assert list(ORDER) == list(state.answers)
    with pytest.raises(IndexError):
        step(kb, state, 0)


def test_a_check_tells_what_is_true_costs_its_minutes_and_is_not_offered_again(kb: KnowledgeBase) -> None:
    state = begin(kb, case_named(kb, CASE))
    for _ in range(3):
        state, _ = step(kb, state, 0)
    assert state.asks is not None
    offered = [one.id for one in state.asks.choices]
    tap = next(id_ for id_ in offered if id_.endswith("coin_tap"))

    after, told = step(kb, state, offered.index(tap))

    assert "Coin tap: a patch 30 to 100 mm across sounds dull." == told[0]
    assert kb.checks["coin_tap"].minutes == after.minutes
    assert after.asks is not None
    assert tap not in [one.id for one in after.asks.choices]
    assert not state.found, "the state before is left as it was"
    with pytest.raises(IndexError):
        step(kb, state, len(offered))


def test_back_takes_the_last_answer_back_and_no_check(kb: KnowledgeBase) -> None:
    state = begin(kb, case_named(kb, CASE))
    assert back(kb, state) == state
    for number in (0, 0, 0, 0):
        state, _ = step(kb, state, number)

    state = back(kb, state)

    assert state.asks is not None
    assert "load" == state.asks.about
    assert 1 == len(state.made)


def test_the_right_answers_are_among_the_choices_and_the_same_whenever_it_is_played(kb: KnowledgeBase) -> None:
    for seed in range(12):
        case = draw_case(kb, seed)
        state, again = begin(kb, case), begin(kb, case)
        while (question := state.asks) is not None:
            assert question == again.asks
            ids = [one.id for one in question.choices]
            if question.about == MARK:
                assert case.mark.sign in ids
                assert len(ids) <= MOST_CHOICES
            if question.about == ELSEWHERE and state.key.elsewhere:
                assert set(state.key.elsewhere) & set(ids)
            if question.about == "cause" and state.key.causes:
                assert state.key.causes[0] in ids
            last = len(ids) - 1 if ids else 50
            state, again = step(kb, state, last)[0], step(kb, again, last)[0]


def test_who_makes_the_cheapest_way_and_judges_rightly_gets_every_point_that_a_program_can_give(
    kb: KnowledgeBase, play: Player
) -> None:
    for seed in range(12):
        case = draw_case(kb, seed)
        key = begin(kb, case).key
        best = [one.check for one in key.checks if one.check][:1]
        way = [choice_id(one) for one in key.way or ()]
        reads = {check: one for one in checks_at(kb, case.mark) for check in [one.check.id]}
        first = [choice_id(reads[check]) for check in best if check in reads]
        if best and not first:
            continue
        checks = tuple(dict.fromkeys((*first, *way)))
        finding = key.finding
        state = play(
            case,
            checks,
            mark=case.mark.sign,
            trade=case.mark.zone,
            load=kb.zones[case.mark.zone].load,
            verdict=finding.verdict.best,
            afloat=finding.afloat.now,
            tow=finding.tow.now,
            cause=key.causes[0] if key.causes else "nothing",
            next=STOP,
            elsewhere=key.elsewhere[0] if key.elsewhere else "nothing",
            hands=finding.hands.now,
        )
        marked = mark_run(kb, state)

        assert marked.points == marked.of, (seed, marked.items)
        assert marked.right
        assert marked.cause_right
        assert not marked.not_made
        assert next_is_right(marked)


def test_a_main_part_called_fine_without_a_look_costs_five_and_never_more_than_was_reached(
    kb: KnowledgeBase, play: Player
) -> None:
    marked = mark_run(kb, play("1:chainplate", verdict=kb.level_name(VERDICT, 0)))
    (fault,) = (item for item in marked.items if item.id == UNLOOKED)
    reached = sum(item.points for item in marked.items if item is not fault)

    assert -5 == fault.points
    assert max(0, reached - 5) == marked.points
    assert 0 == replace(marked, items=(fault,)).points


def test_the_sheet_does_not_praise_who_lets_a_weakened_part_pass(kb: KnowledgeBase, play: Player) -> None:
    case = next(case for seed in range(20) if (case := draw_case(kb, seed)) and grave(kb, case))
    answers = {"mark": case.mark.sign, "trade": case.mark.zone, "load": kb.zones[case.mark.zone].load}
    best = tuple(choice_id(one) for one in begin(kb, case).key.way or ())
    (fault,) = [one for one in kb.teaching.sheet.faults if one.id == MISSED]

    for said in ("cosmetic", "monitor"):
        marked = mark_run(kb, play(case, best, verdict=said, **answers))
        assert marked.missed
        assert marked.points <= (fault.most or 0) < 6
        assert fault.because in [one.because for one in marked.faults]
        assert any(fault.because[1:] in line for line in told_run(kb, marked).faults)
    for said in ("structural", "not yet"):
        assert not mark_run(kb, play(case, best, verdict=said, **answers)).missed


def grave(kb: KnowledgeBase, case: Case) -> bool:
    return key_of(kb, case).finding.verdict.best == "structural"


def test_not_cleared_is_right_while_what_was_found_leaves_it_open(kb: KnowledgeBase, play: Player) -> None:
    open_ = mark_run(kb, play(CASE, verdict="not yet"))
    assert open_.right
    key = open_.state.key

    whole = tuple(choice_id(one) for one in checks_at(kb, key.case.mark))
    settled = mark_run(kb, play(CASE, whole, verdict="not yet"))

    assert not settled.right
    assert 0 == next(item.points for item in settled.items if item.id == REASON)


def test_of_a_survey_that_stays_open_only_not_cleared_is_right(kb: KnowledgeBase, root: Path, play: Player) -> None:
    case = case_from(kb, read_survey(root / "examples" / "owner-one-crack.yaml", kb), "owner-one-crack.yaml")

    assert mark_run(kb, play(case, verdict="not yet")).right
    assert not any(mark_run(kb, play(case, verdict=said)).right for said in ("cosmetic", "monitor", "structural"))


def test_a_well_founded_not_yet_earns_as_much_as_a_verdict_with_its_reason(kb: KnowledgeBase, play: Player) -> None:
    best = mark_run(kb, play(CASE)).theirs.checks[0].check
    state = play(CASE, verdict="not yet", next=f"{case_named(kb, CASE).focus} {best}")

    (reason,) = [item for item in mark_run(kb, state).items if item.id == REASON]

    assert (3, 3, 0) == (reason.points, reason.of, reason.trainer)


def test_what_needs_an_eye_on_the_hand_is_left_to_the_trainer(kb: KnowledgeBase, play: Player) -> None:
    items = {item.id: item for item in mark_run(kb, play(CASE)).items}

    assert (0, 0, 3) == (items["hand"].points, items["hand"].of, items["hand"].trainer)
    assert (0, 0, 2) == (items["level"].points, items["level"].of, items["level"].trainer)
    assert 2 == items[REASON].trainer


def test_an_unfinished_run_is_not_marked(kb: KnowledgeBase) -> None:
    with pytest.raises(ValueError, match="not finished"):
        mark_run(kb, begin(kb, case_named(kb, CASE)))


def test_any_answers_at_all_come_to_an_end_and_to_a_sheet(kb: KnowledgeBase) -> None:
    for seed in range(8):
        chance = random.Random(seed)
        state = begin(kb, draw_case(kb, seed))
        steps = 0
        while (question := state.asks) is not None:
            number = chance.randrange(len(question.choices)) if question.about != CONFIDENCE else chance.randrange(101)
            state, _ = step(kb, state, number)
            steps += 1
        marked = mark_run(kb, state)
        assert steps == len(ORDER) + len(state.made)
        assert 0 <= marked.points <= marked.of
        assert {NAMES, CHOICE} <= {item.id for item in marked.items}
        assert state.answer(CHECK) == STOP
        assert state.answer(NEXT)
