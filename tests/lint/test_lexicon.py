"""Whatever can be met has words that people call it by, once anything has."""

from __future__ import annotations

from tests.mistakes import small_base
from triage.lint.lexicon import missing_words

WORDS = """
words:
  zones:
    stem: {picture: The edge at the front., said: [nose]}
    chainplate: {picture: A plate., said: [plate]}
    side_deck: {picture: The side., said: [side]}
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
