"""A sum done with somebody's own measurements: read, checked, reckoned, and told in the units of the rules."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from triage.errors import BadInput, Place, Problem
from triage.knowledge.model import KnowledgeBase
from triage.knowledge.model.sums import Asked, Sum
from triage.mechanics.catalogue import FORMULAS
from triage.mechanics.interval import Interval
from triage.mechanics.units import IN_SI
from triage.parsing.amounts import amount
from triage.parsing.quantities import NotAQuantity
from triage.parsing.text import did_you_mean


@dataclass(frozen=True)
class Worked:
    """A sum with its numbers, each in the unit that the rules name for it: ``took`` by ask, ``told`` by result."""

    sum: Sum
    took: Mapping[str, Interval]
    told: Mapping[str, Interval]


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
            hint = f"Give {asked.what}, from {asked.least:g} to {asked.most:g} {asked.unit}".strip() + "."
            problems.append(Problem(Place(name), str(error) if name in said else "it is missing", hint))
    if problems:
        raise BadInput(problems)
    si = {name: took[name].times(IN_SI[asked.unit]) for name, asked in one.asks.items()}
    si |= {name: Interval(g.low, g.high).times(IN_SI[g.unit]) for name, g in one.given.items()}
    try:
        found = FORMULAS[id_](si)
    except (ValueError, ZeroDivisionError) as error:
        raise BadInput([Problem(Place(id_), f"these do not go together: {error}", "Measure again.")]) from None
    told = {name: found[name].times(1 / IN_SI[result.unit]) for name, result in one.tells.items()}
    return Worked(one, took, told)


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
