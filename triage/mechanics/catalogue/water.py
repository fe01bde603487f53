"""Sums about water that comes in, air that goes out, and what both take away."""

from __future__ import annotations

from math import pi

from triage.mechanics import floating, leaks
from triage.mechanics.catalogue.formula import Ins, Outs, named, some
from triage.mechanics.interval import spanning
from triage.mechanics.units import MM_OF_WATER

QUARTER_HOUR = 900.0
"""Seconds."""


def hole(ins: Ins) -> Outs:
    """Water through a round hole."""
    return {
        "flow": spanning(lambda diameter, depth: leaks.through_hole(pi * diameter**2 / 4, depth), **ins),
    }


def crack(ins: Ins) -> Outs:
    """Water through a crack."""
    return {"flow": spanning(leaks.through_crack, **ins)}


def air_test(ins: Ins) -> Outs:
    """The air that left in a test, and the water that would come in."""

    def air(volume: float, start: float, end: float) -> float:
        return leaks.air_lost(volume, max(0.0, start - end) * 1000 * MM_OF_WATER)

    def water(air: float, time: float, air_over_water: float) -> float:
        return air / time * QUARTER_HOUR / air_over_water

    lost = spanning(air, **some(ins, "volume", "start", "end"))
    return {"air": lost, "water": spanning(water, air=lost, **some(ins, "time", "air_over_water"))}


def seal(ins: Ins) -> Outs:
    """Water that a space takes in, by what is left of the head of its air test."""

    def water(head: float, left: float, volume: float, time: float, air_over_water: float) -> float:
        lost = leaks.air_lost(volume, max(0.0, head - left) * 1000 * MM_OF_WATER)
        return lost / time * QUARTER_HOUR / air_over_water

    return {"water": spanning(water, **ins)}


def bailing(ins: Ins) -> Outs:
    """How often there is a bucket to bail."""
    return {
        "bucket": spanning(lambda rate, bucket: bucket / rate, **some(ins, "rate", "bucket")),
        "outing": spanning(lambda rate, hours: rate * hours, **some(ins, "rate", "hours")),
    }


def tube(ins: Ins) -> Outs:
    """Water that a filled tube of this width lost, by how far it sank."""
    return {"flow": spanning(lambda sinks, across, time: pi * across**2 / 4 * sinks / time, **ins)}


def reserve(ins: Ins) -> Outs:
    """What the closed spaces still bear, against what she weighs under water and a crew that holds on to her."""
    borne = spanning(floating.lift, **some(ins, "volume", "water"))
    sunk = spanning(floating.sunk_weight, **some(ins, "skin", "fittings"))
    ratio = spanning(
        lambda borne, sunk, crew, held: borne / (sunk + crew * held),
        borne=borne,
        sunk=sunk,
        **some(ins, "crew", "held"),
    )
    return {"lift": borne, "sunk": sunk, "ratio": ratio}


def wet_tank(ins: Ins) -> Outs:
    """How far she leans with water in a space on one side."""
    mass = ins["water"].times(leaks.SEA_WATER)
    afloat = spanning(lambda hull, crew, mass: hull + crew + mass, mass=mass, **some(ins, "hull", "crew"))
    return {"lean": spanning(floating.lean, water=mass, afloat=afloat, **some(ins, "out", "height"))}


def soaked(ins: Ins) -> Outs:
    """How much heavier she is than she was built."""

    def excess(total: float, supports: float, fittings: float, dry: float) -> float:
        return total - supports - fittings - dry

    return {"excess": spanning(excess, **ins)}


def drying(ins: Ins) -> Outs:
    """What she loses in a week of drying."""
    return {"loss": spanning(floating.drying, **ins)}


FORMULAS = named(hole, crack, air_test, seal, bailing, tube, reserve, wet_tank, soaked, drying)
