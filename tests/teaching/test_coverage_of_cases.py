"""What cases cover is counted against all there is, and chosen so that much is covered by few."""

from __future__ import annotations

import pytest

from triage.errors import CannotWork
from triage.knowledge.model import KnowledgeBase
from triage.teaching.coverage import KINDS, choose, coverage_of, everything, plan_cases, touched
from triage.teaching.drawn import draw_case


def test_all_there_is_to_cover_is_known(kb: KnowledgeBase) -> None:
    places, marks, pairs, confusions, turns = everything(kb)

    assert KINDS == (places.kind, marks.kind, pairs.kind, confusions.kind, turns.kind)
    assert set(kb.zones) == set(places.all)
    assert "nothing_seen" not in marks.all
    assert "crazing/parallel_cracks" in pairs.all
    assert not any(turn.startswith("growth") for turn in turns.all)


def test_what_a_case_touches_is_among_it(kb: KnowledgeBase) -> None:
    known = {(one.kind, id_) for one in everything(kb) for id_ in one.all}

    for seed in range(40):
        assert touched(kb, draw_case(kb, seed)) <= known


def test_chosen_cases_cover_more_than_as_many_in_a_row(kb: KnowledgeBase) -> None:
    in_a_row = [draw_case(kb, seed) for seed in range(1, 11)]
    planned = plan_cases(kb, 10)

    counts = [sum(len(one.by) for one in coverage_of(kb, cases)) for cases in (in_a_row, planned)]
    assert counts[0] < counts[1]
    assert 10 == len({case.name for case in planned})


def test_more_than_there_are_cannot_be_chosen(kb: KnowledgeBase) -> None:
    with pytest.raises(CannotWork, match="There are 1 cases"):
        choose(kb, [draw_case(kb, 1)], 2)
