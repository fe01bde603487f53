"""Sums about the glass itself."""

from __future__ import annotations

from collections.abc import Callable

from triage.mechanics import laminate, lamination, plates, rig, sampling
from triage.mechanics.catalogue.formula import Ins, Outs, named, some
from triage.mechanics.growth import SEASON
from triage.mechanics.interval import Interval, all_spanning, spanning
from triage.mechanics.units import DAY


def press(ins: Ins) -> Outs:
    """What the dip of a place and of its twin say."""
    return all_spanning({"stiffness_lost": plates.stiffness_lost, "thickness_lost": plates.thickness_lost}, **ins)


def spring(ins: Ins) -> Outs:
    """The same, of how much further a place dips than its twin."""

    def of(f: Callable[[float, float], float]) -> Interval:
        return spanning(lambda excess: f(1 + excess, 1.0), **ins)

    return {"stiffness_lost": of(plates.stiffness_lost), "thickness_lost": of(plates.thickness_lost)}


def plate(ins: Ins) -> Outs:
    """How far a flat panel dips, from held to hinged edges."""

    def with_edges(edges: tuple[float, ...], endless: float, feet: tuple[float, ...]) -> Callable[..., float]:
        def dips(long: float, short: float, thickness: float, mass: float, foot: float, modulus: float) -> float:
            alpha = plates.coefficient(max(1.0, long / short), edges, endless) * plates.spread(foot / short, feet)
            little = plates.dip(mass * rig.GRAVITY, short, thickness, modulus, alpha)
            return plates.stretched(little, thickness)

        return dips

    held = spanning(with_edges(plates.CLAMPED, plates.CLAMPED_LONG, plates.CLAMPED_FEET), **ins)
    hinged = spanning(with_edges(plates.HINGED, plates.HINGED_LONG, plates.HINGED_FEET), **ins)
    return {"dip": Interval(held.low, hinged.high)}


def layers(ins: Ins) -> Outs:
    """Thickness and resin of mat and cloth."""
    kinds = (("mat", "mat_content"), ("woven", "woven_content"))

    def of(f: Callable[[float, float], float]) -> Interval:
        parts = [spanning(f, glass=ins[glass], content=ins[content]) for glass, content in kinds]
        return Interval(sum(one.low for one in parts), sum(one.high for one in parts))

    return {"thickness": of(laminate.thickness), "resin": of(laminate.resin)}


MAT, CLOTH = (6.4e9, 0.30, 2.4615e9), (13.24e9, 0.17, 3.056e9)
"""Modulus in Pa, Poisson's ratio and shear modulus in Pa of mat at 30 % of glass and of woven cloth at 48 %."""


def stack(ins: Ins) -> Outs:
    """How stiff mat, cloth and mat are as one skin, when pulled and when bent."""

    def of(outer: float, cloth: float, inner: float, mat_content: float, woven_content: float) -> lamination.Stack:
        kinds = ((outer, mat_content, MAT), (cloth, woven_content, CLOTH), (inner, mat_content, MAT))
        plies = [
            lamination.Ply(laminate.thickness(glass, content), modulus, modulus, poisson, shear)
            for glass, content, (modulus, poisson, shear) in kinds
            if glass
        ]
        if not plies:
            raise ValueError("there is no glass in it")
        return lamination.Stack(plies)

    pure = MAT[0]
    return {
        "thickness": spanning(lambda **layers: of(**layers).thickness, **ins),
        "pulled": spanning(lambda **layers: 1 / (of(**layers).compliance(0) * pure), **ins),
        "bent": spanning(lambda **layers: (12 / (of(**layers).compliance(3) * pure)) ** (1 / 3), **ins),
    }


def sample(ins: Ins) -> Outs:
    """What a count of dull places says of all places."""

    def end(dull: float, ringing: float, which: int) -> float:
        return sampling.share(round(dull), round(dull) + round(ringing))[which]

    low, high = (spanning(lambda dull, ringing, which=which: end(dull, ringing, which), **ins) for which in (0, 1))
    return {"share": Interval(low.low, high.high)}


def growth(ins: Ins) -> Outs:
    """How much longer a mark grew between two looks, and how much that is in a season."""
    lengths = some(ins, "first", "later")
    return {
        "grown": spanning(lambda first, later: later - first, **lengths),
        "season": spanning(
            lambda first, later, time: (later - first) / time * SEASON * DAY, time=ins["time"], **lengths
        ),
    }


def pace(ins: Ins) -> Outs:
    """How long a line is a season on, at the pace that it had."""
    return {"later": spanning(lambda season, length: length + season, **ins)}


FORMULAS = named(press, spring, plate, layers, stack, sample, growth, pace)
