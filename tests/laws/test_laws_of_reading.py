"""The laws of what a survey says: other words, other units and more of the same. Each test's name is the law."""

from __future__ import annotations

import json

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from tests.laws.ranges import shipped
from tests.strategies import boats_with_findings
from triage.errors import BadSurvey
from triage.inference.evaluate import evaluate
from triage.knowledge.model import OUTCOMES, KnowledgeBase, Measure, Scale
from triage.survey.model import Boat, Finding, Survey
from triage.survey.read import survey_from_text

OTHER_UNITS: dict[str, dict[str, float]] = {
    "mm": {"millimetres": 1, "cm": 10, "m": 1000},
    "L": {"litres": 1, "ml": 0.001, "l": 1},
    "L/h": {"litres/hour": 1, "ml/h": 0.001, "L/min": 60},
    "deg": {"degrees": 1, "°": 1},
    "%": {"percent": 1},
}
"""How many of the scale's own unit one of these is."""

Outcome = list[tuple[tuple[int, int], ...]]


def measured_scales(kb: KnowledgeBase) -> list[tuple[Scale, Measure]]:
    return [(scale, scale.measure) for scale in kb.scales.values() if scale.measure is not None]


def read(kb: KnowledgeBase, *findings: dict[str, object], **boat: object) -> Survey:
    return survey_from_text(json.dumps({"boat": {"name": "Wagtail", **boat}, "findings": findings}), kb)


def outcome(kb: KnowledgeBase, survey: Survey) -> Outcome:
    return [tuple(map(judged.interval, OUTCOMES)) for judged in evaluate(kb, survey.boat, survey.findings)]


def outcome_of(kb: KnowledgeBase, zone: str, sign: str, scale: str, said: str) -> Outcome | None:
    """What a single reading makes of a mark; None when the reader asks back."""
    try:
        return outcome(kb, read(kb, {"zone": zone, "sign": sign, "readings": {scale: said}}))
    except BadSurvey:
        return None


@settings(max_examples=30)
@given(data=st.data())
def test_units_change_nothing(data: st.DataObject) -> None:
    kb = shipped()
    scale, measure = data.draw(st.sampled_from(measured_scales(kb)))
    other, factor = data.draw(st.sampled_from(list(OTHER_UNITS[measure.unit].items())))
    met = [(z, s) for z, offered in kb.offers.items() for s in offered if scale.id in kb.applicable(z, s)]
    zone, sign = data.draw(st.sampled_from(met))
    value = data.draw(st.integers(0, 12_000)) / 10

    in_its_own = outcome_of(kb, zone, sign, scale.id, f"{value:.6f} {measure.unit}")
    in_another = outcome_of(kb, zone, sign, scale.id, f"{value / factor:.6f} {other}")

    assert in_its_own == in_another


def test_every_unit_of_the_shipped_scales_has_others(kb: KnowledgeBase) -> None:
    assert {measure.unit for _, measure in measured_scales(kb)} == set(OTHER_UNITS)


@settings(max_examples=30)
@given(data=st.data())
def test_more_of_what_is_measured_is_never_a_milder_level(data: st.DataObject) -> None:
    _, measure = data.draw(st.sampled_from(measured_scales(shipped())))
    less, more = sorted(data.draw(st.tuples(st.floats(0, 2000), st.floats(0, 2000))))

    better, worse = (more, less) if measure.smaller_is_worse else (less, more)

    assert measure.level(worse) >= measure.level(better)


@settings(max_examples=25)
@given(litres=st.integers(1, 60), minutes=st.integers(1, 600), sooner=st.integers(1, 600))
def test_the_same_water_in_less_time_is_never_milder(litres: int, minutes: int, sooner: int) -> None:
    kb = shipped()
    assume(sooner < minutes)

    slow = outcome_of(kb, "pivot", "open_leak", "ingress_rate", f"{litres / minutes:.9f} L/min")
    fast = outcome_of(kb, "pivot", "open_leak", "ingress_rate", f"{litres / sooner:.9f} L/min")

    assert slow is not None
    assert fast is not None
    for (milder,), (graver,) in zip(zip(*slow, strict=True), zip(*fast, strict=True), strict=True):
        assert graver[0] >= milder[0]
        assert graver[1] >= milder[1]


@settings(max_examples=25)
@given(data=st.data())
def test_other_words_for_the_same_change_nothing(data: st.DataObject) -> None:
    kb = shipped()
    boat, found = data.draw(boats_with_findings(kb, most=3))

    told = read(kb, *(in_other_words(kb, one, data) for one in found), facts=dict(boat.facts))

    plain = Survey(Boat("Wagtail", boat.facts), found).in_walk_order(kb)
    assert judged(kb, plain) == judged(kb, told)


def judged(kb: KnowledgeBase, survey: Survey) -> list[tuple[object, ...]]:
    """What each mark answers and comes to; two alike at one place stand in the order of what was said of them."""
    each = zip(survey.findings, outcome(kb, survey), strict=True)
    return sorted((sorted(one.answered), comes_to) for one, comes_to in each)


def in_other_words(kb: KnowledgeBase, finding: Finding, data: st.DataObject) -> dict[str, object]:
    """The finding as a person might write it: names or ids, levels by name or number, in any case."""
    zone, sign = kb.zones[finding.zone], kb.signs[finding.sign]
    readings: dict[str, object] = {}
    for scale_id, reading in finding.readings.items():
        scale = kb.scales[scale_id]
        key = data.draw(st.sampled_from([scale.id, scale.name, scale.name.upper()]))
        low, high = reading.low, reading.high
        if low is None or high is None:
            readings[key] = reading.said
        elif low == high:
            readings[key] = data.draw(st.sampled_from([low, str(low), scale.levels[low].name]))
        else:
            first, last = (data.draw(st.sampled_from([str(n), scale.levels[n].name])) for n in (low, high))
            readings[key] = f"{first} to {last}"
    said: dict[str, object] = {
        "zone": data.draw(st.sampled_from([zone.id, zone.name, zone.name.lower(), *zone.trade.split(",")])),
        "sign": data.draw(st.sampled_from([sign.id, sign.name, sign.id.replace("_", " ")])),
        "readings": readings,
    }
    return said | ({"side": finding.side} if finding.side else {})


CANNOT_BE: dict[str, dict[str, object]] = {
    "a leak that lets nothing in": {"zone": "pivot", "sign": "open_leak", "readings": {"ingress_rate": "0 L/h"}},
    "a length below nothing": {"zone": "topside", "sign": "hairline", "readings": {"crack_length": "-3 cm"}},
    "a crack longer than the boat": {"zone": "topside", "sign": "hairline", "readings": {"crack_length": "5 m"}},
    "a scuff through the fibre": {"zone": "topside", "sign": "scuff", "readings": {"depth": 3}},
    "a gouge with no depth": {"zone": "topside", "sign": "gouge_fibre", "readings": {"depth": 0}},
    "a dent in litres": {"zone": "topside", "sign": "dent", "readings": {"shape_error": "2 L"}},
    "forty of nothing": {"zone": "topside", "sign": "hairline", "readings": {"crack_length": "40"}},
    "water in a crack": {"zone": "topside", "sign": "hairline", "readings": {"tank_water": 2}},
    "a wire in the side of the hull": {"zone": "topside", "sign": "wire_fray"},
    "a part nobody knows": {"zone": "bow thruster", "sign": "hairline"},
    "a mark nobody knows": {"zone": "topside", "sign": "gremlins"},
    "a mast step to port": {"zone": "mast_step", "sign": "play", "side": "port"},
}


@pytest.mark.parametrize("finding", CANNOT_BE.values(), ids=CANNOT_BE)
def test_what_cannot_be_is_asked_about_and_never_judged(kb: KnowledgeBase, finding: dict[str, object]) -> None:
    with pytest.raises(BadSurvey) as refused:
        read(kb, finding, length="4.2 m")

    (problem,) = refused.value.problems
    assert problem.what
    assert problem.hint
