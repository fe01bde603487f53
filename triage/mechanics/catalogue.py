"""Which formulas each sum of the rules is made of: from intervals in SI units to intervals in SI units.

A sum takes what it asks and what is given, by the names that rules/sums has for them, and returns what it tells.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from math import pi

from triage.mechanics import foils, laminate, leaks, plates, repair, rig
from triage.mechanics.growth import SEASON
from triage.mechanics.interval import Interval, all_spanning, exactly, spanning
from triage.mechanics.units import DAY, KNOT, MM_OF_WATER

Ins = Mapping[str, Interval]
Outs = Mapping[str, Interval]


def _some(ins: Ins, *names: str) -> dict[str, Interval]:
    return {name: ins[name] for name in names}


def press(ins: Ins) -> Outs:
    """What the dip of a place and of its twin say."""
    return all_spanning({"stiffness_lost": plates.stiffness_lost, "thickness_lost": plates.thickness_lost}, **ins)


def plate(ins: Ins) -> Outs:
    """How far a flat panel dips, from held to hinged edges."""

    def with_edges(edges: tuple[float, ...], endless: float) -> Callable[..., float]:
        def dips(long: float, short: float, thickness: float, mass: float, modulus: float) -> float:
            alpha = plates.coefficient(max(1.0, long / short), edges, endless)
            little = plates.dip(mass * rig.GRAVITY, short, thickness, modulus, alpha)
            return plates.stretched(little, thickness)

        return dips

    held = spanning(with_edges(plates.CLAMPED, plates.CLAMPED_LONG), **ins)
    hinged = spanning(with_edges(plates.HINGED, plates.HINGED_LONG), **ins)
    return {"dip": Interval(held.low, hinged.high)}


def layers(ins: Ins) -> Outs:
    """Thickness and resin of mat and cloth."""
    kinds = (("mat", "mat_content"), ("woven", "woven_content"))

    def of(f: Callable[[float, float], float]) -> Interval:
        parts = [spanning(f, glass=ins[glass], content=ins[content]) for glass, content in kinds]
        return Interval(sum(one.low for one in parts), sum(one.high for one in parts))

    return {"thickness": of(laminate.thickness), "resin": of(laminate.resin)}


def shroud(ins: Ins) -> Outs:
    """What a shroud pulls, and what a hand is of that."""
    moment = spanning(rig.righting_moment, **_some(ins, "crew", "out", "hull", "hull_out"))
    pull = spanning(rig.shroud_pull, moment=moment, half_base=ins["base"], angle=ins["angle"])
    share = spanning(lambda hand, pull: hand / pull, hand=ins["hand"], pull=pull)
    return {"moment": moment, "pull": pull, "hand_share": share}


def bolts(ins: Ins) -> Outs:
    """Bearing and punching, and what of the working stresses they use."""
    force = ins["pull"].times(rig.GRAVITY)
    there = {"force": force, **_some(ins, "bolts", "thickness")}
    bearing = spanning(rig.bearing, diameter=ins["diameter"], **there)
    punching = spanning(rig.punching, washer=ins["washer"], **there)

    def used(stress: Interval, working: Interval) -> Interval:
        return spanning(lambda stress, working: stress / working, stress=stress, working=working)

    return {
        "bearing": bearing,
        "bearing_used": used(bearing, ins["working_bearing"]),
        "punching": punching,
        "punching_used": used(punching, ins["working_shear"]),
    }


def rudder(ins: Ins) -> Outs:
    """Side force, and what each hinge bears of it."""
    area = spanning(lambda length, width: length * width, **_some(ins, "length", "width"))
    force = spanning(
        foils.side_force,
        density=exactly(leaks.SEA_WATER),
        speed=ins["speed"].times(KNOT),
        area=area,
        coefficient=ins["coefficient"],
    )
    arms = {"force": force, **_some(ins, "below", "apart")}
    return {"force": force, **all_spanning({"lower": foils.lower_hinge, "upper": foils.upper_hinge}, **arms)}


def slop(ins: Ins) -> Outs:
    """The angle of a swing, and how much of it the hinges make."""
    made = spanning(foils.tip_travel, tip=ins["arm"], **_some(ins, "lower", "upper", "apart"))
    left = spanning(lambda swing, made: max(0.0, swing - made), swing=ins["swing"], made=made)
    angle = spanning(foils.swing, travel=ins["swing"], arm=ins["arm"])
    return {"angle": angle, "from_hinges": made, "from_elsewhere": left}


def case(ins: Ins) -> Outs:
    """The pull at root and top of a board case."""
    standing = spanning(foils.standing_on_board, **_some(ins, "mass", "out", "depth"))
    sailing = spanning(
        lambda force, out, depth: force * out / depth, force=ins["sailing"], out=ins["sailing_out"], depth=ins["depth"]
    )
    return {"pull": standing, "sailing_pull": sailing}


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

    lost = spanning(air, **_some(ins, "volume", "start", "end"))
    return {"air": lost, "water": spanning(water, air=lost, **_some(ins, "time", "air_over_water"))}


QUARTER_HOUR = 900.0
"""Seconds."""

MAT = 0.45
"""kg/m² of the mat that a patch is reckoned in."""


def patch(ins: Ins) -> Outs:
    """Sizes and masses of a tapered patch."""

    def masses(hole: float, thickness: float, ratio: float, ply: float) -> float:
        number = repair.layers(thickness, ply)
        return repair.glass_mass(repair.ply_diameters(hole, repair.taper(thickness, ratio), number), MAT)

    taper = spanning(repair.taper, **_some(ins, "thickness", "ratio"))
    glass = spanning(masses, **_some(ins, "hole", "thickness", "ratio", "ply"))
    return {
        "taper": taper,
        "patch": spanning(repair.patch, hole=ins["hole"], length=taper),
        "layers": spanning(
            lambda thickness, ply: float(repair.layers(thickness, ply)), **_some(ins, "thickness", "ply")
        ),
        "glass": glass,
        "resin": spanning(repair.resin_mass, glass=glass, content=ins["content"], waste=ins["waste"]),
        "room": spanning(lambda edge, taper: edge - taper, edge=ins["edge"], taper=taper),
    }


def growth(ins: Ins) -> Outs:
    """How much longer a mark grew between two looks, and how much that is in a season."""
    lengths = _some(ins, "first", "later")
    return {
        "grown": spanning(lambda first, later: later - first, **lengths),
        "season": spanning(
            lambda first, later, time: (later - first) / time * SEASON * DAY, time=ins["time"], **lengths
        ),
    }


FORMULAS: Mapping[str, Callable[[Ins], Outs]] = {
    f.__name__: f
    for f in (press, plate, layers, shroud, bolts, rudder, slop, case, hole, crack, air_test, patch, growth)
}
"""By the id of the sum."""
