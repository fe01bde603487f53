"""Which formulas each sum of the rules is made of; a module here for each file in rules/sums.

A sum takes what it asks and what is given, by the names that rules/sums has for them, and returns what it tells.
"""

from __future__ import annotations

from collections.abc import Mapping

from triage.mechanics.catalogue import loads, repair, skin, water
from triage.mechanics.catalogue.formula import Formula

FORMULAS: Mapping[str, Formula] = {**skin.FORMULAS, **loads.FORMULAS, **water.FORMULAS, **repair.FORMULAS}
"""By the id of the sum."""
