"""Rudder and board: the pull at hinges and case, and where slop comes from. SI units, angles in radians. Statics."""

from __future__ import annotations

from math import atan, tan

from triage.mechanics.rig import GRAVITY


def side_force(density: float, speed: float, area: float, coefficient: float) -> float:
    """N on a blade hard over: ½ ρ V² A C."""
    return 0.5 * density * speed**2 * area * coefficient


def lower_hinge(force: float, below: float, apart: float) -> float:
    """N at the lower hinge, the force acting ``below`` it (m) and the hinges being ``apart`` (m)."""
    return force * (1 + below / apart)


def upper_hinge(force: float, below: float, apart: float) -> float:
    """N at the upper hinge, against the lower one."""
    return force * below / apart


def tip_travel(lower: float, upper: float, apart: float, tip: float) -> float:
    """The swing of a tip that is ``tip`` (m) below the lower hinge, for play (m) in the lower and the upper one."""
    return lower + (lower + upper) * tip / apart


def swing(travel: float, arm: float) -> float:
    """The angle of a travel (m) at the end of an arm (m)."""
    return atan(travel / arm)


def play(angle: float, held: float) -> float:
    """The play (m) across ``held`` (m) of the length that holds a part, of which it swings by an angle."""
    return held * tan(angle)


def standing_on_board(mass: float, out: float, depth: float) -> float:
    """N at the root of the case and at its top, of somebody ``out`` (m) from the hull on the board."""
    return GRAVITY * mass * out / depth
