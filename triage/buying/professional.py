"""When it pays to have somebody look who knows the trade: what it is worth to know of each risk before deciding."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import count

from triage.buying.amounts import Line, Spread, ThreePoint, total
from triage.buying.offer import Offer
from triage.buying.price import Sums
from triage.knowledge.model import KnowledgeBase


@dataclass(frozen=True)
class Professional:
    """What a professional's look is worth, with everything that goes into it; he says what is there and what it costs.

    ``to_leave`` is what it brings where she can only be bought at this price or left; ``off_the_price`` where what he
    finds comes off what is asked, too. ``price`` is what is paid: what is asked, or what she is worth on average where
    that is less. ``risks`` things may be hidden, one at least with this ``chance``, and ``loss`` is what that costs on
    average; ``finds`` is the part of such damage that is found, for a ``fee``.
    """

    to_leave: float
    off_the_price: float
    price: float
    risks: int
    chance: float
    loss: float
    finds: float
    fee: tuple[float, float]

    @property
    def pays(self) -> bool:
        """Whether it is worth more than it costs at its dearest, with nothing off the price."""
        return self.to_leave > self.fee[1]


def professional_for(kb: KnowledgeBase, offer: Offer, sums: Sums) -> Professional | None:
    """What it is worth to have somebody look; None where nothing is hidden, or where a price was not named."""
    if offer.asking is None or offer.sound is None:
        return None
    groups = _by_cause(line for one in sums.lines for line in one.lines() if 0 < line.chance < 1)
    if not groups:
        return None
    worth = offer.sound.mean - sum(line.mean for line in sums.lines)
    price = max(0.0, min(offer.asking, worth))
    anyhow = worth + sum(map(_expected, groups))
    figures = kb.purchase.figures
    finds = figures["adviser_finds"].values[0]
    least, most = (fee * offer.one_unit for fee in figures["adviser_fee"].values)
    before = max(0.0, worth - price)
    told = [line for group in groups for line in (*_found(group, finds), _unfound(group, finds))]
    to_leave = max(0.0, _gain(anyhow - price, told).excess(0) - before)
    cleared = _gain(anyhow - offer.asking, [_unfound(group, finds) for group in groups])
    chance = 1.0 - _none_comes(groups)
    return Professional(
        to_leave=to_leave,
        off_the_price=max(to_leave, cleared.excess(0) - before),
        price=price,
        risks=sum(map(len, groups)),
        chance=chance,
        loss=sum(map(_expected, groups)) / chance,
        finds=finds,
        fee=(least, most),
    )


def _by_cause(risks: Iterable[Line]) -> list[Sequence[Line]]:
    """The risks by what decides them, each as what it adds to what is to pay anyhow; what has no cause is by itself."""
    groups: dict[str, list[Line]] = {}
    for number, line in zip(count(), risks):
        cause = line.cause or f"risk {number}"
        anyhow = line.otherwise.mean if line.otherwise else 0.0
        added = replace(line, amount=line.amount.shifted(-anyhow), otherwise=None, cause=cause)
        groups.setdefault(cause, []).append(added)
    return list(groups.values())


def _expected(group: Sequence[Line]) -> float:
    return sum(line.mean for line in group)


def _comes(group: Sequence[Line]) -> float:
    """The chance that something of it comes: lines of one cause are decided by one throw."""
    return max(line.chance for line in group)


def _found(group: Sequence[Line], finds: float) -> Iterator[Line]:
    """What is found of a group: all that came of its cause, or nothing."""
    for line in group:
        yield replace(line, chance=finds * line.chance)


def _unfound(group: Sequence[Line], finds: float) -> Line:
    """What is still to be expected where nothing was found (Bayes)."""
    seen = finds * _comes(group)
    left = (1 - finds) * _expected(group) / (1 - seen)
    return Line(ThreePoint.single(0.0), seen, ThreePoint.single(left), group[0].cause)


def _gain(anyhow: float, to_pay: Iterable[Line]) -> Spread:
    """What buying her brings, by what is known after the look."""
    return total([Line(ThreePoint.single(anyhow)), *(line.turned() for line in to_pay)])


def _none_comes(groups: Iterable[Sequence[Line]]) -> float:
    apart = 1.0
    for group in groups:
        apart *= 1 - _comes(group)
    return apart
