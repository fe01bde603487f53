"""Drawn cases: the same name is the same case, everything on them can be, and they are as they were asked for."""

from __future__ import annotations

import os
import subprocess
import sys

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.conftest import ROOT
from triage.conclusions.ranges import is_open
from triage.errors import BadInput, CannotWork
from triage.inference.compiled import compiled
from triage.knowledge.model import KnowledgeBase
from triage.survey.read import survey_from_text
from triage.survey.validity import doubts
from triage.survey.write import survey_text
from triage.teaching.cases import DIFFICULTIES, first_visit
from triage.teaching.confusions import marks_of, name_of, pair_named, pairs_of
from triage.teaching.drawn import Named, case_named, cases_of, draw, draw_case

DIGESTS = """
from triage import load_knowledge
from triage.teaching.drawn import case_named
kb = load_knowledge()
for name in ("1", "2:hard", "3:crazing/hairline", "4:bottom", "5:old_repair"):
    print(case_named(kb, name).digest)
"""


def test_the_same_name_is_the_same_case_in_another_process() -> None:
    told = [
        subprocess.run(
            [sys.executable, "-c", DIGESTS],
            cwd=ROOT,
            env={**os.environ, "PYTHONHASHSEED": seed},
            capture_output=True,
            text=True,
            check=True,
        ).stdout.split()
        for seed in ("0", "1")
    ]

    assert told[0] == told[1]
    assert 5 == len(set(told[0]))


@settings(max_examples=20)
@given(seed=st.integers(0, 10_000))
def test_everything_on_a_case_can_be_and_is_settled(kb: KnowledgeBase, seed: int) -> None:
    case = draw_case(kb, seed)

    assert not list(doubts(kb, case.truth))
    judged = next(one for one in compiled(kb, case.truth.boat, case.truth.marks) if one.finding.id == case.focus)
    assert not is_open(judged)
    assert case.difficulty in DIFFICULTIES
    for finding in case.truth.findings:
        unread = kb.frequencies.unread.get((finding.zone, finding.sign), frozenset())
        read, may_be = set(finding.readings), set(first_visit(kb, finding.zone, finding.sign)) - unread
        kinds = kb.frequencies.kinds.get(finding.zone, (frozenset[str](),))
        assert any(read == may_be - frozenset[str]().union(*kinds) | kind & may_be for kind in kinds)
    assert not any(finding.readings for finding in case.shown.findings)
    cause = kb.causation.causes.get(case.cause)
    if cause is not None:
        left = {(one.zone, one.sign) for one in cause.leaves}
        assert all({(one.zone, one.sign), ("anywhere", one.sign)} & left for one in case.truth.findings)


@settings(max_examples=10)
@given(seed=st.integers(0, 10_000))
def test_a_case_is_a_survey_like_any_other(kb: KnowledgeBase, seed: int) -> None:
    case = draw_case(kb, seed)

    for survey in (case.truth, case.shown):
        text = survey_text(survey.in_walk_order(kb))
        assert text == survey_text(survey_from_text(text, kb))


def test_marks_at_one_place_share_what_is_read_of_the_place(kb: KnowledgeBase) -> None:
    shared = 0
    for seed in range(80):
        known: dict[tuple[str, str | None, str], list[str]] = {}
        for finding in draw_case(kb, seed).truth.findings:
            for scale, reading in finding.readings.items():
                known.setdefault((finding.zone, finding.side, scale), []).append(reading.said)
        assert all(len(set(said)) == 1 for said in known.values())
        shared += sum(len(said) > 1 for said in known.values())
    assert shared


def test_what_lies_there_is_a_bag_or_foam_and_not_both(kb: KnowledgeBase) -> None:
    cases = [case_named(kb, f"{seed}:foam_bag:strap_weak") for seed in range(8)]
    read = [{"bag_air", "mass_gain"} & set(case.mark.readings) for case in cases]

    assert [["bag_air"], ["mass_gain"]] == sorted(map(list, {frozenset(one) for one in read}))


@pytest.mark.parametrize("difficulty", DIFFICULTIES)
def test_a_case_is_as_hard_as_it_was_asked_for(kb: KnowledgeBase, difficulty: str) -> None:
    assert {difficulty} == {draw_case(kb, seed, difficulty).difficulty for seed in range(5)}


def test_a_case_is_about_the_pair_the_place_and_the_mark_that_were_asked_for(kb: KnowledgeBase) -> None:
    for pair in pairs_of(kb)[:10]:
        if any(set(pair) <= set(signs) for signs in kb.offers.values()):
            mark = draw_case(kb, 1, pair=pair).mark
            assert mark.sign in pair
            assert set(pair) <= set(kb.offers[mark.zone])
    assert ("bottom", "dent") == (lambda mark: (mark.zone, mark.sign))(case_named(kb, "7:bottom:dent").mark)


def test_every_place_and_every_mark_can_be_drawn(kb: KnowledgeBase) -> None:
    for zone in kb.zones:
        assert zone == draw(kb, Named(1, place=zone)).mark.zone
    for sign in {sign for signs in kb.offers.values() for sign in signs} - {"nothing_seen"}:
        assert sign == draw(kb, Named(1, mark=sign)).mark.sign


def test_some_cases_have_a_cause_and_some_have_none(kb: KnowledgeBase) -> None:
    causes = [draw_case(kb, seed).cause for seed in range(60)]

    assert 10 < causes.count("") < 40
    assert 10 < len(set(causes))


def test_the_name_of_a_case_draws_it_again(kb: KnowledgeBase) -> None:
    case = draw_case(kb, 3, "hard", pair_named(kb, "hairline/crazing"))

    assert "3:hard:crazing/hairline" == case.name
    assert case.digest == case_named(kb, case.name).digest


@pytest.mark.parametrize("name", ["", "x", "-1", "1:harder", "1:crazing/", "1:crazing/crazing", "99999999", "١"])
def test_what_is_no_case_is_refused(kb: KnowledgeBase, name: str) -> None:
    with pytest.raises(BadInput):
        case_named(kb, name)


def test_a_case_of_a_confusion_is_one_of_the_two_with_what_tells_them_apart(kb: KnowledgeBase) -> None:
    for confusion in kb.teaching.confusions.values():
        either = [(zone, sign, dict(levels)) for zone, sign, levels in marks_of(kb, confusion)]
        assert either
        met = set()
        for seed in range(8):
            mark = case_named(kb, f"{seed}:{confusion.id}").mark
            fits = [
                number
                for number, (zone, sign, levels) in enumerate(either)
                if (zone, sign) == (mark.zone, mark.sign) and levels.items() <= dict(mark.upper).items()
            ]
            assert fits, (confusion.id, seed)
            met |= set(fits)
        assert len(met) == len(either), confusion.id


def test_the_cases_of_a_lesson_are_drawn_in_its_order(kb: KnowledgeBase) -> None:
    for lesson in kb.teaching.lessons.values():
        cases = cases_of(kb, lesson)

        assert len(cases) == sum(case.count for case in lesson.cases)
        assert [case.digest for case in cases] == [case_named(kb, case.name).digest for case in cases]


def test_what_cannot_be_drawn_is_said(kb: KnowledgeBase) -> None:
    with pytest.raises(CannotWork, match="is not met there"):
        case_named(kb, "1:papers:dent")


def test_pairs_are_signs_that_are_named_for_each_other(kb: KnowledgeBase) -> None:
    names = [name_of(pair) for pair in pairs_of(kb)]

    assert {"brown_weep/rust_bleed", "dull_tap/soft_panel", "fastener_cracks/star_crack"} <= set(names)
    assert len(names) == len(set(names))
