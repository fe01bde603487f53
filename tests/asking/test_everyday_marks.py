"""Everyday harmless marks settle with one or two answers, and none settles as harmless while a named check is out."""

from __future__ import annotations

import itertools
from collections.abc import Iterator, Mapping

import pytest

from tests.settling import BOAT
from triage.concluding.assess import assess_survey
from triage.inference.evaluate import evaluate
from triage.knowledge.model import AFLOAT, NOTHING_SEEN, TOW, VERDICT, KnowledgeBase
from triage.lint.settling import Settled, fewest_answers, judge, mildest
from triage.phrases.boat import headline
from triage.survey.model import Boat, Finding, Reading, Survey

SWAMPED = Boat("Wagtail", {**BOAT.facts, "after_swamp_test": "yes"})
"""A space that is dry after an upright sail has passed nothing; after a capsize it has."""

MINOR_FACTS = {"bow_pole", "trapeze", "after_swamp_test"}
"""Facts on which no natural check depends."""

Table = Mapping[str, Mapping[str, Settled | None]]


@pytest.fixture(scope="module")
def found(kb: KnowledgeBase) -> Table:
    return {zone: {sign: fewest_answers(kb, zone, sign, BOAT) for sign in signs} for zone, signs in kb.offers.items()}


def test_the_boat_of_these_tests_is_the_common_one(kb: KnowledgeBase) -> None:
    assert kb.everyday.boat == BOAT.facts
    assert set(kb.facts) == set(BOAT.facts)


def test_nothing_needs_more_than_five_answers(found: Table) -> None:
    counts = [len(settled.answers) for signs in found.values() for settled in signs.values() if settled]

    assert len(counts) == sum(map(len, found.values()))
    assert max(counts) <= 5


def test_enough_everyday_marks_are_written_down(kb: KnowledgeBase) -> None:
    assert len(kb.everyday.marks) >= 75


def test_harmless_marks_away_from_main_load_routes_need_two_answers_at_most(kb: KnowledgeBase, found: Table) -> None:
    answers = [
        len(settled.answers)
        for mark in kb.everyday.marks
        if not mark.expected.verdict and not kb.zones[mark.zone].named_checks
        if (settled := found[mark.zone][mark.sign])
    ]

    assert len(answers) >= 40
    assert max(answers) <= 2


def missing(kb: KnowledgeBase, zone: str, sign: str) -> Iterator[frozenset[str]]:
    """Every smallest choice of named checks without which no set of them is complete."""
    for choice in itertools.product(*kb.named_sets(zone, sign)):
        yield frozenset(choice)


def test_no_mark_settles_as_cosmetic_while_a_named_check_is_out_and_all_else_is_at_its_best(kb: KnowledgeBase) -> None:
    tried, silent = 0, []
    for zone, signs in kb.offers.items():
        for sign in signs:
            levels = {**mildest(kb, zone, sign), **({"growth": 0} if "growth" in kb.applicable(zone, sign) else {})}
            for out in missing(kb, zone, sign) if kb.named_sets(zone, sign) else ():
                tried += 1
                judged = judge(kb, zone, sign, {s: n for s, n in levels.items() if s not in out}, BOAT)
                if judged.interval(VERDICT) == (0, 0):
                    silent.append((zone, sign, sorted(out)))

    assert tried >= 900
    assert silent == []


def passed(kb: KnowledgeBase, *, also_open: bool) -> Iterator[Finding]:
    """Every part looked at and passed, in each way in which it can be."""
    for zone in kb.zones.values():
        for number, way in enumerate(zone.passed_by):
            answered = (*way, *zone.also_open) if also_open else way
            readings = {scale: Reading.at(0, "0") for scale in answered}
            yield Finding(f"{zone.id}.{number}", zone.id, NOTHING_SEEN, None, readings)


@pytest.mark.slow
def test_a_boat_whose_every_part_passed_its_natural_checks_comes_out_clean(kb: KnowledgeBase) -> None:
    hers = {zone.id for zone in kb.zones.values() if SWAMPED.has(zone)}
    survey = Survey(SWAMPED, tuple(found for found in passed(kb, also_open=False) if found.zone in hers))

    assessment = assess_survey(survey, kb)

    assert hers == {finding.zone for finding in survey.findings}
    assert "No mark was found" == headline(assessment)
    assert assessment.settled_and_fit
    assert () == assessment.suspicions


def test_the_natural_checks_alone_settle_every_part_of_a_common_boat(kb: KnowledgeBase) -> None:
    for judged in evaluate(kb, SWAMPED, list(passed(kb, also_open=False))):
        assert [(0, 0)] * 3 == [judged.interval(scale) for scale in (VERDICT, AFLOAT, TOW)], judged.finding.id


def test_however_she_is_built_a_boat_that_passes_every_check_comes_out_clean(kb: KnowledgeBase) -> None:
    choices = [[(fact.id, value) for value in fact.values] for fact in kb.facts.values() if fact.id not in MINOR_FACTS]
    findings = list(passed(kb, also_open=True))

    for facts in itertools.product(*choices):
        for judged in evaluate(kb, Boat("Wagtail", {**SWAMPED.facts, **dict(facts)}), findings):
            assert [(0, 0)] * 3 == [judged.interval(scale) for scale in (VERDICT, AFLOAT, TOW)], (
                facts,
                judged.finding.id,
            )
