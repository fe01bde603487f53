"""Who of the other findings is what a rule asks for: counted once for all that stand alike, whatever their number."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass

from triage.inference.evaluate import Placed, related
from triage.inference.evaluation import Bound
from triage.knowledge.compiled.conjuncts import Quantifier


@dataclass(frozen=True)
class Asked:
    """A quantifier and its number among those of its stratum."""

    number: int
    quantifier: Quantifier


def stands(placed: Placed, quantifier: Quantifier) -> tuple[object, ...]:
    """What decides who stands to a finding as the quantifier asks: equal for all that stand alike."""
    if quantifier.where == "anywhere":
        return ()
    side = placed.sided, placed.finding.side
    return side if quantifier.where == "same side" else (*side, placed.finding.zone)


class Hits:
    """Which findings satisfy which quantifiers of a stratum, at one end of their ranges."""

    def __init__(self, placed: Sequence[Placed], satisfied: Sequence[int], bound: Bound) -> None:
        self.placed, self.satisfied, self.bound = placed, satisfied, bound
        self._standing: dict[tuple[int, tuple[object, ...]], dict[int, int]] = {}
        self._ids: dict[tuple[int, tuple[object, ...]], tuple[str, ...]] = {}

    def standing(self, asked: Asked, me: int) -> Mapping[int, int]:
        """The findings that satisfy the quantifier and stand as it asks to one that stands where this one does.

        In their order, each with its place among them.
        """
        mine = self.placed[me]
        key = asked.number, stands(mine, asked.quantifier)
        found = self._standing.get(key)
        if found is None:
            there = (
                n
                for n, satisfied in enumerate(self.satisfied)
                if satisfied >> asked.number & 1 and related(asked.quantifier, mine, self.placed[n], self.bound)
            )
            found = self._standing[key] = {n: place for place, n in enumerate(there)}
        return found

    def moved(self, asked: Asked, me: int, now: Mapping[int, int]) -> list[int]:
        """The other findings of which it is another answer ``now`` whether they are what is asked for here."""
        mine = self.placed[me]
        return [
            n
            for n, satisfied in now.items()
            if n != me
            and (satisfied ^ self.satisfied[n]) >> asked.number & 1
            and related(asked.quantifier, mine, self.placed[n], self.bound)
        ]

    def witnesses(self, asked: Asked, me: int, now: Mapping[int, int]) -> Iterable[str]:
        """The ids of the other findings that satisfy the quantifier and stand to this one as it asks, in their order.

        Among many findings a rule can have as many witnesses, and that for each of them: the list is made once.
        """
        found = self.standing(asked, me)
        if now and (moved := self.moved(asked, me, now)):
            return [self.placed[n].finding.id for n in sorted(set(found).symmetric_difference(moved)) if n != me]
        key = asked.number, stands(self.placed[me], asked.quantifier)
        if key not in self._ids:
            self._ids[key] = tuple(self.placed[n].finding.id for n in found)
        place = found.get(me)
        ids = self._ids[key]
        return ids if place is None else ids[:place] + ids[place + 1 :]

    def enough(self, asked: Asked, me: int, now: Mapping[int, int]) -> bool:
        """Whether there are as many as the quantifier asks for."""
        found = self.standing(asked, me)
        count = len(found) - (me in found)
        if now:
            count += sum(-1 if n in found else 1 for n in self.moved(asked, me, now))
        return count >= asked.quantifier.count
