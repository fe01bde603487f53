"""What the lines of a price make: what she is worth, what she costs all in, and what mending takes of the price."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from triage.buying.amounts import Line, Spread, ThreePoint, total
from triage.buying.offer import Offer
from triage.buying.places import BuyersView
from triage.buying.price_lines import OWN, QUOTED, PriceLine, Unpriced, build_up
from triage.buying.renewed import paid_once


@dataclass(frozen=True)
class Sums:
    """What the lines make. Worth and outlay are None where the buyer did not name what they start from.

    ``worth``: the same boat complete and sound less all lines; ``outlay``: the asking price with all that is to pay.
    ``unused_quotes`` are the places of quotes that meet no damage. ``share`` is what known mending, without what was
    accepted, takes of the asking price, in percent; ``quoted_share`` the same by the buyer's own quotes alone.
    ``beyond`` and ``own_beyond``: by how much the least that is to pay for certain, asking price and all, exceeds the
    budget, by every figure and by the buyer's own alone; what was accepted at a price is left out.
    """

    lines: tuple[PriceLine, ...]
    unpriced: tuple[Unpriced, ...]
    unused_quotes: tuple[str, ...]
    costs: Spread
    worth: Spread | None
    outlay: Spread | None
    share: float | None
    quoted_share: float | None
    worth_less: float | None
    over_budget: float | None
    beyond: float | None
    own_beyond: float | None


def price_of(view: BuyersView, offer: Offer) -> Sums:
    """The whole build-up."""
    built = build_up(view, offer)
    lines = paid_once(built.lines, view.kb.purchase.gear)
    to_pay = [line for one in lines if one.kind != "extra" for line in one.lines()]
    worth = outlay = None
    if offer.sound is not None:
        worth = total([Line(offer.sound), *(line.turned() for one in lines for line in one.lines())])
    if offer.asking is not None:
        outlay = total([Line(ThreePoint.single(offer.asking)), *to_pay])
    damage = [line for line in lines if line.kind in ("mending", "risk") or line.takes_in]
    known = [line for line in damage if not line.accepted]

    def of_asking(paid: Iterable[PriceLine]) -> float | None:
        return 100 * sum(map(_known, paid)) / offer.asking if offer.asking else None

    def beyond(paid: Iterable[PriceLine]) -> float | None:
        if offer.asking is None or offer.budget is None:
            return None
        return offer.asking + sum(map(_least, paid)) - offer.budget

    to_come = [line for line in lines if line.kind != "extra" and not line.accepted]
    return Sums(
        lines=lines,
        unpriced=built.unpriced,
        unused_quotes=built.unused_quotes,
        costs=total(to_pay),
        worth=worth,
        outlay=outlay,
        share=of_asking(known),
        quoted_share=of_asking(line for line in known if line.rests_on.startswith(QUOTED)),
        worth_less=100 * (1 - worth.exceeds(offer.asking)) if worth and offer.asking is not None else None,
        over_budget=100 * outlay.exceeds(offer.budget) if outlay and offer.budget is not None else None,
        beyond=beyond(to_come),
        own_beyond=beyond(line for line in to_come if line.rests_on.startswith((QUOTED, OWN))),
    )


def _least(line: PriceLine) -> float:
    """The least that is to pay for certain, without what is added for the unseen."""
    if line.chance >= 1:
        return line.amount.least / (1 + line.margin)
    return line.otherwise.least if line.otherwise else 0.0


def _known(line: PriceLine) -> float:
    """What is to pay for certain."""
    if line.chance >= 1:
        return line.amount.mean
    return line.otherwise.mean if line.otherwise else 0.0
