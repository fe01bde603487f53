"""Whatever a report says was found, somebody said it."""

from __future__ import annotations

import json
from collections.abc import Iterator
from dataclasses import replace
from typing import Any

from hypothesis import given
from hypothesis import strategies as st

from tests.strategies import boats_with_findings
from triage.concluding.assess import assess_survey
from triage.knowledge.model import KnowledgeBase
from triage.survey.model import Finding, Reading, Survey
from triage.views.report import render


def texts(plain: Any) -> Iterator[str]:
    """Every text in plain values, and the parts of one that tells of two ends.

    Left out is what somebody may yet find: outcomes, turns and what would change a verdict are told after "if", as
    nobody's finding.
    """
    match plain:
        case str():
            yield from (plain, *plain.split(", or "))
        case dict():
            for key, value in plain.items():
                if key not in ("outcomes", "turns", "would_change"):
                    yield from texts(value)
        case list():
            for value in plain:
                yield from texts(value)


@st.composite
def said_in_words(draw: st.DrawFn, kb: KnowledgeBase, finding: Finding) -> Finding:
    """The finding with some of its readings said as observations."""
    readings = dict(finding.readings)
    for scale, reading in finding.readings.items():
        if reading.low is not None and reading.low == reading.high:
            ways = [Reading.at(reading.low, said) for said, _ in kb.scales[scale].choices(reading.low)]
            readings[scale] = draw(st.sampled_from([reading, *ways]))
    return replace(finding, readings=readings)


@given(data=st.data())
def test_no_report_tells_an_observation_that_nobody_made(kb: KnowledgeBase, data: st.DataObject) -> None:
    """Of levels with several observations; the only one of a level says no more than its name."""
    boat, found = data.draw(boats_with_findings(kb, most=3))
    findings = tuple(data.draw(said_in_words(kb, one)) for one in found)
    said = {reading.said for one in findings for reading in one.readings.values()}
    several = {
        one.say
        for scale in kb.scales.values()
        for level in scale.levels
        if len(level.observations) > 1
        for one in level.observations
    }

    report = json.loads(render(assess_survey(Survey(boat, findings), kb), "json"))

    assert set() == (several - said) & set(texts(report))
    for finding in report["findings"]:
        for reading in finding["readings"]:
            if reading["said"] in several:
                assert reading["said"] == reading["phrase"]


def test_every_level_of_every_scale_is_quoted_by_what_was_said_of_it(kb: KnowledgeBase) -> None:
    for scale in (one for one in kb.scales.values() if one.observed):
        for number, level in enumerate(scale.levels):
            bundle = [one.say for one in level.observations]
            assert all(one not in scale.named(number) for one in bundle)
            assert len(bundle) == 1 or scale.words(number) == scale.named(number)
