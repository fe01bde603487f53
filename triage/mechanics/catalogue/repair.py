"""Sums about a repair."""

from __future__ import annotations

from collections.abc import Sequence
from math import pi

from triage.mechanics import mixing, repair
from triage.mechanics.catalogue.formula import Ins, Outs, Refused, named, some
from triage.mechanics.interval import Interval, exactly, spanning

MAT = 0.45
"""kg/m² of the mat that a patch is reckoned in."""


def patch(ins: Ins) -> Outs:
    """Sizes and masses of a tapered patch."""

    def masses(hole: float, thickness: float, ratio: float, ply: float) -> float:
        number = repair.layers(thickness, ply)
        return repair.glass_mass(repair.ply_diameters(hole, repair.taper(thickness, ratio), number), MAT)

    taper = spanning(repair.taper, **some(ins, "thickness", "ratio"))
    if taper.low > ins["edge"].high:
        raise Refused(
            f"even the shortest taper, {taper.low * 1000:.0f} mm, runs into the edge",
            "Have a repairer shape this one: no round patch can be planned here.",
        )
    glass = spanning(masses, **some(ins, "hole", "thickness", "ratio", "ply"))
    return {
        "taper": taper,
        "patch": spanning(repair.patch, hole=ins["hole"], length=taper),
        "layers": spanning(
            lambda thickness, ply: float(repair.layers(thickness, ply)), **some(ins, "thickness", "ply")
        ),
        "glass": glass,
        "resin": spanning(repair.resin_mass, glass=glass, content=ins["content"], waste=ins["waste"]),
        "room": spanning(lambda edge, taper: edge - taper, edge=ins["edge"], taper=taper),
    }


def cut_list(ins: Ins) -> Sequence[Interval]:
    """Across each layer, the smallest first, from the shortest taper to the gentlest."""
    number = repair.layers(ins["thickness"].middle, ins["ply"].middle)
    tapers = spanning(repair.taper, thickness=exactly(ins["thickness"].middle), ratio=ins["ratio"])
    ends = [repair.ply_diameters(ins["hole"].middle, length, number) for length in (tapers.low, tapers.high)]
    return [Interval(low, high) for low, high in zip(*ends, strict=True)]


def mix(ins: Ins) -> Outs:
    """Hardener for an amount of resin, and how many pots it is mixed in."""
    shares = [mixing.hardener(resin, warm) for resin in _ends(ins["resin"]) for warm in _ends(ins["temperature"])]
    return {
        "hardener": Interval(min(low for low, _ in shares), max(high for _, high in shares)),
        "pots": spanning(lambda resin: float(mixing.pots(resin)), resin=ins["resin"]),
    }


def cure(ins: Ins) -> Outs:
    """How long it is kept warm, dry and out of use. Warmth above what the hours are for takes none of them away."""

    def lasts(hours: Interval) -> Interval:
        return spanning(mixing.cure, hours=hours, **some(ins, "temperature", "slower"))

    return {"hold": lasts(ins["hours"]), "load": lasts(ins["full"])}


def _ends(one: Interval) -> tuple[float, float]:
    return one.low, one.high


def coat(ins: Ins) -> Outs:
    """Coat for a round patch, or for what is ground over."""

    def mass(across: float, thickness: float, density: float, waste: float) -> float:
        return mixing.coat(pi * across**2 / 4, thickness, density, waste)

    return {"mass": spanning(mass, **ins)}


FORMULAS = named(patch, mix, cure, coat)
