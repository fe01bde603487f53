"""Sums about the places where loads enter."""

from __future__ import annotations

from triage.mechanics import foils, leaks, rig
from triage.mechanics.catalogue.formula import Ins, Outs, named, some
from triage.mechanics.interval import Interval, all_spanning, exactly, spanning
from triage.mechanics.units import KNOT


def shroud(ins: Ins) -> Outs:
    """What a shroud pulls, and what a hand is of that."""
    moment = spanning(rig.righting_moment, **some(ins, "crew", "out", "hull", "hull_out"))
    pull = spanning(rig.shroud_pull, moment=moment, half_base=ins["base"], angle=ins["angle"])
    share = spanning(lambda hand, pull: hand / pull, hand=ins["hand"], pull=pull)
    return {"moment": moment, "pull": pull, "hand_share": share}


def bolts(ins: Ins) -> Outs:
    """Bearing and punching, and what of the working stresses they use."""
    force = ins["pull"].times(rig.GRAVITY)
    there = {"force": force, **some(ins, "bolts", "thickness")}
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
    area = spanning(lambda length, width: length * width, **some(ins, "length", "width"))
    force = spanning(
        foils.side_force,
        density=exactly(leaks.SEA_WATER),
        speed=ins["speed"].times(KNOT),
        area=area,
        coefficient=ins["coefficient"],
    )
    arms = {"force": force, **some(ins, "below", "apart")}
    return {"force": force, **all_spanning({"lower": foils.lower_hinge, "upper": foils.upper_hinge}, **arms)}


def slop(ins: Ins) -> Outs:
    """The angle of a swing, and how much of it the hinges make."""
    made = spanning(foils.tip_travel, tip=ins["arm"], **some(ins, "lower", "upper", "apart"))
    left = spanning(lambda swing, made: max(0.0, swing - made), swing=ins["swing"], made=made)
    angle = spanning(foils.swing, travel=ins["swing"], arm=ins["arm"])
    return {"angle": angle, "from_hinges": made, "from_elsewhere": left}


def swing(ins: Ins) -> Outs:
    """The play that a swing is, across a part of the length that holds it."""
    return {"play": spanning(foils.play, **some(ins, "angle", "held"))}


def case(ins: Ins) -> Outs:
    """The pull at root and top of a board case."""
    standing = spanning(foils.standing_on_board, **some(ins, "mass", "out", "depth"))
    sailing = spanning(
        lambda force, out, depth: force * out / depth, force=ins["sailing"], out=ins["sailing_out"], depth=ins["depth"]
    )
    return {"pull": standing, "sailing_pull": sailing}


FORMULAS = named(shroud, bolts, rudder, slop, swing, case)
