"""Words and rules that do not meet, ground rules that are broken, and rules that never matter."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import replace

import pytest

from tests.mistakes import small_base
from triage.errors import BadRules, Problem
from triage.knowledge.model import KnowledgeBase
from triage.lint import PASSES
from triage.lint.ground_rules import ground_rule_breaches
from triage.lint.nonvacuity import vacuous_rules
from triage.lint.redundancy import redundant_rules
from triage.lint.structure import structure_problems

Pass = Callable[[KnowledgeBase], Iterator[Problem]]
Change = tuple[str, str]

RULE = """
rules:
  - id: {id}
    when: {when}
    {does}
    because: It shows.
    basis: estimate
    cases:
      - {{given: {{zone: stem}}, expect: fires}}
      - {{given: {{zone: tank}}, expect: silent}}
"""


def rule(when: str, does: str, id: str = "a/rule") -> str:  # noqa: A002
    return RULE.format(id=id, when=when, does=does)


def told(lint: Pass, *changes: Change, **grafted: str) -> list[str]:
    problems = list(lint(small_base(*changes, **grafted)))

    for problem in problems:
        assert problem.hint
        assert problem.place.source.endswith(".yaml"), problem
        assert problem.place.line > 0, problem
    return [problem.what for problem in problems]


@pytest.mark.parametrize(("name", "lint"), PASSES, ids=[name for name, _ in PASSES])
def test_a_clean_base_is_passed_over_in_silence(name: str, lint: Pass) -> None:
    assert [] == told(lint)


GO_THROUGH_ALL = (
    "rules that never matter",
    "repairs that do not meet their findings",
    "repairs that say otherwise than the rules",
    "owners' repairs where rules ask for a repairer",
)
"""The passes that try every mark with every answer."""


def test_those_that_go_through_all_are_passes() -> None:
    assert set(GO_THROUGH_ALL) <= {name for name, _ in PASSES}


@pytest.mark.parametrize(
    "lint",
    [pytest.param(lint, id=name, marks=[pytest.mark.slow] * (name in GO_THROUGH_ALL)) for name, lint in PASSES],
)
def test_the_shipped_rules_pass(kb: KnowledgeBase, lint: Pass) -> None:
    assert "" == "\n".join(map(str, lint(kb)))


SCALE = """
scales:
  rust:
    kind: {kind}
    name: Rust
    asks: Is it rusty?
    levels: [{{name: bright, {says}: it is bright}}, {{name: brown, {says}: it is brown}}]
"""
STERN = """
walk: [{leg: stern, name: At the stern, stand: Stand behind her., zones: [transom]}]
offers: [{zones: [transom], signs: [nothing_seen, hairline]}]
zones:
  transom:
    name: Stern
    trade: transom
    load: steering
    criticality: secondary
    below_water: part
    encloses_buoyancy: no
    reached: from outside
    trouble: Lines at the corners.
    passed_by: [[panel_give]]
    how_passed: Press it.
"""
MAST = "facts: {mast: {asks: Whose?, values: {own: hers}}}\n"
CHIP = "signs: {chip: {name: Chip, picture: A piece is gone., scales: [crack_length]}}\n"


UNANSWERED = "nobody is ever asked about rust: no mark is judged by it"
UNASKED = "no rule and no zone asks for the boat fact mast"
ONE_SIDED = "chainplate names side_deck as a neighbour, but not the other way round"


@pytest.mark.parametrize(
    ("changes", "grafted", "expected"),
    [
        ([], STERN, ['no rule speaks of the zone "transom" or of a group it is in']),
        ([("only_in: [chainplate]", "only_in: [tank]")], "", ["no check reads fitting_play at chainplate"]),
        ([], SCALE.format(kind="observed", says="seen"), [UNANSWERED, "no rule reads the scale rust"]),
        ([], SCALE.format(kind="derived", says="phrase"), ["no rule raises rust to 1 (brown)"]),
        ([("tow: 1, ", "")], "", ["no rule raises tow to 1 (do not tow)"]),
        ([], MAST, [UNASKED]),
        ([], "groups: {ends: {name: ends, zones: [stem]}}\n", ["no rule uses the group ends"]),
        ([], CHIP, ['the sign "chip" is offered nowhere']),
        ([("- {zones: [tank], signs: [open_leak, nothing_seen]}", "")], "", ['no sign is offered at "tank"', "*"]),
        ([("[stem, chainplate, tank]", "[stem, tank]")], "", [ONE_SIDED]),
    ],
)
def test_words_that_nothing_uses(changes: list[Change], grafted: str, expected: list[str]) -> None:
    found = told(structure_problems, *changes, grafted=grafted)

    if expected[-1] == "*":  # and what follows from it
        assert expected[0] in found
    else:
        assert expected == found


@pytest.mark.parametrize(
    ("when", "why", "hint"),
    [
        (
            "{zone: stem, sign: open_leak}",
            "open_leak is not offered at stem",
            "At stem it can be: hairline, long_crack, nothing_seen. open_leak is offered at tank.",
        ),
        (
            "{zone: [chainplate, tank], sign: long_crack}",
            "long_crack is not offered at chainplate or tank",
            "At chainplate it can be: hairline, play, nothing_seen. At tank it can be: open_leak, nothing_seen. "
            "long_crack is offered at stem, side_deck.",
        ),
        (
            "{zone: stem, all: [{sign: hairline}, {sign: long_crack}]}",
            "its lines exclude each other",
            "Take one of them out, or join them with any.",
        ),
        (
            "{zone: tank, sign: open_leak, panel_give: {at_least: 1}}",
            "under open_leak at tank panel_give is not judged, or never at that level",
            "open_leak at tank is judged by: leak_rate.",
        ),
        (
            "{zone: stem, sign: hairline, crack_length: {at_least: 2}}",
            "under hairline at stem crack_length is not judged, or never at that level",
            "hairline at stem is judged by: panel_give.",
        ),
    ],
)
def test_a_rule_that_can_never_hold_is_told_once_with_what_would_be_possible(when: str, why: str, hint: str) -> None:
    kb = small_base(grafted=rule(when, "raises: {laminate: 1}"))

    (problem,) = vacuous_rules(kb)

    assert f"a/rule can never hold: {why}" == problem.what
    assert hint == problem.hint
    assert [] == list(redundant_rules(kb))


def test_a_sign_that_was_nearly_one_that_is_offered_there_is_guessed() -> None:
    play = """
signs: {played: {name: Played, picture: It has been played with., scales: [fitting_play]}}
offers: [{zones: [stem], signs: [played]}]
"""
    kb = small_base(play=play, rule=rule("{zone: chainplate, sign: played}", "raises: {laminate: 1}"))

    (problem,) = vacuous_rules(kb)

    assert problem.hint.startswith('Did you mean "play"? At chainplate it can be: ')


def test_a_rule_that_reads_what_is_never_raised_there_is_not_called_idle() -> None:
    when = "{zone: tank, laminate: {at_least: 1}}"

    assert ["a/rule holds on no boat that was tried: what it reads is never raised so far there"] == told(
        redundant_rules, grafted=rule(when, "raises: {verdict: 1}")
    )


def test_a_circle_of_derived_scales_is_refused_before_it_could_be_linted() -> None:
    there = rule("{zone: stem, verdict: {at_least: 1}}", "raises: {tow: 1}", id="there/it-goes")
    back = rule("{zone: stem, tow: {at_least: 1}}", "raises: {verdict: 1}", id="back/it-comes")

    with pytest.raises(BadRules, match="derived scales feed each other in a circle: verdict raises tow"):
        small_base(there=there, back=back)


UNHEARD = "nobody hears fitting_play at its worst at chainplate under {}, although it is a named check"


@pytest.mark.parametrize(
    ("changes", "grafted", "expected"),
    [
        (
            [],
            rule("{zone: stem, sign: hairline}", "presumes: {crack_length: 0}"),
            ["a/rule rests on no answer, so it would settle a mark by silence"],
        ),
        (
            [("    about: [leak_rate]\n", "    about: [panel_give]\n")],
            "",
            ["open_leak is about panel_give, which does not apply to it at tank"],
        ),
        (
            [],
            rule("{zone: stem, sign: long_crack, panel_give: {at_most: 0}}", "presumes: {crack_length: 1}"),
            ["a/rule presumes crack_length 1 at stem, but long_crack begins at 2"],
        ),
        (
            [
                (
                    "when: {zone: chainplate, fitting_play: {at_least: 1}}\n    raises: {laminate: 2}",
                    "when: {zone: chainplate, sign: play, fitting_play: {at_least: 1}}\n    raises: {laminate: 2}",
                ),
                (
                    "{given: {zone: chainplate, fitting_play: moves}, expect: fires}",
                    "{given: {zone: chainplate, sign: play, fitting_play: moves}, expect: fires}",
                ),
            ],
            "",
            [UNHEARD.format("hairline"), UNHEARD.format("nothing_seen")],
        ),
    ],
)
def test_the_ground_rules_of_presuming(changes: list[Change], grafted: str, expected: list[str]) -> None:
    assert expected == told(ground_rule_breaches, *changes, grafted=grafted)


def test_growth_alone_may_be_presumed_without_an_answer() -> None:
    growth = SCALE.format(kind="observed", says="seen").replace("rust", "growth").replace("Rust", "Growth")
    presumption = rule("{zone: stem, sign: hairline}", "presumes: {growth: 0}")

    assert [] == told(ground_rule_breaches, growth=growth, presumption=presumption)


IDLE = "a/rule never matters: whenever it holds, other rules already say as much"


@pytest.mark.parametrize(
    ("when", "does", "idle"),
    [
        ("{zone: stem, panel_give: {at_least: 1}}", "raises: {laminate: 1}", True),
        ("{zone: side_deck, panel_give: {at_least: 1}, crack_length: {at_least: 2}}", "raises: {laminate: 2}", True),
        ("{zone: side_deck, panel_give: {at_least: 1}, crack_length: {at_least: 2}}", "raises: {hands: 1}", True),
        ("{zone: side_deck, laminate: {at_least: 2}}", "raises: {afloat: 1}", True),
        ("{zone: stem, panel_give: {at_least: 1}}", "raises: {laminate: 2}", False),
        ("{zone: stem, crack_length: {at_least: 2}}", "raises: {laminate: 1}", False),
        ("{zone: stem, laminate: {at_least: 1}}", "raises: {hands: 1}", False),
        ("{zone: tank, verdict: {at_least: 2}}", "raises: {hands: 1}", False),
        ("{zone: stem, elsewhere: {zone: tank, leak_rate: {at_least: 2}}}", "raises: {laminate: 1}", False),
        (
            "{zone: stem, elsewhere: {zone: side_deck, verdict: {at_least: 1}, count: 2}}",
            "raises: {tow: 1}",
            False,
        ),
        ("{zone: side_deck, elsewhere: {twin: yes, panel_give: {at_least: 1}}}", "raises: {laminate: 1}", False),
        ("{zone: stem, panel_give: {at_least: 1}}", "advises: [{do: Dry it.}]", False),
        ("{zone: stem, panel_give: {at_least: 1}}", "suspects: [{zone: tank, sign: open_leak}]", False),
    ],
)
def test_a_rule_that_never_matters_is_told_and_no_other(when: str, does: str, idle: bool) -> None:
    assert ([IDLE] if idle else []) == told(redundant_rules, grafted=rule(when, does))


def test_a_step_that_makes_people_wait_wants_its_waiting_told() -> None:
    waits = ("steps: [Lay a ruler along it.]", "steps: [Leave it under cover for 48 hours.]")
    assert told(structure_problems, waits) == [
        'a step of measure tells of waiting ("for 48 hours"), but its minutes are all that is planned'
    ]
    assert told(structure_problems, (waits[0], waits[1] + "\n    wait: {hours: 48, say: two days under cover}")) == []


def test_a_suspicion_that_nobody_could_answer_is_told(kb: KnowledgeBase) -> None:
    step = replace(kb.zones["mast_step"], also_open=("backing",))
    told = list(structure_problems(replace(kb, zones={**kb.zones, "mast_step": step})))

    said = "event/mast-in-mud suspects corner_crack at mast_step, and nobody can say there that crack_opening is well"
    assert (said, "Add crack_opening to also_open of mast_step.") == (told[0].what, told[0].hint)
    assert all(one.what.endswith("nobody can say there that crack_opening is well") for one in told)
