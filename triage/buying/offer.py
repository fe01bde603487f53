"""What a buyer brings along: his own figures, his own quotes, what is missing, and what he noticed about the sale."""

from __future__ import annotations

import datetime
from collections.abc import Mapping
from dataclasses import dataclass, field

from triage.buying.amounts import ThreePoint


@dataclass(frozen=True)
class Quote:
    """A figure that the buyer got for mending at a place. ``fixed``: it holds whatever turns up. ``accepted``: he takes
    the boat with this damage at this price.
    """

    zone: str
    side: str | None
    price: ThreePoint
    by: str = ""
    on: datetime.date | None = None
    fixed: bool = False
    accepted: bool = False


@dataclass(frozen=True)
class FromNew:
    """A sound boat's price from what a new one costs and the ``percent`` of it that used ones fetch. ``ours``: the
    buyer asked for our estimate of that, so no decision rests on it.
    """

    new: ThreePoint
    percent: ThreePoint
    ours: bool = False

    @property
    def sound(self) -> ThreePoint:
        """What the same boat costs used, complete and sound."""
        ends = ("least", "likely", "most")
        return ThreePoint(*(getattr(self.new, end) * getattr(self.percent, end) / 100 for end in ends))


@dataclass(frozen=True)
class Offer:
    """Everything that is the buyer's own. Money is in ``currency``; what he did not name is None.

    ``one_unit`` is how much of it makes one unit of our own prices. ``sound`` is what the same boat costs complete and
    sound; ``from_new`` how that was worked out, where it was. ``missing``, ``spent`` and ``extra`` are ids of gear,
    ``sale`` of signs of the sale. ``ages`` are years by gear, as they were told; ``lives`` is where she lies.
    ``only_in_photos`` are ids of marks that nobody saw but there.
    """

    currency: str
    one_unit: float
    year: int | None = None
    sound: ThreePoint | None = None
    from_new: FromNew | None = None
    asking: float | None = None
    budget: float | None = None
    until: datetime.date | None = None
    quotes: tuple[Quote, ...] = ()
    missing: tuple[str, ...] = ()
    spent: tuple[str, ...] = ()
    extra: tuple[str, ...] = ()
    gear_prices: Mapping[str, ThreePoint] = field(default_factory=dict)
    ages: Mapping[str, int] = field(default_factory=dict)
    sale: tuple[str, ...] = ()
    only_in_photos: tuple[str, ...] = ()
    lives: str = ""
    number: str = ""
    second_number: str = ""
    claimed_year: int | None = None
    boat: str = ""
    source: str = ""


NOTHING_NAMED = Offer("EUR", 1.0)
"""The offer of somebody who has named no figure; the currency stands for our own unit."""
