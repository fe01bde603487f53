"""Marks that stay open whatever is answered, and everyday marks that come out otherwise than expected."""

from __future__ import annotations

import pytest

from tests.mistakes import small_base
from triage.errors import BadRules
from triage.lint.everyday import surprising_marks
from triage.lint.settling import Settled, fewest_answers, unsettled_marks
from triage.survey.model import Boat

GROWS = """
scales:
  growth:
    kind: observed
    name: Growth
    asks: Has it grown?
    levels: [{name: still, seen: it has not grown}, {name: grows, seen: it grows}]
rules:
  - id: stem/grows
    when: {zone: stem, growth: {at_least: 1}}
    raises: {verdict: 1}
    because: What grows goes on.
    basis: estimate
    cases:
      - {given: {zone: stem}, expect: fires}
      - {given: {zone: tank}, expect: silent}
"""
GROWS_CORED = GROWS.replace("{zone: stem, growth", "{zone: stem, deck: cored, growth")
SCALES, CAPS = "    scales: [crack_length, panel_give", "]\n    caps"
JUDGED = (SCALES + CAPS, f"{SCALES}, growth{CAPS}")


def test_a_mark_that_stays_open_whatever_is_answered_is_told_at_its_sign() -> None:
    (problem,) = unsettled_marks(small_base(JUDGED, growth=GROWS))

    assert "hairline at stem never settles: with every answer at its best it is cosmetic or monitor" == problem.what
    assert ("words.yaml", 68) == (problem.place.source, problem.place.line)


def test_a_mark_that_stays_open_on_some_boats_only_is_told_with_the_boat() -> None:
    (problem,) = unsettled_marks(small_base(JUDGED, growth=GROWS_CORED))

    assert problem.what.startswith("hairline at stem never settles on a boat with deck: cored: ")


def test_a_presumption_for_what_nobody_can_answer_yet_settles_it() -> None:
    still = """
rules:
  - id: presume/still
    when: {sign: hairline}
    presumes: {growth: 0}
    because: Nobody has seen it grow.
    basis: estimate
    cases:
      - {given: {sign: hairline}, expect: fires}
      - {given: {sign: play}, expect: silent}
"""

    assert [] == list(unsettled_marks(small_base(JUDGED, growth=GROWS, still=still)))


def test_the_fewest_answers_are_found() -> None:
    settled = fewest_answers(small_base(), "side_deck", "hairline", Boat("common", {"deck": "single"}))

    assert Settled(("panel_give",), "cosmetic") == settled


MARKS = """
everyday:
  boat: {deck: single}
  marks:
    hairline: {side_deck: %s}
    open_leak: {tank: 1 cosmetic}
"""
STRICTER = """  stricter:
    - zone: %s
      sign: hairline
      comes_to: 1 cosmetic
      because: A leak may be felt before it is seen.
"""


def told(everyday: str) -> list[str]:
    return [str(problem) for problem in surprising_marks(small_base(everyday=everyday))]


def test_an_everyday_mark_that_comes_out_as_expected_is_passed_over() -> None:
    assert [] == told(MARKS % "1 cosmetic")


@pytest.mark.parametrize("said", ["2 cosmetic", "1 monitor"])
def test_one_that_comes_out_otherwise_is_told_where_it_is_written(said: str) -> None:
    assert [
        f"everyday.yaml:5:16: hairline at side_deck should come to {said}, but now: 1 cosmetic (panel_give)\n"
        "    Mend the rules; or, if it is right so, say why under stricter."
    ] == told(MARKS % said)


def test_where_the_rules_are_stricter_for_a_reason_that_is_what_counts() -> None:
    assert [] == told(MARKS % "2 cosmetic" + STRICTER % "side_deck")


@pytest.mark.parametrize(
    ("everyday", "what"),
    [
        (MARKS % "many", '"many" is no number of answers with a verdict'),
        (MARKS % "1 grave", 'verdict has no level "grave"'),
        (MARKS % "1 cosmetic, tank: 1 cosmetic", "hairline cannot be met at tank"),
        (MARKS % "1 cosmetic, cellar: 1 cosmetic", 'no zone is called "cellar"'),
        (MARKS % "1 cosmetic" + STRICTER % "stem", "nothing is expected of hairline at stem"),
        (MARKS % "1 cosmetic" + STRICTER % "side_deck", "this is what is expected"),
        (MARKS.replace("single", "wooden") % "1 cosmetic", 'no deck is called "wooden"'),
    ],
)
def test_what_cannot_be_expected_is_refused(everyday: str, what: str) -> None:
    with pytest.raises(BadRules, match=what):
        small_base(everyday=everyday)


def test_everyday_marks_stand_in_one_file() -> None:
    with pytest.raises(BadRules, match="everyday marks are already given"):
        small_base(everyday=MARKS % "1 cosmetic", more=MARKS % "1 cosmetic")
