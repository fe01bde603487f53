"""Quantities as people write them, turned into a scale's own unit."""

from __future__ import annotations

import contextlib
import math
from fractions import Fraction
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from triage.knowledge.model import KnowledgeBase, Measure
from triage.parsing.quantities import NotAQuantity, UnknownUnit, in_unit, is_unit, looks_measured, unit_names


@pytest.mark.parametrize(
    ("text", "unit", "value"),
    [
        # International yard and pound agreement of 1 July 1959: a yard is exactly 0.9144 m and a pound exactly
        # 0.45359237 kg (read as quoted in the encyclopaedia article "International yard and pound", not in the
        # agreement itself). An inch is 1/36 of a yard, a foot 1/3.
        ("1 inch", "mm", 25.4),
        ("1 foot", "m", 0.3048),
        ("1 pound", "kg", 0.45359237),
        # From memory: UK Weights and Measures Act 1985, a gallon is exactly 4.54609 litres; a pint is 1/8 of it.
        ("1 gallon", "L", 4.54609),
        ("1 pint", "L", 0.56826125),
        ("8 pints", "gallon", 1.0),
    ],
)
def test_imperial_units_have_their_exact_values(text: str, unit: str, value: float) -> None:
    assert value == in_unit(text, unit)


@pytest.mark.parametrize(
    ("text", "unit", "value"),
    [
        ("9 cm", "mm", 90),
        ("4.2 m", "mm", 4200),
        ("1,5 L", "L", 1.5),
        (".5 mm", "mm", 0.5),
        ("750ml", "L", 0.75),
        ("2 L/h", "L/h", 2),
        ("2 l / min", "L/h", 120),
        ("3 litres per hour", "L/h", 3),
        ("5 %", "%", 5),
        ("5 per cent", "%", 5),
        ("12°", "deg", 12),
        ("12 degrees", "deg", 12),
        ('3"', "mm", 76.2),
        ("3 ins", "mm", 76.2),
        ("14'", "m", 4.2672),
        ("14 ft", "m", 4.2672),
        ("90 min", "h", 1.5),
        ("6 months", "year", 0.5),
        ("500 g", "kg", 0.5),
        ("2 cupfuls", "L", 0.5),
        ("1/2 bucket", "L", 5),
        ("5 MM", "mm", 5),
        ("  5   mm  ", "mm", 5),
    ],
)
def test_common_ways_to_write_a_quantity(text: str, unit: str, value: float) -> None:
    assert value == in_unit(text, unit)


STANDARD = {
    "mm": "millimetre centimetre metre inch foot",
    "litre": "litre millilitre gallon pint",
    "kg": "kilogram gram pound",
    "minute": "hour minute",
    "year": "year month",
    "litre/hour": "litre/minute millilitre/hour",
}
"""Units by the one they are measured in here. Buckets and cups are nobody's standard."""


@pytest.fixture(scope="module")
def pint_units() -> Any:
    import pint

    return pint.UnitRegistry()


@pytest.mark.parametrize(
    ("unit", "base"),
    [(unit, base) for base, units in STANDARD.items() for unit in units.split()],
)
def test_a_standard_unit_is_what_pint_says_it_is(pint_units: Any, unit: str, base: str) -> None:
    imperial = f"imperial_{unit}" if unit in ("gallon", "pint") else unit

    assert in_unit(f"1 {unit}", base) == pytest.approx(pint_units.Quantity(1, imperial).m_as(base), abs=1e-9)


@pytest.mark.parametrize(
    ("text", "inches"),
    [
        ("1/2 inch", Fraction(1, 2)),
        ("1 1/2 inch", Fraction(3, 2)),
        ("½ inch", Fraction(1, 2)),
        ("1½ inch", Fraction(3, 2)),
        ("2¾ in", Fraction(11, 4)),
        ("13/16 inch", Fraction(13, 16)),
        ("11/2 inch", Fraction(11, 2)),
        ("1⁄4 inch", Fraction(1, 4)),
    ],
)
def test_fractions_are_what_they_say_and_never_two_numbers(text: str, inches: Fraction) -> None:
    assert round(float(inches * Fraction("25.4")), 9) == in_unit(text, "mm")


@given(st.integers(1, 999), st.integers(1, 999))
def test_every_fraction_of_an_inch_is_its_quotient(above: int, below: int) -> None:
    exact = float(Fraction(above, below) * Fraction("25.4"))

    assert exact == pytest.approx(in_unit(f"{above}/{below} inch", "mm"), abs=1e-8)


@given(st.integers(0, 99_999), st.integers(0, 999))
def test_point_and_comma_say_the_same(whole: int, thousandths: int) -> None:
    cents = thousandths // 10

    assert in_unit(f"{whole}.{cents:02} L", "L") == in_unit(f"{whole},{cents:02} L", "L")


@given(st.integers(0, 10_000_000))
def test_the_same_length_in_another_unit_is_the_same_number(micrometres: int) -> None:
    millimetres = in_unit(f"{micrometres / 1000:.3f} mm", "mm")

    assert millimetres == in_unit(f"{micrometres / 10_000:.4f} cm", "mm")
    assert millimetres == in_unit(f"{micrometres / 1_000_000:.6f} m", "mm")


def test_a_negative_quantity_is_read_and_left_to_others_to_doubt() -> None:
    assert -5 == in_unit("-5 mm", "mm") == in_unit("−5 mm", "mm") == in_unit("- 5 mm", "mm")


@pytest.mark.parametrize("text", ["1,000 mm", "12,500 mm", "1,125 inch"])
def test_a_comma_that_may_mean_thousands_is_asked_about(text: str) -> None:
    with pytest.raises(NotAQuantity, match="may be thousands or a fraction: write it without the comma"):
        in_unit(text, "mm")


NO_QUANTITY = """
mm | 5 | 1.5 | five mm | 1e5 mm | 5 mm 3 | 5 mm mm | 1/0 inch | 0/0 in | 1.2.3 mm | 1.234,5 mm | 1/2/3 inch | 2 1 inch
--5 mm | 5 mm/ | inf mm | nan mm | 1234567890 mm | 5 m²
"""


@pytest.mark.parametrize("text", ["", *NO_QUANTITY.strip().replace("\n", " | ").split(" | ")])
def test_what_is_no_quantity_is_refused(text: str) -> None:
    with pytest.raises(NotAQuantity, match="is not a number with a unit"):
        in_unit(text, "mm")


@pytest.mark.parametrize(
    ("text", "unit"), [("9 lightyears", "lightyears"), ("3 knots", "knots"), ("5 l/fortnight", "fortnight")]
)
def test_a_unit_nobody_measures_with_here_is_named(text: str, unit: str) -> None:
    with pytest.raises(UnknownUnit) as raised:
        in_unit(text, "mm")

    assert unit == raised.value.unit


@pytest.mark.parametrize(
    ("text", "unit"), [("1 L", "mm"), ("5 mm", "L"), ("2 L", "L/h"), ("3 kg", "L"), ("5 %", "deg")]
)
def test_litres_are_not_millimetres(text: str, unit: str) -> None:
    with pytest.raises(NotAQuantity, match=f"is not measured in {unit}"):
        in_unit(text, unit)


@given(st.text(), st.sampled_from(["{}", "5 {}", "{} mm"]))
def test_no_text_makes_it_fail_in_another_way(text: str, frame: str) -> None:
    with contextlib.suppress(NotAQuantity):
        assert math.isfinite(in_unit(frame.format(text), "mm"))


def test_every_name_of_a_unit_is_understood_in_any_case() -> None:
    assert len(unit_names()) > 60
    for name in unit_names():
        assert 1 == in_unit(f"1 {name}", name)
        assert is_unit(name)
        assert is_unit(name.upper())


@pytest.mark.parametrize("unit", ["mm", "%", "deg", "L/h", "°"])
def test_a_unit_of_a_scale_is_known(unit: str) -> None:
    assert is_unit(unit)


@pytest.mark.parametrize("unit", ["", "furlong", "mm/", "L/fortnight"])
def test_another_unit_is_not(unit: str) -> None:
    assert not is_unit(unit)


@pytest.mark.parametrize("text", ["5", "5 mm", "-5 mm", "−5", "½ inch", ".5 mm", "1,5 L", " 3"])
def test_what_starts_like_a_number_is_meant_as_a_measurement(text: str) -> None:
    assert looks_measured(text)


@pytest.mark.parametrize("text", ["", "still", "a little soft", "through 2 strata", "-", "?", "mm 5"])
def test_what_starts_with_a_word_is_meant_as_a_level(text: str) -> None:
    assert not looks_measured(text)


RISING = Measure("mm", (10.0, 25.0, None), most=100.0)
FALLING = Measure("%", (80.0, 50.0), smaller_is_worse=True)
ANY = Measure("L", (0.0, 1.0))
OVER = Measure("L", (1.0, 5.0), over=frozenset({5.0}))


@pytest.mark.parametrize(
    ("measure", "text", "level"),
    [
        (RISING, "0 mm", 0),
        (RISING, "9.999 mm", 0),
        (RISING, "10 mm", 1),
        (RISING, "1 cm", 1),
        (RISING, "24.99 mm", 1),
        (RISING, "25 mm", 2),
        (RISING, "2.5 cm", 2),
        (RISING, "0.984251969 inch", 2),
        (RISING, "99 m", 2),
        (FALLING, "80 %", 0),
        (FALLING, "79.99 %", 1),
        (FALLING, "50 %", 1),
        (FALLING, "49.99 %", 2),
        (ANY, "0 L", 0),
        (ANY, "1 ml", 1),
        (ANY, "999 ml", 1),
        (ANY, "1000 ml", 2),
        (OVER, "1 L", 1),
        (OVER, "5 L", 1),
        (OVER, "5.001 L", 2),
    ],
)
def test_a_value_at_a_limit_takes_the_worse_level_unless_that_begins_over_it(
    measure: Measure, text: str, level: int
) -> None:
    assert level == measure.level(in_unit(text, measure.unit))


def test_every_measured_scale_of_the_shipped_rules_turns_at_its_limits(kb: KnowledgeBase) -> None:
    turned = 0
    for scale in kb.scales.values():
        measure = scale.measure
        for level, limit in enumerate(measure.limits if measure else (), start=1):
            if measure is None or limit is None or limit in (0, float("inf"), float("-inf")):
                continue
            turned += 1
            above = measure.smaller_is_worse or limit in measure.over
            below = limit if above else limit * 0.999999
            at = limit * (0.999999 if measure.smaller_is_worse else 1.000001) if above else limit
            assert (level - 1, level) == (max(0, measure.level(below)), measure.level(at)), scale.id
    assert turned > 10


@given(st.floats(0, 1000), st.floats(0, 1000))
def test_a_worse_value_is_never_a_milder_level(one: float, other: float) -> None:
    small, large = sorted((one, other))

    assert RISING.level(small) <= RISING.level(large)
    assert ANY.level(small) <= ANY.level(large)
    assert FALLING.level(large) <= FALLING.level(small)
