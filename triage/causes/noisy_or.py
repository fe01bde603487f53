"""Noisy-OR networks, worked out exactly: how likely is each cause, given what was found and what was not?

A mark is absent only if every cause that is present fails to leave it, and so does whatever is not in the network
(the leak), each by itself (Pearl 1988, p. 184; the leak as in Henrion 1989):

    P(absent | causes) = (1 − leak) · Π (1 − strength) over the causes that are present

What was looked for and not found is therefore a product and weighs on each cause alone. What was found ties the causes
that leave it together in a table of 2ⁿ entries, all positive, so that nothing cancels. Causes are summed out one after
the other in an order that is the same for every survey, and no table grows beyond ``Network.width`` causes whatever was
found: the work is bounded by the knowledge and not by the boat.
"""

from __future__ import annotations

import math
from collections.abc import Collection, Hashable, Iterable, Mapping, Sequence
from dataclasses import dataclass, field
from functools import cached_property
from typing import Generic, TypeVar

from triage.knowledge.compiled.orders import Elimination, elimination_of

E = TypeVar("E", bound=Hashable)
"""What names an effect."""


@dataclass(frozen=True)
class Effect:
    """Something that causes bring about: how often each does (fractions), and how often it is there without any."""

    strengths: Mapping[str, float]
    leak: float = 0.0

    def absent(self, present: Collection[str]) -> float:
        """The chance that it is absent when exactly these causes are present."""
        failing = (1 - strength for cause, strength in self.strengths.items() if cause in present)
        return (1 - self.leak) * math.prod(failing)


@dataclass(frozen=True, eq=False)
class Network(Generic[E]):
    """Causes with their priors (fractions), and the effects that can be looked for."""

    priors: Mapping[str, float]
    effects: Mapping[E, Effect]
    known: Elimination | None = None

    @cached_property
    def elimination(self) -> Elimination:
        """The order in which causes are summed out, as ``known`` or else worked out here."""
        return self.known or elimination_of(self.priors, [effect.strengths for effect in self.effects.values()])

    @property
    def width(self) -> int:
        """The most causes that ever stand together in one table."""
        return self.elimination.width


@dataclass(frozen=True)
class _Table:
    """A number for every combination of some causes; bit ``n`` of an index says whether ``scope[n]`` is present."""

    scope: tuple[str, ...]
    numbers: Sequence[float]


@dataclass(frozen=True, eq=False)
class Posterior(Generic[E]):
    """The network in the light of evidence.

    ``found`` and ``missing`` are effects that were looked for. ``ratios`` are likelihood ratios of further evidence
    on single causes: how much more often it is met when the cause is present than when it is not. ``otherwise`` is
    the chance that something outside the network, which is known to be there, brought an effect about.
    """

    network: Network[E]
    found: Collection[E] = ()
    missing: Collection[E] = ()
    ratios: Mapping[str, float] = field(default_factory=dict)
    otherwise: Mapping[E, float] = field(default_factory=dict)

    def of(self, cause: str) -> float:
        """The chance that the cause is present."""
        return self._share([_Table((cause,), (0.0, 1.0))])

    def responsibility(self, cause: str) -> float:
        """The chance that the cause is present and brought about something of what was found."""
        absent, present = self.alone[cause]
        idle = math.prod(1 - self.network.effects[key].strengths.get(cause, 0.0) for key in self.found)
        here = self.of(cause)
        none_of_it = (1 - here) * idle * present / absent  # present, yet every link to what was found failed
        return max(0.0, here - none_of_it)

    def of_effect(self, effect: Effect) -> float:
        """The chance of an effect that nobody has looked for yet, whether the network has it or not."""
        failing = [_Table((cause,), (1.0, 1 - strength)) for cause, strength in effect.strengths.items()]
        return 1 - (1 - effect.leak) * self._share(failing)

    @cached_property
    def alone(self) -> Mapping[str, tuple[float, float]]:
        """For each cause the weight of its absence and of its presence, from all evidence that weighs on it alone."""
        missing = [self.network.effects[key] for key in self.missing]
        found = {}
        for cause, prior in self.network.priors.items():
            failed = math.prod(1 - effect.strengths.get(cause, 0.0) for effect in missing)
            found[cause] = (1 - prior, prior * failed * self.ratios.get(cause, 1.0))
        return found

    @cached_property
    def _ties(self) -> Mapping[str, frozenset[str]]:
        """For each cause all that something found ties it to, itself among them."""
        ties = {cause: frozenset((cause,)) for cause in self.network.priors}
        for key in self.found:
            joined = frozenset().union(*(ties[cause] for cause in self.network.effects[key].strengths))
            ties.update(dict.fromkeys(joined, joined))
        return ties

    @cached_property
    def _tied(self) -> list[_Table]:
        found = []
        for key in self.found:
            effect = self.network.effects[key]
            leak = 1 - (1 - effect.leak) * (1 - self.otherwise.get(key, 0.0))
            found.append(_table(Effect(effect.strengths, leak)))
        return found

    @cached_property
    def _sums(self) -> dict[frozenset[str], tuple[list[_Table], float]]:
        """What was summed already: for causes that are tied together, their tables and the sum of their product."""
        return {}

    def _share(self, further: Sequence[_Table]) -> float:
        """By how much further tables reduce the sum over every combination of causes.

        Only causes that are tied to those of the tables count; the rest of the network cancels out.
        """
        near = frozenset().union(*(self._ties[cause] for table in further for cause in table.scope))
        if near not in self._sums:
            alone = [_Table((cause,), self.alone[cause]) for cause in self.network.priors if cause in near]
            tables = alone + [table for table in self._tied if not near.isdisjoint(table.scope)]
            self._sums[near] = tables, self._sum(tables)
        tables, whole = self._sums[near]
        return self._sum([*tables, *further]) / whole

    def _sum(self, tables: Iterable[_Table]) -> float:
        """The sum over every combination of their causes of the product of the tables."""
        left = list(tables)
        for cause in self.network.elimination.order:
            touching = [table for table in left if cause in table.scope]
            if touching:
                left = [table for table in left if cause not in table.scope]
                left.append(_without(cause, touching))
        return math.prod(table.numbers[0] for table in left)


def _table(effect: Effect) -> _Table:
    """The chance of the effect for every combination of its causes."""
    scope = tuple(effect.strengths)
    numbers = []
    for index in range(1 << len(scope)):
        present = {cause for bit, cause in enumerate(scope) if index >> bit & 1}
        numbers.append(1 - effect.absent(present))
    return _Table(scope, numbers)


def _without(cause: str, tables: Sequence[_Table]) -> _Table:
    """The product of the tables, summed over the absence and the presence of the cause."""
    scope = tuple(dict.fromkeys(other for table in tables for other in table.scope if other != cause))
    spread = [[table.numbers[at] for at in _spread(table.scope, (cause, *scope))] for table in tables]
    products = [math.prod(numbers) for numbers in zip(*spread, strict=True)]
    return _Table(scope, [absent + present for absent, present in zip(products[::2], products[1::2], strict=True)])


def _spread(scope: tuple[str, ...], wider: tuple[str, ...]) -> list[int]:
    """For every index into a table over ``wider``, the index into one over ``scope``."""
    found = [0]
    for cause in wider:
        step = 1 << scope.index(cause) if cause in scope else 0
        found += [index + step for index in found]
    return found
