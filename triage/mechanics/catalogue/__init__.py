"""Which formulas each sum of the rules is made of; a module here for each file in rules/sums.

A sum takes what it asks and what is given, by the names that rules/sums has for them, and returns what it tells.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence

from triage.mechanics.catalogue import loads, photo, repair, skin, water
from triage.mechanics.catalogue.formula import Formula, Ins
from triage.mechanics.interval import Interval

FORMULAS: Mapping[str, Formula] = {
    id_: formula for room in (skin, loads, water, repair, photo) for id_, formula in room.FORMULAS.items()
}
"""By the id of the sum."""

PIECES: Mapping[str, Callable[[Ins], Sequence[Interval]]] = {"patch": repair.cut_list}
"""What a sum lists one by one."""
