"""What is said of a price: its lines, what they come to, and whether somebody who knows the trade is worth paying."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence

from triage.buying.advice import PurchaseAdvice
from triage.buying.offer import Offer
from triage.buying.price_lines import PriceLine
from triage.buying.professional import Professional
from triage.phrases.money import amount, exactly, money, span, spread
from triage.phrases.words import basis_words, capital, counted, listed

SOUND_LINE, A_NEW_ONE = "The same boat, complete and sound", "A new one like her"
OF_NEW, OWN_FIGURE, OUR_ESTIMATE = "Of that, used ones fetch", "your figure", "our estimate"
NO_FIGURE = "No figure: get a quote"
TRY_FIRST = "Trying it yourself comes first, and costs nothing."
KINDS = {
    "mending": "",
    "risk": "",
    "not tried": "",
    "missing": "missing",
    "spent": "spent",
    "extra": "comes with her",
}
NAMES = {"sound": "what a sound boat like her costs", "asking": "the asking price", "budget": "your budget"}
LINES_TOLD = 3
"""Lines of the price on the screen; the others are told together."""


def out_of_100(percent: float) -> str:
    """A chance as people say it; never certain."""
    if percent < 3:
        return "hardly likely"
    if percent > 97:
        return "nearly certain"
    return f"some {round(percent / 5) * 5 or 5} of 100"


def start(offer: Offer) -> Iterator[tuple[str, str, str]]:
    """What the build-up of the price starts from: what each line is, what it comes to, and what it rests on."""
    if one := offer.from_new:
        yield A_NEW_ONE, amount(one.new, offer.currency), OWN_FIGURE
        yield OF_NEW, f"{one.percent.least:g} to {one.percent.most:g} %", OUR_ESTIMATE if one.ours else OWN_FIGURE
    if offer.sound:
        yield SOUND_LINE, amount(offer.sound, offer.currency), "" if offer.from_new else OWN_FIGURE


def _by_what(offer: Offer) -> str:
    """Whose figure for a sound boat what she is worth rests on."""
    if offer.from_new is None:
        return "by your figure for a sound boat"
    if offer.from_new.ours:
        return "by your figure for a new one and our estimate for used ones, on which the decision does not rest"
    return "by your figures for a new one and for used ones"


def unused(advice: PurchaseAdvice) -> str:
    """Quotes that meet no damage; empty where all were used."""
    places = advice.sums.unused_quotes
    return f"Not used: your quote for {listed(places)}, where no damage was found." if places else ""


def line_name(line: PriceLine) -> str:
    """What a line is for."""
    if line.kind == "not tried":
        return f"Hidden at {counted(line.counted, 'place')} not tried"
    return capital(line.name)


def line_detail(line: PriceLine, currency: str) -> str:
    """How likely a line is, what was added and where it comes from."""
    parts = [KINDS[line.kind]]
    if line.chance < 1:
        parts.append(f"chance {line.chance * 100:.0f} in 100{' each' if line.counted > 1 else ''}")
        if line.otherwise:
            parts.append(f"else {amount(line.otherwise, currency)}")
    parts.append(line.rests_on.partition(" from ")[0])
    if line.margin:
        parts.append(f"+{line.margin * 100:.0f}% unseen")
    if line.accepted:
        parts.append("accepted")
    if line.takes_in:
        parts.append(f"which mends {listed(line.takes_in)}")
    return ", ".join(part for part in parts if part)


def line_basis(line: PriceLine) -> str:
    """What a line for gear rests on, and what to mind about it; empty where its figure is the buyer's own."""
    told = [f"{capital(basis_words(line.basis))}." if line.basis else "", line.note]
    return " ".join(one for one in told if one)


def by_weight(lines: Sequence[PriceLine]) -> list[PriceLine]:
    """The lines that weigh most first."""
    return sorted(lines, key=lambda line: -abs(line.mean))


def sum_up(advice: PurchaseAdvice) -> Iterator[str]:
    """What the lines come to, a sentence each."""
    sums, offer = advice.sums, advice.offer
    currency = offer.currency
    if sums.worth:
        told = f"Worth about {spread(sums.worth, currency)} {_by_what(offer)}."
        if sums.worth_less is not None and offer.asking is not None:
            told += (
                f" Asked: {exactly(offer.asking, currency)}; that she is worth less is {out_of_100(sums.worth_less)}."
            )
        yield told
    elif sums.lines:
        yield f"What is to pay comes to {spread(sums.costs, currency)}."
    if sums.outlay:
        told = f"At the asking price she costs {spread(sums.outlay, currency)} all in."
        if sums.over_budget is not None and offer.budget is not None:
            over = out_of_100(sums.over_budget)
            certain = beyond(advice)
            told += certain or f" That this is more than your budget of {exactly(offer.budget, currency)} is {over}."
        yield told
    if advice.unnamed:
        yield f"Not judged, because you did not name it: {listed([NAMES[one] for one in advice.unnamed])}."


def beyond(advice: PurchaseAdvice) -> str:
    """By how much the budget is exceeded for certain; empty where it is not."""
    sums, budget, currency = advice.sums, advice.offer.budget, advice.offer.currency
    if budget is not None and sums.own_beyond is not None and sums.own_beyond > 0:
        whose, too_much = "By your own figures alone", sums.own_beyond
    elif budget is not None and sums.beyond is not None and sums.beyond > 0:
        whose, too_much = "At the least, by our rough figures,", sums.beyond
    else:
        return ""
    more, most = exactly(math.ceil(too_much), currency), exactly(budget, currency)
    return f" {whose} it is {more} more than your budget of {most}."


def in_what(advice: PurchaseAdvice) -> str:
    """What the money is in, and of which years the figures are."""
    figures = [f"ours of {advice.prices_of}" if advice.prices_of else "ours"]
    if len(advice.unnamed) < len(NAMES):
        figures.insert(0, f"your figures of {advice.offer.year}" if advice.offer.year else "your figures")
    return f"{advice.offer.currency}; {', '.join(figures)}: get quotes"


def professional(one: Professional, advice: PurchaseAdvice) -> str:
    """Whether somebody who knows the trade is worth paying, with all that goes into it."""
    currency = advice.offer.currency
    yourself = f" {TRY_FIRST}" if advice.untried else ""
    hidden = f"one at least of {one.risks} things hidden" if one.risks > 1 else "something hidden"
    worth = f"about {money(one.to_leave, currency)}"
    if (more := f"about {money(one.off_the_price, currency)}") != worth:
        worth += f" where you can only leave her, and {more} where what is found comes off the price"
    return (
        f"{_pays(one)}: a look costs {span(*one.fee, currency)}; knowing is worth {worth}. It rests on: "
        f"{hidden} {out_of_100(one.chance * 100)}, then some {money(one.loss, currency)} more to pay; a professional "
        f"finds {one.finds * 10:g} of 10; you pay {money(one.price, currency)}.{yourself}"
    )


def _pays(one: Professional) -> str:
    least, most = one.fee
    if one.pays:
        return "Worth paying for"
    if one.off_the_price > most:
        return "Worth paying for where what is found comes off the price"
    return "Not worth a fee" if one.off_the_price < least else "May be worth a fee"
