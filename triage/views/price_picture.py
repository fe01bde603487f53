"""The price of a boat that is for sale, drawn: from a sound one to what she is worth as she lies, and what is asked."""

from __future__ import annotations

from collections.abc import Iterator

from markupsafe import Markup

from triage.buying.advice import PurchaseAdvice
from triage.drawing.price import Bar, Post, draw_price
from triage.drawing.price_text import price_rows
from triage.phrases import advert as words
from triage.phrases.money import likely, span


def price_picture(advice: PurchaseAdvice) -> Markup | None:
    """The picture; nothing where the buyer named neither what a sound boat costs nor what is asked."""
    bars = _bars_of(advice)
    return draw_price(bars, _post(advice), words.drawn(advice)) if bars else None


def price_text(advice: PurchaseAdvice) -> list[str]:
    """The same in rows of text, without the sound boat, which the lines above tell; none where there is no picture."""
    bars = [bar for bar in _bars_of(advice) if bar.says != words.SOUND] or _bars_of(advice)
    return price_rows(bars, _post(advice)) if bars else []


def _bars_of(advice: PurchaseAdvice) -> list[Bar]:
    offer = advice.offer
    return [] if offer.sound is None and offer.asking is None else list(_bars(advice))


def _post(advice: PurchaseAdvice) -> Post | None:
    asked = advice.offer.asking
    return None if asked is None else Post(words.asking(asked, advice.offer.currency), asked)


def _bars(advice: PurchaseAdvice) -> Iterator[Bar]:
    sums, currency = advice.sums, advice.offer.currency

    def bar(says: str, least: float, most: float, *, all_of_it: bool = False) -> Bar:
        return Bar(says, span(least, most, currency), least, most, all_of_it)

    if advice.offer.sound:
        yield bar(words.SOUND, advice.offer.sound.least, advice.offer.sound.most)
    if sums.lines:
        yield bar(words.TO_PAY, *likely(sums.costs))
    if sums.worth:
        yield bar(words.AS_SHE_LIES, *likely(sums.worth), all_of_it=True)
    elif sums.outlay:
        yield bar(words.ALL_IN, *likely(sums.outlay), all_of_it=True)
