"""A rule's own cases: those that come out wrong, and every small way to spoil a rule that they do not notice."""

from __future__ import annotations

import pytest

from tests.mistakes import small_base
from triage.lint.cases import describe, wrong_cases
from triage.lint.mutants import surviving_mutants

RULE = """
rules:
  - id: a/rule
    when: {when}
    raises: {{laminate: 1}}
    because: It shows.
    basis: estimate
    cases:
{cases}
"""
PRESUMPTION = RULE.replace("raises: {{laminate: 1}}", "presumes: {{leak_rate: 0}}")


def cases(fires: list[str], silent: list[str]) -> str:
    lines = [f"      - {{given: {given}, expect: fires}}" for given in fires]
    return "\n".join(lines + [f"      - {{given: {given}, expect: silent}}" for given in silent])


def wrong(when: str, fires: list[str], silent: list[str]) -> list[str]:
    kb = small_base(rule=RULE.format(when=when, cases=cases(fires, silent)))
    return [problem.what for problem in wrong_cases(kb)]


def surviving(when: str, fires: list[str], silent: list[str], form: str = RULE) -> list[str]:
    kb = small_base(rule=form.format(when=when, cases=cases(fires, silent)))
    assert [] == list(wrong_cases(kb))
    return [problem.what.removeprefix("a/rule: no case notices ") for problem in surviving_mutants(kb)]


SOFT_STEM = "{zone: stem, panel_give: {at_least: 1}}"


def test_a_case_that_comes_out_wrong_is_told_with_its_place() -> None:
    kb = small_base(
        (
            "{given: {zone: tank, leak_rate: dry}, expect: silent}",
            "{given: {zone: tank, leak_rate: dry}, expect: fires}",
        )
    )

    (problem,) = wrong_cases(kb)

    assert "tank/leaks: expected fires, but it stays silent on {zone: tank, leak_rate: 0}" == problem.what
    assert ("rules.yaml", 62) == (problem.place.source, problem.place.line)
    assert problem.hint


@pytest.mark.parametrize(
    ("fires", "silent", "told"),
    [
        ("{zone: stem, panel_give: 0}", "{zone: tank}", "fires, but it stays silent on {zone: stem, panel_give: 0}"),
        (
            "{zone: stem, panel_give: 1}",
            "{zone: stem, panel_give: 1}",
            "silent, but it fires on {zone: stem, panel_give: 1}",
        ),
        (
            "{zone: [stem, tank], panel_give: 1}",
            "{zone: stem}",
            "fires, but it stays silent on {zone: tank, panel_give: 1}",
        ),
        (
            "{zone: stem, panel_give: [0, 1]}",
            "{zone: stem}",
            "fires, but it stays silent on {zone: stem, panel_give: 0}",
        ),
    ],
)
def test_every_word_of_a_list_is_a_case_of_its_own(fires: str, silent: str, told: str) -> None:
    assert [f"a/rule: expected {told}"] == wrong(SOFT_STEM, [fires], [silent])


def test_a_list_of_words_elsewhere_makes_cases_and_not_more_findings() -> None:
    when = "{zone: stem, elsewhere: {zone: [side_deck, tank], count: 2}}"
    fires = "{zone: stem, elsewhere: [{zone: [side_deck, tank]}, {zone: tank}]}"
    silent = "{zone: stem, elsewhere: [{zone: [side_deck, tank, chainplate]}]}"

    assert [] == wrong(when, [fires], [silent])


def test_what_a_case_leaves_out_is_unknown_and_matches_nothing() -> None:
    given = ["{zone: stem, deck: single}"], ["{zone: stem}", "{zone: stem, deck: cored}", "{deck: single}"]

    assert [] == wrong("{zone: stem, deck: single}", *given)


def test_facts_of_the_zone_follow_from_it() -> None:
    when = "{group: trodden, load: crew, criticality: secondary, below_water: no, encloses_buoyancy: no}"

    assert [] == wrong(when, ["{zone: side_deck}"], ["{zone: stem}"])


def test_a_case_is_told_as_it_might_have_been_written() -> None:
    kb = small_base()

    told = [describe(case) for rule in kb.rules if rule.id == "anchor/deck-gives-beside-it" for case in rule.cases]

    assert "{zone: chainplate, side: port, elsewhere: [{zone: side_deck, side: port, panel_give: 1}]}" == told[0]


LONG = "{zone: stem, crack_length: {at_least: 1}}"
EITHER = "{zone: [stem, tank], any: [{deck: single, panel_give: {at_least: 1}}, {sign: hairline}]}"
BESIDE = "{zone: chainplate, elsewhere: {zone: [side_deck, tank], panel_give: {at_least: 1}, count: 2}}"
DECK_GIVES, TANK_GIVES, STEM_GIVES = (f"{{zone: {zone}, panel_give: 1}}" for zone in ("side_deck", "tank", "stem"))
TWIN = "{zone: side_deck, elsewhere: {twin: yes, panel_give: {at_least: 1}}}"
SAME_SIDE = "{zone: chainplate, elsewhere: {zone: tank, side: same}}"
OTHER_DECK = "{zone: side_deck, side: starboard, panel_give: 1}"


@pytest.mark.parametrize(
    ("when", "fires", "silent", "survivors"),
    [
        (
            LONG,
            ["{zone: stem, crack_length: 2}"],
            ["{zone: tank, crack_length: 2}", "{zone: stem, crack_length: 0}"],
            ["crack_length: {at_least: 2} in place of 1"],
        ),
        (
            "{zone: stem, crack_length: {at_least: 2}}",
            ["{zone: stem, crack_length: 2}"],
            ["{zone: tank, crack_length: 2}", "{zone: stem, crack_length: 0}"],
            ["crack_length: {at_least: 1} in place of 2"],
        ),
        (
            LONG,
            ["{zone: stem, crack_length: 1}"],
            ["{zone: stem, crack_length: 0}"],
            ["that the line zone: stem is gone"],
        ),
        (
            LONG,
            ["{zone: stem, crack_length: 1}"],
            ["{zone: tank, crack_length: 1}"],
            ["that the line crack_length: {at_least: 1} is gone"],
        ),
        (
            "{zone: [stem, tank], panel_give: {at_least: 1}}",
            ["{zone: stem, panel_give: 1}"],
            ["{zone: stem}", "{zone: side_deck, panel_give: 1}"],
            ['that "tank" is gone from zone'],
        ),
        (
            EITHER,
            ["{zone: [stem, tank], sign: hairline}"],
            ["{zone: stem, panel_give: 1}", "{zone: stem, deck: single}", "{zone: side_deck, sign: hairline}"],
            ["that the branch deck: single, panel_give: {at_least: 1} is gone"],
        ),
        (
            EITHER,
            ["{zone: [stem, tank], sign: hairline}", "{zone: stem, deck: single, panel_give: 1}"],
            ["{zone: stem, deck: single}", "{zone: side_deck, sign: hairline}"],
            ["that the line deck: single is gone"],
        ),
        (
            BESIDE,
            [f"{{zone: chainplate, elsewhere: [{DECK_GIVES}, {TANK_GIVES}, {TANK_GIVES}]}}"],
            [
                f"{{zone: stem, elsewhere: [{DECK_GIVES}, {TANK_GIVES}]}}",
                f"{{zone: chainplate, elsewhere: [{DECK_GIVES}, {{zone: tank}}]}}",
                f"{{zone: chainplate, elsewhere: [{DECK_GIVES}, {STEM_GIVES}]}}",
            ],
            ["3 others in place of 2", 'elsewhere, that "side_deck" is gone from zone'],
        ),
        (
            BESIDE,
            [f"{{zone: chainplate, elsewhere: [{DECK_GIVES}, {TANK_GIVES}]}}"],
            [
                f"{{zone: stem, elsewhere: [{DECK_GIVES}, {TANK_GIVES}]}}",
                f"{{zone: chainplate, elsewhere: [{STEM_GIVES}, {STEM_GIVES}]}}",
                "{zone: chainplate, elsewhere: [{zone: tank}, {zone: tank}]}",
            ],
            ["1 others in place of 2"],
        ),
        (
            TWIN,
            [f"{{zone: side_deck, side: port, elsewhere: [{OTHER_DECK}]}}"],
            [
                f"{{zone: stem, side: port, elsewhere: [{OTHER_DECK}]}}",
                "{zone: side_deck, side: port, elsewhere: [{zone: side_deck, side: starboard}]}",
            ],
            ["that the line zone: side_deck is gone", "that twin is gone"],
        ),
        (
            SAME_SIDE,
            ["{zone: chainplate, side: port, elsewhere: [{zone: tank, side: port}]}"],
            ["{zone: stem, side: port, elsewhere: [{zone: tank, side: port}]}", "{zone: chainplate, side: port}"],
            ["that same side is gone", "elsewhere, that the line zone: tank is gone"],
        ),
        (
            "{zone: stem, elsewhere: {zone: tank}}",
            ["{zone: stem, elsewhere: [{zone: tank}]}"],
            ["{zone: stem}", "{zone: tank, elsewhere: [{zone: tank}]}"],
            ["elsewhere, that the line zone: tank is gone"],
        ),
    ],
)
def test_each_spoilt_rule_that_no_case_notices_is_told(
    when: str, fires: list[str], silent: list[str], survivors: list[str]
) -> None:
    assert survivors == surviving(when, fires, silent)


FIRM = "{zone: tank, crack_length: {at_most: 1}}"


ONE, TWO = "{zone: tank, crack_length: 1}", "{zone: tank, crack_length: 2}"
BEST, STEM = "{zone: tank, crack_length: 0}", "{zone: stem, crack_length: 0}"


@pytest.mark.parametrize(
    ("fires", "silent", "survivors"),
    [
        ([ONE], ["{zone: tank}", STEM], ["crack_length: {at_most: 2} in place of 1"]),
        ([BEST], [TWO, STEM], ["crack_length: {at_most: 0} in place of 1"]),
        ([ONE], [TWO], ["that the line zone: tank is gone"]),
        ([ONE], [TWO, STEM], []),
    ],
)
def test_a_presumption_is_spoilt_in_the_same_ways(fires: list[str], silent: list[str], survivors: list[str]) -> None:
    assert survivors == surviving(FIRM, fires, silent, PRESUMPTION)


def test_a_survivor_is_told_with_the_rule_and_what_to_do() -> None:
    kb = small_base(rule=RULE.format(when=LONG, cases=cases(["{zone: stem, crack_length: 1}"], ["{zone: stem}"])))

    (problem,) = surviving_mutants(kb)

    assert (
        "rule.yaml:3:5: a/rule: no case notices that the line zone: stem is gone\n    Add a case that does."
    ) == str(problem)
