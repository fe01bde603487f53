"""Whatever can be met has words that people call it by, once anything has, and the same words mean one mark only."""

from __future__ import annotations

from tests.mistakes import small_base
from triage.knowledge.model import KnowledgeBase
from triage.lint.lexicon import answered_twice, claimed_twice, missing_words

WORDS = """
words:
  zones:
    stem: {picture: The edge at the front., said: [nose]}
    chainplate: {picture: A plate., said: [plate]}
    side_deck: {picture: The side., said: [side]}
  ignored: [it, is]
  signs:
    hairline: {said: [line]}
    long_crack: {said: [crack]}
    play: {said: [loose]}
    nothing_seen: {said: [fine]}
"""


def test_a_place_and_a_mark_without_words_are_told_where_they_stand() -> None:
    problems = list(missing_words(small_base(words_of_people=WORDS)))

    assert [
        ("what do people call tank? Nothing says", "words.yaml"),
        ("what do people call open_leak? Nothing says", "words.yaml"),
    ] == [(problem.what, problem.place.source) for problem in problems]
    assert all(problem.place.line for problem in problems)


def test_a_base_without_any_words_is_left_alone() -> None:
    assert [] == list(missing_words(small_base()))


def test_a_complaint_that_two_marks_claim_is_told_once() -> None:
    complaints = """  complaints:
    stem: {hairline: [the nose has cracked, a line in the nose]}
    side_deck: {hairline: [the nose has cracked]}
"""

    (problem,) = claimed_twice(small_base(words_of_people=WORDS + complaints))

    assert problem.what == ("“the nose has cracked” is a complaint of hairline at stem, and of hairline at side_deck")


def test_no_shipped_complaint_is_claimed_twice(kb: KnowledgeBase) -> None:
    assert [] == list(claimed_twice(kb))


def test_the_same_answer_at_two_levels_is_told_with_the_scale() -> None:
    answers = """  observations:
    panel_give: {firm: [it is bouncy here, stiff], soft: [bouncy here]}
"""

    (problem,) = answered_twice(small_base(words_of_people=WORDS + answers))

    assert "the same of two levels of panel_give" in problem.what
    assert "“it is bouncy here” is “firm”" in problem.what
    assert "“bouncy here” is “soft”" in problem.what


def test_no_shipped_answer_stands_at_two_levels(kb: KnowledgeBase) -> None:
    assert [] == list(answered_twice(kb))
