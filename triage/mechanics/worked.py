"""A sum done with somebody's own measurements: read, checked, reckoned, and told in the units of the rules."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from triage.errors import BadInput, Place, Problem
from triage.knowledge.model import KnowledgeBase
from triage.knowledge.model.sums import Asked, Sum
from triage.mechanics.catalogue import FORMULAS, PIECES
from triage.mechanics.catalogue.formula import Refused
from triage.mechanics.interval import Interval, exactly
from triage.mechanics.units import IN_SI
from triage.parsing.amounts import amount
from triage.parsing.quantities import NotAQuantity
from triage.parsing.text import did_you_mean


@dataclass(frozen=True)
class Worked:
    """A sum with its numbers, each in the unit that the rules name for it: ``took`` by ask, ``told`` by result.

    ``pieces`` are what it lists one by one, the smallest first.
    """

    sum: Sum
    took: Mapping[str, Interval]
    told: Mapping[str, Interval]
    pieces: Sequence[Interval] = ()


def work(kb: KnowledgeBase, id_: str, said: Mapping[str, str]) -> Worked:
    """The sum ``id_`` of what was ``said``, by name. Raises BadInput with everything that cannot be used."""
    if id_ not in kb.sums:
        raise BadInput([Problem(Place("the sum"), f'there is no sum "{id_}"', did_you_mean(id_, kb.sums))])
    one = kb.sums[id_]
    problems = [
        Problem(Place(name), f'the sum asks for no "{name}"', did_you_mean(name, one.asks))
        for name in said
        if name not in one.asks
    ]
    took: dict[str, Interval] = {}
    for name, asked in one.asks.items():
        try:
            took[name] = _read(said.get(name, ""), asked)
        except NotAQuantity as error:
            within = f"Give {asked.what}, from {asked.least:g} to {asked.most:g} {asked.unit}".strip() + "."
            hint = f"{within} {asked.outside}".strip()
            problems.append(Problem(Place(name), str(error) if name in said else "it is missing", hint))
    if problems:
        raise BadInput(problems)
    try:
        return reckoned(one, took)
    except Refused as error:
        raise BadInput([Problem(Place(id_), str(error), error.hint)]) from None
    except (ValueError, ZeroDivisionError) as error:
        raise BadInput([Problem(Place(id_), f"these do not go together: {error}", "Measure again.")]) from None


def reckoned(one: Sum, took: Mapping[str, Interval]) -> Worked:
    """A sum of what was measured, in the units of the rules. ValueError where the numbers do not go together."""
    si = {name: took[name].times(IN_SI[asked.unit]) for name, asked in one.asks.items()}
    si |= {name: Interval(g.low, g.high).times(IN_SI[g.unit]) for name, g in one.given.items()}
    found = FORMULAS[one.id](si)
    told = {name: found[name].times(1 / IN_SI[result.unit]) for name, result in one.tells.items()}
    pieces = [piece.times(1 / IN_SI[one.pieces.unit]) for piece in PIECES[one.id](si)] if one.pieces else []
    return Worked(one, took, told, tuple(pieces))


CURVE = 48
"""Steps from one end of a curve to the other."""


def curve(done: Worked) -> Sequence[tuple[float, Interval]]:
    """The result that the sum's plot shows, against what it is plotted against, around what was measured.

    From nothing, or a quarter of what was measured, to four times as much, within what can be; everything else as it
    was measured. Empty where the sum has no plot.
    """
    plot = done.sum.plot
    if plot is None:
        return ()
    asked, here = done.sum.asks[plot.against], done.took[plot.against]
    low, high = max(asked.least, here.low / 4), min(asked.most, here.high * 4)
    steps = (low + (high - low) * step / CURVE for step in range(CURVE + 1))
    points = []
    for at in sorted({*steps, here.low, here.high}):
        try:
            points.append((at, reckoned(done.sum, {**done.took, plot.against: exactly(at)}).told[plot.shows]))
        except (ValueError, ZeroDivisionError):
            continue
    return points


def _read(said: str, asked: Asked) -> Interval:
    """What was measured, with what a reading is usually off where no range was said."""
    found = amount(said, asked.unit) if asked.unit else _plain(said)
    low, high = found.low, found.high
    if low == high:
        low, high = max(asked.least, low - asked.error), min(asked.most, high + asked.error)
    if not asked.least <= found.low <= found.high <= asked.most:
        raise NotAQuantity(f'"{said}" cannot be')
    return Interval(low, high)


def _plain(said: str) -> Interval:
    ends = said.replace(",", ".").split(" to ")
    try:
        return Interval(float(ends[0]), float(ends[-1]))
    except ValueError:
        raise NotAQuantity(f'"{said}" is no number') from None
