"""Words that are nearly right, and words that are fit to print."""

from __future__ import annotations

import pytest

from tests.bounded import bounded
from triage.parsing.text import did_you_mean, nearest

KNOWN = ["chainplate", "chine", "mast_step", "Transom", "topside"]


@pytest.mark.parametrize(
    ("word", "expected"),
    [
        ("chainplat", ["chainplate"]),
        ("CHAINPLATE", ["chainplate"]),
        ("transon", ["Transom"]),
        ("maststep", ["mast_step"]),
        ("chin", ["chine"]),
        ("keel", []),
        ("", []),
    ],
)
def test_what_was_nearly_written_is_found(word: str, expected: list[str]) -> None:
    assert expected == nearest(word, KNOWN)


def test_of_words_that_are_as_near_the_first_in_the_alphabet_comes_first() -> None:
    assert ["cab", "car", "cat"] == nearest("caz", ["cat", "car", "cab", "cow"])
    assert ["cab", "car"] == nearest("caz", ["cat", "car", "cab"], at_most=2)


def test_what_is_much_less_near_than_the_nearest_is_not_named() -> None:
    assert ["hairline"] == nearest("hairlin", ["hairline", "airing"])


def test_when_nothing_is_near_all_are_told_if_they_are_few() -> None:
    assert "It can be: chainplate, chine, mast_step, topside, Transom." == did_you_mean("keel", KNOWN)
    assert "" == did_you_mean("keel", map(str, range(21)))
    assert 'Did you mean "chine"?' == did_you_mean("chin", KNOWN)


def test_a_word_without_end_is_answered_at_once() -> None:
    with bounded(2):
        assert [] == nearest("chainplate" * 100_000, KNOWN * 100)
