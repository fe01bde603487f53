"""The price of a boat that is for sale, drawn: from a sound one to what she is worth as she lies, and what is asked."""

from __future__ import annotations

from collections.abc import Iterator

from markupsafe import Markup

from triage.buying.advice import PurchaseAdvice
from triage.drawing.price import Bar, Post, draw_price
from triage.phrases import advert as words


def price_picture(advice: PurchaseAdvice) -> Markup | None:
    """The picture; nothing where the buyer named neither what a sound boat costs nor what is asked."""
    bars, offer = list(_bars(advice)), advice.offer
    if not bars or (offer.sound is None and offer.asking is None):
        return None
    asked = offer.asking
    post = None if asked is None else Post(words.asking(asked, offer.currency), asked)
    return draw_price(bars, post, words.drawn(advice))


def _bars(advice: PurchaseAdvice) -> Iterator[Bar]:
    sums, currency = advice.sums, advice.offer.currency

    def bar(says: str, least: float, most: float, *, all_of_it: bool = False) -> Bar:
        return Bar(says, words.span(least, most, currency), least, most, all_of_it)

    if advice.offer.sound:
        yield bar(words.SOUND, advice.offer.sound.least, advice.offer.sound.most)
    if sums.lines:
        yield bar(words.TO_PAY, *words.likely(sums.costs))
    if sums.worth:
        yield bar(words.AS_SHE_LIES, *words.likely(sums.worth), all_of_it=True)
    elif sums.outlay:
        yield bar(words.ALL_IN, *words.likely(sums.outlay), all_of_it=True)
