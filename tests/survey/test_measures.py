"""Readings as people have them: bounds, pairs and counts, each to an interval of levels."""

from __future__ import annotations

import contextlib
import math
import re

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from tests.bounded import bounded
from tests.laws.ranges import shipped
from triage.errors import BadSurvey
from triage.knowledge.model import KnowledgeBase
from triage.survey.model import Boat, Finding, Reading, Survey
from triage.survey.read import survey_from_text
from triage.survey.readings import NotUnderstood, reading_of
from triage.survey.write import survey_text

INF = math.inf

SAID = """
slop          | 9 mm at the tip 600 mm from the pin             | 0.859372 | 0
slop          | about 9 mm at the tip, 600 mm from the pin      | 0.730482 0.988254 | 0
slop          | 2 inches at the tip 3 feet from the hinge       | 3.179830 | 2
slop          | at least 20 mm over 0.6 m                       | 1.909152 90 | 1 3
slop          | at most 2 degrees                               | 0 2 | 0 2
slop          | under 2 degrees                                 | 0 2 | 0 1
spar_true     | 14 mm over 1.7 m of mast                        | 0.823529 | 3
spar_true     | a drop of 12 mm in 1 m                          | 1.2 | 3
spar_true     | 2 or 3 mm in 2 m                                | 0.1 0.15 | 0 1
spar_true     | under 3 mm over 3 m                             | 0 0.1 | 0
spar_true     | 3 mm per metre                                  | 0.3 | 2
spar_true     | 3 mm/m                                          | 0.3 | 2
foil_true     | 5 mm over 1.2 m                                 | 0.416667 | 1
foil_true     | 7 mm on a 1.1 m board                           | 0.636364 | 2
foil_true     | no more than 1 mm in 1 m                        | 0 0.1 | 0
metal_loss    | 0.2 of 1.9 mm metal gone                        | 10.526316 | 2
metal_loss    | 3 of 12 mm                                      | 25 | 3
metal_loss    | 0.3 mm out of 3 mm                              | 10 | 2
metal_loss    | 1.7 mm left of 1.9 mm                           | 10.526316 | 2
metal_loss    | 1.7 mm where it should be 1.9 mm                | 10.526316 | 2
metal_loss    | a quarter of the section                        | 25 | 3
metal_loss    | about a tenth gone                              | 8.5 11.5 | 1 2
metal_shape   | 1 mm over 30 mm                                 | 1.909152 | 1
metal_shape   | about 3 degrees                                 | 2.55 3.45 | 2
hole_wear     | 6.6 by 6 mm                                     | 10 | 2
hole_wear     | 6 mm x 6.6 mm                                   | 10 | 2
hole_wear     | 8.5 mm instead of 8 mm                          | 6.25 | 1
panel_give    | 4 mm against 3 mm on the other side             | 33.333333 | 2
panel_give    | 5 mm here and 4 mm there                        | 25 | 2
panel_give    | 3 mm against 4 mm                               | 0 | 0
panel_give    | 2 to 3 mm against 2 mm                          | 0 50 | 0 2
panel_give    | under 10 %                                      | 0 10 | 0
panel_give    | at most 10 %                                    | 0 10 | 0 1
shape_error   | 3 mm over 300 mm                                | 3 | 1
shape_error   | 9 mm over 1 m                                   | 0.81 9 | 0 3
shape_error   | 2 mm over 150 mm                                | 2 8 | 1 2
blistering    | 25 blisters, the biggest 6 mm                   | 6 | 1 2
blistering    | 25 blisters, the biggest 2 mm                   | 2 | 0
blistering    | 25, biggest 6 mm                                | 6 | 1 2
blistering    | 60 small ones, largest is 8 mm                  | 8 | 1 3
blistering    | nine blisters up to 6 mm                        | 6 | 1
blistering    | 20 bumps in half a square metre, the largest is 4 mm | 4 | 2
blistering    | 60 blisters on a square metre, the biggest 4 mm | 4 | 3
blistering    | 50 blisters on a square metre, the biggest 4 mm | 4 | 2
blistering    | about 12 small blisters, the largest about 9 mm | 7.65 10.35 | 1 2
crack_length  | about 30 mm                                     | 25.5 34.5 | 1
crack_length  | an inch and a half                              | 38.1 | 1
crack_length  | one and a half inches                           | 38.1 | 1
crack_length  | 1-1/2 inch                                      | 38.1 | 1
crack_length  | half an inch                                    | 12.7 | 0
crack_length  | under 15 mm                                     | 0 15 | 0
crack_length  | at most 15 mm                                   | 0 15 | 0 1
crack_length  | over 150 mm                                     | 150 inf | 3
crack_length  | 10 cm or more                                   | 100 inf | 2 3
crack_length  | 15 mm or so                                     | 12.75 17.25 | 0 1
crack_length  | nearly 50 mm                                    | 42.5 50 | 1
crack_length  | between two and three inches                    | 50.8 76.2 | 2
growth        | no more than 3 mm                               | 0 3 | 1 2
growth        | at least 10 mm                                  | 10 inf | 3
tank_water    | half a litre                                    | 0.5 | 1
tank_water    | at most a litre                                 | 0 1 | 0 1
tank_water    | less than a litre                               | 0 1 | 0 1
tank_water    | two or three litres                             | 2 3 | 2
tank_water    | about 2 buckets                                 | 17 23 | 3
ingress_rate  | half a litre in 20 minutes                      | 1.5 | 1
ingress_rate  | 2 litres an hour                                | 2 | 1
ingress_rate  | about a litre every 10 minutes                  | 5.1 6.9 | 2
ingress_rate  | a bucket in half an hour                        | 20 | 2
ingress_rate  | over 20 litres per hour                         | 20 10000 | 3
boat_weight   | 8 kg on 120 kg                                  | 6.666667 | 1
boat_weight   | 128 kg against 120 kg                           | 6.666667 | 1
boat_weight   | about 8 kg on 120 kg                            | 5.666667 7.666667 | 1
tank_seal     | 80 of 127 mm                                    | 80 | 1
tank_seal     | 2 of 5 inches                                   | 50.8 | 1
tank_seal     | at least 100 mm                                 | 100 200 | 0
tank_seal     | under 51 mm                                     | 0 51 | 1 3
fitting_play  | 3 mm ± 1                                        | 2 4 | 3
fitting_play  | 0.5 +/- 0.1 mm                                  | 0.4 0.6 | 1 2
fitting_play  | 2-3 mm                                          | 2 3 | 3
fitting_play  | roughly half a millimetre                       | 0.425 0.575 | 1 2
fitting_play  | six mm                                          | 6 | 3
fastener_grip | two of six spin                                 | | 3
fastener_grip | one of six spins                                       | | 2
fastener_grip | one of four is missing                          | | 2
fastener_grip | one of three is missing                         | | 3
fastener_grip | none of six spins                               | | 0 1
fastener_grip | two of six turn for ever                        | | 3
fastener_grip | a quarter turn on four of six screws            | | 1
fastener_grip | four of six took a quarter turn                 | | 1
fastener_grip | half a turn on one of six                       | | 1 2
fastener_grip | half a turn on four screws                      | | 1 3
fastener_grip | half the screws spin                            | | 3
fastener_grip | both spin                                       | | 3
fastener_grip | all of them took a quarter turn                 | | 1
fastener_grip | a full turn on one screw                        | | 1 2
tank_water    | exactly 5 L                                     | 5 | 2
tank_water    | at most 5 L                                     | 0 5 | 0 2
tank_water    | at least 5 L                                    | 5 1000 | 2 3
tank_water    | over 5 L                                        | 5 1000 | 3
tank_water    | a litre                                         | 1 | 1
crack_length  | 2 ft 3 in                                       | 685.8 | 3
crack_length  | 5 feet 2 1/2 inches                             | 1587.5 | 3
tap_dull      | a patch 60 by 40 mm                             | 60 | 2
tap_dull      | 20 x 110 mm                                     | 110 | 3
panel_give    | half as much again                              | 50 | 2
panel_give    | about a third more                              | 28.333333 38.333333 | 2
panel_give    | twice as much as a good place                   | 100 | 3
mass_gain     | a tenth too heavy                               | 10 | 2
growth        | half an inch since spring                       | 12.7 | 3
fitting_play  | just under 1.5 mm                               | 1.275 1.5 | 2
fitting_play  | just 1.5 mm                                     | 1.5 | 2
"""
"""Scale, what was said, what it measures (one figure or two ends), its levels. Sums by plane trigonometry and
arithmetic."""

ROWS = [tuple(part.strip() for part in line.split("|")) for line in SAID.strip().splitlines()]


@pytest.mark.parametrize(("scale", "said", "measured", "levels"), ROWS, ids=[row[1] for row in ROWS])
def test_what_people_have_becomes_an_interval_of_levels(
    kb: KnowledgeBase, scale: str, said: str, measured: str, levels: str
) -> None:
    reading = reading_of(kb.scales[scale], said)

    ends = [float(end) for end in measured.split()]
    low, *high = (int(level) for level in levels.split())
    assert (low, *(high or [low])) == (reading.low, reading.high)
    assert said == reading.said
    if ends:
        assert reading.measured == pytest.approx((ends[0], ends[-1]), abs=1e-6)
    else:
        assert reading.measured is None


def test_every_example_that_people_are_shown_is_understood(kb: KnowledgeBase) -> None:
    shown = [(scale, example) for scale in kb.scales.values() for example in scale.ways.examples]

    assert len(shown) > 10
    for scale, example in shown:
        assert reading_of(scale, example).told


@pytest.mark.parametrize(("scale", "said"), [(row[0], row[1]) for row in ROWS], ids=[row[1] for row in ROWS])
def test_what_was_said_comes_back_from_a_file_as_the_same_reading(kb: KnowledgeBase, scale: str, said: str) -> None:
    reading = reading_of(kb.scales[scale], said)
    zone, sign = next(
        (zone, sign)
        for zone, signs in kb.offers.items()
        for sign in signs
        if scale in kb.applicable(zone, sign) and can_be(kb, zone, sign, scale, reading)
    )
    survey = Survey(Boat("Wagtail"), (Finding("f", zone, sign, readings={scale: reading}),))

    assert reading == survey_from_text(survey_text(survey), kb).findings[0].readings[scale]


def can_be(kb: KnowledgeBase, zone: str, sign: str, scale: str, reading: Reading) -> bool:
    survey = Survey(Boat("Wagtail"), (Finding("f", zone, sign, readings={scale: reading}),))
    try:
        survey_from_text(survey_text(survey), kb)
    except BadSurvey:
        return False
    return True


REFUSED = {
    "an arm of nothing": ("slop", "9 mm over 0 m", "must be more than nothing"),
    "a tip without an arm": ("slop", "9 mm", "not measured in deg"),
    "half of what it swings": ("slop", "9 mm each way at the tip 600 mm from the pin", "not a number with a unit"),
    "a part above the whole": ("metal_loss", "13 of 12 mm", "a part cannot be more than the whole"),
    "kilograms of metal": ("metal_loss", "2 kg of 3 kg", "not measured in mm"),
    "less than nothing": ("spar_true", "-3 mm over 1 m", "cannot be less than nothing"),
    "a length over a length": ("crack_length", "14 mm over 1.7 m", "told by one quantity, not by two"),
    "a bend without a unit": ("spar_true", "14 over 1.7 m", "not a number with a unit"),
    "another head": ("tank_seal", "40 of 100 mm", "a whole of 127, not of 100"),
    "water without a time": ("ingress_rate", "half a litre", "cannot be"),
    "blisters of no size": ("blistering", "25 blisters", "how large the biggest is"),
    "blisters on nothing": ("blistering", "25 blisters on 0 m2, the biggest 6 mm", "an area of nothing"),
    "screws that do nothing": ("fastener_grip", "two of six", "not said what they do"),
    "screws that do not": ("fastener_grip", "two of six do not spin", "not said what they do"),
    "what came on top, taken for the whole": ("boat_weight", "8 kg against 120 kg", "far too little"),
    "heavier than": ("boat_weight", "8 kg heavier than 120 kg", "cannot|not a number"),
    "none but some": ("fastener_grip", "none are missing but several spin", "not said what they do"),
    "more than there are": ("fastener_grip", "seven of six spin", "more than there are"),
    "a bare number": ("fitting_play", "about 2", "about 2 of what?"),
    "a range of bare numbers": ("fitting_play", "2 or 3", "2 or 3 of what?"),
    "a denial": ("spar_true", "not 14 mm over 1.7 m", "cannot|not a number"),
    "three quantities": ("spar_true", "14 mm over 1.7 m over 2 m", "cannot|not a number"),
    "a figure where there are none": ("wet_weep", "3 mm", "is not measured in figures"),
}


@pytest.mark.parametrize(("scale", "said", "what"), REFUSED.values(), ids=REFUSED)
def test_what_cannot_be_is_refused_with_what_can(kb: KnowledgeBase, scale: str, said: str, what: str) -> None:
    with pytest.raises(NotUnderstood) as refused:
        reading_of(kb.scales[scale], said)

    assert re.search(what, refused.value.what)
    assert refused.value.hint
    for example in kb.scales[scale].ways.examples[:1]:
        assert example in refused.value.hint


def test_at_least_so_much_is_not_longer_than_the_boat(kb: KnowledgeBase) -> None:
    survey = (
        "boat: {name: Wagtail, length: 4.2 m}\n"
        "findings: [{zone: topside, sign: hairline, readings: {crack_length: at least 100 mm}}]"
    )

    assert (2, 3) == ends(survey_from_text(survey, kb).findings[0].readings["crack_length"])


def test_at_least_more_than_the_boat_is_asked_about(kb: KnowledgeBase) -> None:
    survey = (
        "boat: {name: Wagtail, length: 4.2 m}\n"
        "findings: [{zone: topside, sign: hairline, readings: {crack_length: at least 5 m}}]"
    )

    with pytest.raises(BadSurvey, match="longer than the boat"):
        survey_from_text(survey, kb)


# Laws

PAIRED = [("spar_true", "over"), ("slop", "at"), ("shape_error", "over"), ("metal_shape", "over")]
LENGTHS = st.integers(1, 400)


def read(scale: str, said: str) -> Reading:
    return reading_of(shipped().scales[scale], said)


def ends(reading: Reading) -> tuple[int, int]:
    assert reading.low is not None
    assert reading.high is not None
    return reading.low, reading.high


def within(inner: Reading, outer: Reading) -> bool:
    (low, high), (least, most) = ends(inner), ends(outer)
    assert inner.measured is not None
    assert outer.measured is not None
    figures = outer.measured[0] <= inner.measured[0] and inner.measured[1] <= outer.measured[1]
    return figures and least <= low and high <= most


@given(st.sampled_from(PAIRED), LENGTHS, st.integers(0, 50), st.integers(0, 50))
def test_a_wider_spread_never_narrows_the_interval(pair: tuple[str, str], tenths: int, one: int, more: int) -> None:
    scale, joined = pair
    narrow, wide = (f"{tenths / 10} mm ± {spread / 10} {joined} 1.7 m" for spread in (one, one + more))

    assert within(read(scale, narrow), read(scale, wide))


@given(st.sampled_from(PAIRED), LENGTHS, st.integers(200, 3000), st.sampled_from(["", "about ", "at most ", "under "]))
def test_units_do_not_matter_to_pairs(pair: tuple[str, str], tenths: int, arm: int, bound: str) -> None:
    scale, joined = pair

    plain = read(scale, f"{bound}{tenths / 10} mm {joined} {arm} mm")
    other = read(scale, f"{bound}{tenths / 100} cm {joined} {arm / 1000} m")

    assert (plain.low, plain.high, plain.measured) == (other.low, other.high, other.measured)


@given(st.sampled_from(PAIRED), LENGTHS, LENGTHS, st.integers(200, 3000), st.integers(200, 3000))
def test_more_over_less_is_never_milder(pair: tuple[str, str], one: int, other: int, arm: int, reach: int) -> None:
    scale, joined = pair
    mild = read(scale, f"{min(one, other) / 10} mm {joined} {max(arm, reach)} mm")
    grave = read(scale, f"{max(one, other) / 10} mm {joined} {min(arm, reach)} mm")

    assert all(less <= more for less, more in zip(ends(mild), ends(grave), strict=True))


@given(st.sampled_from(["about", "at most", "at least", "no more than", "roughly", "or so"]), st.integers(1, 2000))
def test_what_is_bounded_holds_what_was_said(bound: str, tenths: int) -> None:
    said = f"{tenths / 10} mm"
    bounded = f"{said} {bound}" if bound == "or so" else f"{bound} {said}"

    assert within(read("crack_length", said), read("crack_length", bounded))


@given(st.integers(1, 12), st.integers(1, 12), st.integers(1, 12))
def test_more_that_fail_are_never_milder(one: int, other: int, of_all: int) -> None:
    assume(max(one, other) <= of_all)

    few, many = (read("fastener_grip", f"{n} of {of_all} spin") for n in sorted((one, other)))

    assert ends(few) <= ends(many)


@given(st.integers(1, 80), st.integers(1, 80), st.integers(1, 60), st.integers(1, 60))
def test_more_and_larger_blisters_are_never_milder(one: int, other: int, small: int, large: int) -> None:
    few = read("blistering", f"{min(one, other)} blisters, the biggest {min(small, large)} mm")
    many = read("blistering", f"{max(one, other)} blisters, the biggest {max(small, large)} mm")

    assert all(less <= more for less, more in zip(ends(few), ends(many), strict=True))


@given(st.text(max_size=150), st.sampled_from(["{}", "about {} mm", "{} over 1.7 m", "14 mm {} 1.7 m", "two of {}"]))
def test_no_answer_makes_it_fail_in_another_way(said: str, frame: str) -> None:
    for scale in ("spar_true", "fastener_grip", "blistering", "ingress_rate"):
        with contextlib.suppress(NotUnderstood):
            reading = read(scale, frame.format(said))
            assert not reading.told or ends(reading)[0] <= ends(reading)[1]


@pytest.mark.parametrize("part", ["1 ", "1/", "over ", "a ", "one of ", "mm ", "1 mm over ", "- ", "half "])
def test_a_long_answer_takes_no_long_time(kb: KnowledgeBase, part: str) -> None:
    for scale in ("spar_true", "fastener_grip", "blistering"):
        with contextlib.suppress(NotUnderstood), bounded():
            reading_of(kb.scales[scale], part * 2000)
        with contextlib.suppress(NotUnderstood), bounded():
            reading_of(kb.scales[scale], (part * 120)[:119])
