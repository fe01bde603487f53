"""What a sum of the rules is made of: a function from what is asked and given to what is told, by their names."""

from __future__ import annotations

from collections.abc import Callable, Mapping

from triage.mechanics.interval import Interval


class Refused(ValueError):
    """A sum that is not done although its numbers go together: why, and what to do."""

    def __init__(self, why: str, hint: str) -> None:
        super().__init__(why)
        self.hint = hint


Ins = Mapping[str, Interval]
Outs = Mapping[str, Interval]
Formula = Callable[[Ins], Outs]
"""From intervals in SI units to intervals in SI units."""


def some(ins: Ins, *names: str) -> dict[str, Interval]:
    """Those of what went in."""
    return {name: ins[name] for name in names}


def named(*formulas: Formula) -> dict[str, Formula]:
    """Formulas by the id of their sum, which is the name of the function."""
    return {formula.__name__: formula for formula in formulas}
