"""The laws of the shipped rules: what must hold whatever is found on whatever boat. Each test's name is the law."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace
from functools import cache

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from tests.laws.ranges import (
    best_ends,
    changed,
    fallen,
    ranges,
    risen,
    shipped,
    with_answer,
    without_answer,
    worst_ends,
)
from tests.strategies import boats, boats_with_findings, findings, passed_findings
from triage.concluding.assess import assess_survey
from triage.conclusions.assessment import Assessment, FindingAssessment
from triage.inference.evaluate import evaluate
from triage.knowledge.compiled.conjuncts import Conjunct, conjuncts_of
from triage.knowledge.model import AFLOAT, NOTHING_SEEN, OTHER_SIDE, TOW, VERDICT, KnowledgeBase
from triage.knowledge.model.conditions import Elsewhere, parts
from triage.survey.model import Boat, Finding, Reading, Survey

CRACKS = ("hairline", "star_crack", "ring_crack", "parallel_cracks", "fastener_cracks", "corner_crack")
LOADED = ("rig_bases", "board_case", "seams")
PLAIN = ("topside", "bottom", "foredeck", "side_deck", "cockpit_floor")
ORDINARY = {"deck": "single", "hull": "single", "spar": "alloy", "standing_rigging": "wire"}
CAPSIZED = {"after_swamp_test": "yes"}
"""What a closed space that is found dry says depends on it."""


@settings(max_examples=25)
@given(data=st.data())
def test_a_worse_answer_never_makes_anything_milder(data: st.DataObject) -> None:
    kb = shipped()
    boat, found = data.draw(boats_with_findings(kb, most=3))
    finding = data.draw(st.sampled_from(found))
    raisable = [scale for scale, level in finding.upper.items() if level < kb.worst(finding.sign, scale)]
    assume(raisable)
    scale = data.draw(st.sampled_from(raisable))
    worse = data.draw(st.integers(finding.upper[scale] + 1, kb.worst(finding.sign, scale)))

    before = ranges(kb, boat, found)
    after = ranges(kb, boat, changed(found, with_answer(finding, scale, worse)))

    assert fallen(best_ends(before, after)) == []
    assert fallen(worst_ends(before, after)) == []


@settings(max_examples=20)
@given(data=st.data())
def test_an_answer_where_there_was_none_never_makes_the_best_case_milder(data: st.DataObject) -> None:
    kb = shipped()
    boat, found = data.draw(boats_with_findings(kb, most=3))
    finding, scale = an_unanswered_scale(kb, found, data)
    level = data.draw(st.integers(kb.best(finding.sign, scale), kb.worst(finding.sign, scale)))

    before = ranges(kb, boat, found)
    after = ranges(kb, boat, changed(found, with_answer(finding, scale, level)))

    assert fallen(best_ends(before, after)) == []


@settings(max_examples=20)
@given(data=st.data())
def test_another_finding_never_makes_the_others_milder(data: st.DataObject) -> None:
    kb = shipped()
    boat, found = data.draw(boats_with_findings(kb, most=3))
    another = data.draw(findings(kb, id="another"))

    before = ranges(kb, boat, found)
    after = ranges(kb, boat, [*found, another])[:-1]

    assert fallen(best_ends(before, after)) == []
    assert fallen(worst_ends(before, after)) == []


def test_a_crack_that_grew_is_never_cosmetic(kb: KnowledgeBase) -> None:
    grown = [
        Finding("f", zone, sign, readings={"growth": Reading.at(2, "grew")})
        for zone, offered in kb.offers.items()
        for sign in offered
        if sign in CRACKS or sign == "joint_crack"
    ]

    mild = [finding for finding in grown if ranges(kb, Boat("Wagtail"), [finding])[0][VERDICT][0] == 0]

    assert len(grown) > 50
    assert mild == []


def an_unanswered_scale(kb: KnowledgeBase, found: Sequence[Finding], data: st.DataObject) -> tuple[Finding, str]:
    """One of the findings and a scale that applies to it and was not answered."""
    finding = data.draw(st.sampled_from(found))
    left = [scale for scale in kb.applicable(finding.zone, finding.sign) if scale not in finding.answered]
    assume(left)
    return finding, data.draw(st.sampled_from(left))


@settings(max_examples=25)
@given(data=st.data())
def test_a_check_that_was_passed_only_narrows_the_range(data: st.DataObject) -> None:
    kb = shipped()
    boat, found = data.draw(boats_with_findings(kb, most=3))
    finding, scale = an_unanswered_scale(kb, found, data)
    assume(scale not in kb.signs[finding.sign].least)  # the mark itself shows that it would not be passed

    before = ranges(kb, boat, found)
    after = ranges(kb, boat, changed(found, with_answer(finding, scale, 0)))

    assert before == [{s: (ends[0], before[n][s][1]) for s, ends in one.items()} for n, one in enumerate(after)]
    assert risen(worst_ends(before, after)) == []


@settings(max_examples=25)
@given(data=st.data())
def test_an_answer_left_out_only_widens_the_range_unless_it_pulled_apart_from_others(data: st.DataObject) -> None:
    kb = shipped()
    boat, found = data.draw(boats_with_findings(kb, most=3))
    finding = data.draw(st.sampled_from(found))
    assume(finding.answered)
    scale = data.draw(st.sampled_from(list(finding.answered)))
    judged = next(one for one in evaluate(kb, boat, found) if one.finding is finding)

    before = ranges(kb, boat, found)
    after = ranges(kb, boat, changed(found, without_answer(finding, scale)))

    assert risen(best_ends(before, after)) == []
    if fallen(worst_ends(before, after)):
        contradicted = [gone.presumption for gone in judged.defeated if scale in gone.against]
        assert contradicted
        if any(presumption.rests_on for presumption in contradicted):  # growth alone is presumed on no answer
            assert one_finding(assess_survey(Survey(boat, found), kb), finding).pulls_apart


def one_finding(assessment: Assessment, finding: Finding) -> FindingAssessment:
    return next(one for one in assessment.findings if one.id == finding.id)


@settings(max_examples=20)
@given(data=st.data())
def test_a_mild_mark_that_no_rule_connects_changes_nothing_elsewhere(data: st.DataObject) -> None:
    kb = shipped()
    boat, found = data.draw(boats_with_findings(kb, most=3))
    mild = data.draw(passed_findings(kb))
    assume(cosmetic_by_itself(kb, boat, mild))

    assert ranges(kb, boat, found) == ranges(kb, boat, [*found, mild])[:-1]


@settings(max_examples=20)
@given(data=st.data())
def test_many_cosmetic_marks_do_not_add_up_to_more(data: st.DataObject) -> None:
    kb = shipped()
    boat = data.draw(boats(kb))
    drawn = [data.draw(passed_findings(kb, id=f"f{number}")) for number in range(8)]
    marks = [mark for mark in drawn if cosmetic_by_itself(kb, boat, mark)]

    assert all(one[VERDICT] == (0, 0) for one in ranges(kb, boat, marks))


def cosmetic_by_itself(kb: KnowledgeBase, boat: Boat, finding: Finding) -> bool:
    """Settled as cosmetic when it is alone, and not a mark that some rule looks for from elsewhere."""
    sought = any(
        conjunct.fits(finding.zone, finding.sign)
        and all(kb.best(finding.sign, scale) >= level for scale, level in conjunct.levels if scale in finding.readings)
        for conjunct in marks_sought(kb)
    )
    return not sought and ranges(kb, boat, [finding])[0][VERDICT] == (0, 0)


@cache
def marks_sought(kb: KnowledgeBase) -> list[Conjunct]:
    """What rules look for elsewhere by the mark or by a reading that some marks show at their best."""
    asked = (part for rule in kb.rules for part in parts(rule.when) if isinstance(part, Elsewhere))
    found = [conjunct for part in asked for conjunct in conjuncts_of(kb, part.condition)]
    shown = {reading for sign in kb.signs.values() for reading in sign.least.items()}
    return [one for one in found if one.signs is not None or any((s, n) in shown for s, n in one.levels)]


@settings(max_examples=20)
@given(data=st.data())
def test_port_and_starboard_are_alike(data: st.DataObject) -> None:
    kb = shipped()
    boat, found = data.draw(boats_with_findings(kb, most=4))

    mirrored = [replace(one, side=OTHER_SIDE[one.side]) if one.side else one for one in found]

    assert ranges(kb, boat, found) == ranges(kb, boat, mirrored)


def loaded_zones(kb: KnowledgeBase) -> list[str]:
    return [*(zone for group in LOADED for zone in kb.groups[group].zones), "rudder_fittings"]


@settings(max_examples=40)
@given(data=st.data())
def test_a_crack_at_a_load_point_is_never_milder_than_in_a_plain_panel(data: st.DataObject) -> None:
    """At its worst only where the same was read at both, for each place has other checks that say most about it."""
    kb = shipped()
    sign = data.draw(st.sampled_from(CRACKS))
    loaded = data.draw(st.sampled_from([zone for zone in loaded_zones(kb) if sign in kb.offers[zone]]))
    plain = data.draw(st.sampled_from([zone for zone in PLAIN if sign in kb.offers[zone]]))
    at_both = [scale for scale in kb.applicable(loaded, sign) if scale in kb.applicable(plain, sign)]
    read = data.draw(st.one_of(st.just(set(at_both)), st.sets(st.sampled_from(at_both))))
    least = kb.signs[sign].least
    levels = {scale: data.draw(st.integers(least.get(scale, 0), kb.worst(sign, scale))) for scale in sorted(read)}
    readings = {scale: Reading.at(level) for scale, level in levels.items()}
    boat = data.draw(boats(kb))

    (in_plain,) = ranges(kb, boat, [Finding("f", plain, sign, readings=readings)])
    (at_load,) = ranges(kb, boat, [Finding("f", loaded, sign, readings=readings)])

    for scale in (VERDICT, AFLOAT):
        assert at_load[scale][0] >= in_plain[scale][0]
        assert len(read) < len(at_both) or at_load[scale][1] >= in_plain[scale][1]


def test_the_age_of_the_hull_is_asked_nowhere(kb: KnowledgeBase) -> None:
    questions = [fact.asks for fact in kb.facts.values()] + [scale.asks for scale in kb.scales.values()]

    assert [asked for asked in questions if {"age", "old", "year", "years"} & set(asked.lower().split())] == []


def passed(
    kb: KnowledgeBase, boat: Boat, *, every_check: bool, dry: Mapping[str, str] = CAPSIZED
) -> Iterator[tuple[Boat, tuple[Finding, ...]]]:
    """Every part of the boat looked at and passed; in as many boats as it takes to pass each part in each way.

    ``dry`` is known of a boat whose closed spaces were passed by being dry.
    """
    zones = [zone for zone in kb.zones.values() if boat.has(zone)]
    for turn in range(max(len(zone.passed_by) for zone in zones)):
        found = []
        for zone in zones:
            scales = {*zone.passed_by[turn % len(zone.passed_by)], *(zone.also_open if every_check else ())}
            found.append(Finding(zone.id, zone.id, NOTHING_SEEN, readings={s: Reading.at(0, "0") for s in scales}))
        by_dryness = any("tank_water" in one.readings and "tank_seal" not in one.readings for one in found)
        yield replace(boat, facts={**boat.facts, **(dry if by_dryness else {})}), tuple(found)


def is_fit(kb: KnowledgeBase, boat: Boat, found: Sequence[Finding]) -> bool:
    mildest = dict.fromkeys((VERDICT, AFLOAT, TOW), (0, 0))
    return all({scale: one[scale] for scale in mildest} == mildest for one in ranges(kb, boat, found))


@settings(max_examples=15)
@given(data=st.data())
def test_a_boat_on_which_every_check_was_passed_is_cosmetic_and_fit_to_sail_and_tow(data: st.DataObject) -> None:
    kb = shipped()

    for boat, found in passed(kb, data.draw(boats(kb)), every_check=True):
        assert is_fit(kb, boat, found)


def test_on_an_ordinary_boat_the_checks_that_pass_a_part_are_enough(kb: KnowledgeBase) -> None:
    for boat, found in passed(kb, Boat("Wagtail", ORDINARY), every_check=False):
        assert is_fit(kb, boat, found)
        assert assess_survey(Survey(boat, found), kb).settled_and_fit


@pytest.mark.parametrize("dry", [{}, {"after_swamp_test": "no"}])
def test_a_space_that_is_dry_without_a_capsize_is_not_passed(kb: KnowledgeBase, dry: Mapping[str, str]) -> None:
    *_, (boat, found) = passed(kb, Boat("Wagtail", ORDINARY), every_check=False, dry=dry)
    fit = {one.zone: is_fit(kb, boat, [one]) for one in found}

    assert (False, False) == (fit["side_tank"], fit["end_tank"])


@pytest.mark.parametrize("zone", ["side_tank", "end_tank"])
def test_a_few_spoonfuls_after_capsizing_are_no_defect(kb: KnowledgeBase, zone: str) -> None:
    boat = Boat("Wagtail", {**ORDINARY, "after_swamp_test": "yes"})
    spoonfuls = kb.scales["tank_water"].measure
    assert spoonfuls is not None
    readings = {"tank_water": Reading.at(spoonfuls.level(0.05), "50 ml"), "seal_state": Reading.at(0, "grips evenly")}

    assert is_fit(kb, boat, [Finding("f", zone, "tank_wet", readings=readings)])
