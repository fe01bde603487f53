"""Sums about photographs."""

from __future__ import annotations

from triage.mechanics import photo_scale
from triage.mechanics.catalogue.formula import Ins, Outs, named
from triage.mechanics.interval import Interval


def photo(ins: Ins) -> Outs:
    """A length in a photograph that shows a bank card. A tap is off by half of what it may be."""
    taps = [(ins[f"x{number}"].middle, ins[f"y{number}"].middle) for number in range(1, 7)]
    off = max(one.width for one in ins.values()) / 2 / photo_scale.DEVIATIONS
    found = photo_scale.length(taps[:4], taps[4:], off)
    return {"length": Interval(max(0.0, found.middle - found.error), found.middle + found.error)}


FORMULAS = named(photo)
