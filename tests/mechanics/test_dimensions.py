"""Dimensions: no formula cares in which units the world is measured."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from functools import cache
from math import prod
from types import ModuleType
from typing import Any

import pytest

from triage.mechanics import floating, foils, laminate, leaks, mixing, plates, repair, rig

Unit = str
STRETCH = {"[length]": 3.0, "[mass]": 5.0, "[time]": 0.7}
"""How many of the other world's units a metre, a kilogram and a second are."""

Law = tuple[Callable[..., float], Mapping[str, tuple[float, Unit]], Unit, list[tuple[ModuleType, str, Unit]]]

G, SEA = "m/s**2", "kg/m**3"
LAWS: list[Law] = [
    (
        plates.dip,
        {
            "force": (50, "N"),
            "short": (0.3, "m"),
            "thickness": (0.003, "m"),
            "modulus": (7e9, "Pa"),
            "alpha": (0.1, ""),
        },
        "m",
        [],
    ),
    (plates.stretched, {"dip": (0.006, "m"), "thickness": (0.003, "m")}, "m", []),
    (plates.stiffness_lost, {"dip": (0.006, "m"), "twin": (0.003, "m")}, "", []),
    (plates.thickness_lost, {"dip": (0.006, "m"), "twin": (0.003, "m")}, "", []),
    (
        laminate.thickness,
        {"glass": (1.0, "kg/m**2"), "content": (0.3, "")},
        "m",
        [(laminate, "GLASS_DENSITY", SEA), (laminate, "RESIN_DENSITY", SEA)],
    ),
    (
        rig.righting_moment,
        {"crew": (150, "kg"), "out": (0.9, "m"), "hull": (80, "kg"), "hull_out": (0.3, "m")},
        "N*m",
        [(rig, "GRAVITY", G)],
    ),
    (rig.shroud_pull, {"moment": (1300, "N*m"), "half_base": (0.7, "m"), "angle": (0.2, "")}, "N", []),
    (
        rig.bearing,
        {"force": (2000, "N"), "bolts": (2, ""), "diameter": (0.006, "m"), "thickness": (0.004, "m")},
        "Pa",
        [],
    ),
    (
        rig.punching,
        {"force": (2000, "N"), "bolts": (2, ""), "washer": (0.02, "m"), "thickness": (0.004, "m")},
        "Pa",
        [],
    ),
    (
        foils.side_force,
        {"density": (1025, SEA), "speed": (4, "m/s"), "area": (0.12, "m**2"), "coefficient": (1.2, "")},
        "N",
        [],
    ),
    (foils.lower_hinge, {"force": (1000, "N"), "below": (0.4, "m"), "apart": (0.3, "m")}, "N", []),
    (foils.upper_hinge, {"force": (1000, "N"), "below": (0.4, "m"), "apart": (0.3, "m")}, "N", []),
    (foils.tip_travel, {"lower": (4e-4, "m"), "upper": (3e-4, "m"), "apart": (0.3, "m"), "tip": (0.6, "m")}, "m", []),
    (foils.swing, {"travel": (0.02, "m"), "arm": (0.6, "m")}, "", []),
    (foils.play, {"angle": (0.03, ""), "held": (0.1, "m")}, "m", []),
    (
        foils.standing_on_board,
        {"mass": (80, "kg"), "out": (0.5, "m"), "depth": (0.3, "m")},
        "N",
        [(foils, "GRAVITY", G)],
    ),
    (leaks.through_hole, {"area": (7e-6, "m**2"), "depth": (0.1, "m")}, "m**3/s", [(leaks, "GRAVITY", G)]),
    (
        leaks.through_crack,
        {"length": (0.1, "m"), "gap": (1e-4, "m"), "wall": (0.004, "m"), "depth": (0.1, "m")},
        "m**3/s",
        [(leaks, "GRAVITY", G), (leaks, "SEA_WATER", SEA), (leaks, "VISCOSITY", "Pa*s")],
    ),
    (leaks.air_lost, {"volume": (0.1, "m**3"), "drop": (700, "Pa")}, "m**3", [(leaks, "ATMOSPHERE", "Pa")]),
    (floating.lift, {"volume": (0.3, "m**3"), "water": (0.02, "m**3")}, "kg", [(floating, "SEA_WATER", SEA)]),
    (floating.lean, {"water": (15, "kg"), "out": (0.6, "m"), "afloat": (275, "kg"), "height": (0.5, "m")}, "", []),
    (
        floating.sunk_weight,
        {"skin": (80, "kg"), "fittings": (30, "kg")},
        "kg",
        [(floating, name, SEA) for name in ("SEA_WATER", "SKIN_DENSITY", "FITTINGS_DENSITY")],
    ),
    (repair.taper, {"thickness": (0.003, "m"), "ratio": (12, "")}, "m", []),
    (repair.patch, {"hole": (0.05, "m"), "length": (0.04, "m")}, "m", []),
    (
        mixing.coat,
        {"area": (0.1, "m**2"), "thickness": (5e-4, "m"), "density": (1200, SEA), "waste": (0.3, "")},
        "kg",
        [],
    ),
]


@cache
def registry() -> Any:
    """What knows of units; reading them takes a second."""
    import pint

    return pint.UnitRegistry()


def stretch(unit: Unit) -> float:
    """How many times as large the number of a quantity is in the other world."""
    dimensions = registry()(unit or "dimensionless").dimensionality
    return float(prod(STRETCH[dimension] ** float(power) for dimension, power in dimensions.items()))


@pytest.mark.parametrize("law", LAWS, ids=lambda law: law[0].__name__)
def test_no_formula_cares_in_which_units_the_world_is_measured(law: Law, monkeypatch: pytest.MonkeyPatch) -> None:
    """Dimensions by pint: with every number and constant in another unit, the result is in that unit too."""
    formula, takes, gives, constants = law
    here = formula(**{name: value for name, (value, _) in takes.items()})
    for module, name, unit in constants:
        monkeypatch.setattr(module, name, getattr(module, name) * stretch(unit))

    there = formula(**{name: value * stretch(unit) for name, (value, unit) in takes.items()})

    assert here * stretch(gives) == pytest.approx(there)


def test_a_formula_in_the_wrong_unit_is_noticed() -> None:
    """A dip whose load is a mass, in kilograms: the error that the sum's own g is there for."""
    takes = {
        "force": (50, "kg"),
        "short": (0.3, "m"),
        "thickness": (0.003, "m"),
        "modulus": (7e9, "Pa"),
        "alpha": (0.1, ""),
    }
    there = plates.dip(**{name: value * stretch(unit) for name, (value, unit) in takes.items()})

    assert plates.dip(**{name: value for name, (value, _) in takes.items()}) * stretch("m") != pytest.approx(there)
