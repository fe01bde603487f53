"""Answers that nothing tells apart, and what makes a difference between two of them."""

from __future__ import annotations

import pytest

from tests.mistakes import small_base
from triage.lint.unread import unread_levels

LEVEL = "- {name: very long, seen: it is longer than a hand}"
WORSE = "- {name: endless, seen: it runs off the panel}"
TOLD = 'nothing tells crack_length 3 ("endless") from 2 ("very long")'
LONGER = (LEVEL, f"{LEVEL}\n      {WORSE}"), ("limits: [50, 200]", "limits: [50, 200, 900]")
"""The small base, in which people are also asked whether a crack is endless."""

RULE = """
rules:
  - id: a/rule
    when: {{zone: stem, crack_length: {when}}}
    {does}
    because: It shows.
    basis: estimate
    cases:
      - {{given: {{zone: stem}}, expect: fires}}
      - {{given: {{zone: tank}}, expect: silent}}
"""
PROMISE = """
promises:
  - id: a/promise
    says: An endless crack is told.
    when: {zone: stem, crack_length: {at_least: 3}}
    at_least: {verdict: 1}
    because: It is long.
"""


def told(*changes: tuple[str, str], **grafted: str) -> list[str]:
    return [problem.what for problem in unread_levels(small_base(*changes, **grafted))]


def test_a_level_that_nothing_tells_from_its_neighbour_is_told_at_its_scale() -> None:
    (problem,) = unread_levels(small_base(*LONGER))

    assert TOLD == problem.what
    assert ("scales.yaml", 2) == (problem.place.source, problem.place.line)
    assert "kept_for" in problem.hint


@pytest.mark.parametrize(
    "grafted",
    [
        RULE.format(when="{at_least: 3}", does="raises: {laminate: 1}"),
        RULE.format(when="{at_most: 2}", does="presumes: {panel_give: 0}"),
        RULE.format(when="{at_most: 0}", does="presumes: {panel_give: 0}"),
        PROMISE,
    ],
    ids=["a rule", "a presumption that needs better", "a presumption of something else", "a promise"],
)
def test_a_rule_a_presumption_or_a_promise_may_tell_levels_apart(grafted: str) -> None:
    expected = [TOLD] if "at_most: 0" in grafted else []

    assert expected == told(*LONGER, grafted=grafted)


ALLOWED = "    scales: [crack_length, panel_give]\n"


@pytest.mark.parametrize(
    "allows",
    ["    least: {crack_length: 3}", "    caps: {crack_length: {at_most: 2, else: hairline}}"],
    ids=["the mildest that a sign allows", "the worst that a sign allows"],
)
def test_what_a_sign_allows_tells_levels_apart(allows: str) -> None:
    assert [] == told(*LONGER, (f"{ALLOWED}    least: {{crack_length: 2}}", f"{ALLOWED}{allows}"))


def test_a_level_may_say_what_it_is_kept_for_unless_it_is_read() -> None:
    kept = f"{WORSE[:-1]}, kept_for: A later look compares it.}}"
    read = RULE.format(when="{at_least: 3}", does="raises: {laminate: 1}")
    changes = (LEVEL, f"{LEVEL}\n      {kept}"), LONGER[1]

    assert [] == told(*changes)
    assert ['crack_length 3 ("endless") says what it is kept_for, but it is read'] == told(*changes, read=read)


def test_the_two_ends_of_a_scale_that_nothing_reads_are_not_told_one_by_one() -> None:
    rust = """
scales:
  rust:
    kind: observed
    name: Rust
    asks: Is it rusty?
    levels: [{name: bright, seen: it is bright}, {name: brown, seen: it is brown}]
"""

    assert [] == told(rust=rust)
