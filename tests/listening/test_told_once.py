"""A mark is heard once, however many clauses tell of it, and the side of the boat is no place on it."""

from __future__ import annotations

import pytest

from triage.knowledge.model import KnowledgeBase
from triage.listening.statements import Found, Passed
from triage.listening.story import hear


def found(kb: KnowledgeBase, text: str) -> list[Found]:
    return [one for one in hear(text, kb) if isinstance(one, Found)]


def test_each_mark_that_may_be_meant_is_a_candidate_once(kb: KnowledgeBase) -> None:
    (mark,) = found(kb, "The boom has a dent in the underside, and theres a faint crease across it")

    pairs = [(one.zone, one.sign) for one in mark.choices]
    assert ("boom", "spar_dent") == pairs[0]
    assert len(set(pairs)) == len(pairs)
    assert mark.clear


def test_no_two_marks_are_told_by_the_same_words(kb: KnowledgeBase) -> None:
    marks = found(kb, "Centreboard tip is chewed off, maybe 20mm of it, raw fibre showing and it's furry when wet")

    starts = [one.start for one in marks]
    assert len(set(starts)) == len(starts)


@pytest.mark.parametrize("side", ["port", "starboard"])
def test_the_side_deck_of_a_side_is_the_side_deck(kb: KnowledgeBase, side: str) -> None:
    (mark,) = found(kb, f"soft spot on the {side} side deck")

    assert ("side_deck", side) == (mark.zone, mark.side)


@pytest.mark.parametrize("said", ["The blocks are old but all turning", "the blocks are old but turning freely"])
def test_what_turns_is_not_stuck(kb: KnowledgeBase, said: str) -> None:
    passed = {(one.zone, one.scale) for one in hear(said, kb) if isinstance(one, Passed)}

    assert ("leads", "run_free") in passed
