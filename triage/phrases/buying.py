"""What is said to somebody who thinks of buying a boat, and what he can say to the seller."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from triage.buying.advice import DecidingReason, Professional, PurchaseAdvice
from triage.buying.offer import Offer
from triage.buying.price import PriceLine
from triage.buying.standing import Evidence
from triage.phrases.money import amount, exactly, money, span, spread
from triage.phrases.words import at_side, basis_words, capital, counted, listed, uncapital

BECAUSE, TURNS, PRICE, IN_WRITING, NOT_NOW = "Because", "To turn it", "Price", "In writing", "Do not"
NOT_TRIED, TO_THE_SELLER, ADVISER, MORE_REASONS = "Not tried", "Say", "Ask a pro", "Also"
IN_PHOTOS = "In photos"
FOR_A_BUYER, FOUND = "For somebody who thinks of buying her", "What was found"
SOUND_LINE, A_NEW_ONE = "The same boat, complete and sound", "A new one like her"
OF_NEW, OWN_FIGURE, OUR_ESTIMATE = "Of that, used ones fetch", "your figure", "our estimate"
NO_FIGURE = "No figure: get a quote"

HEADLINES = (
    "Buy: nothing found speaks against it",
    "Buy on terms, in writing",
    "Wait: a check first, money after it",
    "Leave this one",
)
NO_PRICE_JUDGED = "Nothing found speaks against buying her; you named no price, so none was judged"
TRY_FIRST = "Trying yourself what nobody tried comes first: it costs nothing."
DEFERS = "A guide, not a survey. The money is yours: every figure is rough until somebody has quoted it."

SAYINGS = (
    "I should like to take her. Shall we write down the number, the price and the day?",
    "I should like to buy her, if we can put these points in writing first.",
    "I like her, and I cannot decide before this has been looked at. When may I come back to do it?",
    "Thank you for your time. She is not the boat for me.",
)
BY_WHAT_WAS_FOUND = "By what was found alone:"
NOTHING_AGAINST = "Nothing that was found speaks against buying her."
WITH_FIGURES = (
    "No price was weighed: name what is asked, what a sound one like her costs and your budget, under “Buy her?” on "
    "the screens or in an offer file for triage buy."
)
NOT_FOR_ME = "She is not the boat for me, and I did not want to leave you waiting for an answer."

ONLY_IN_PHOTOS = "Only seen in a photograph"
STAYS_OPEN = "It stays open until somebody tries it."

THEY_ALL_DO_THAT = (
    "“They all do that”: “That may well be. I should still like to have it looked at before we agree on a price.”"
)
"""A polite answer to what changes nothing."""

DOUBTS = {
    "unreadable": "a number you wrote down cannot be a hull number; look again (triage number)",
    "contradicts itself": "the number contradicts itself",
    "another year": "the number is of another year than she is said to be",
    "two numbers": "the two numbers differ",
    "misread": "the two numbers differ in letters that are easily misread; look again",
}

KINDS = {
    "mending": "",
    "risk": "may be",
    "not tried": "",
    "missing": "missing",
    "spent": "spent",
    "extra": "comes with her",
}

NAMES = {"sound": "what a sound boat like her costs", "asking": "the asking price", "budget": "your budget"}

LINES_TOLD = 6
"""Lines of the price on the screen; the others are told together."""

EVIDENCE_TOLD = 3
CHECKS_TOLD = 3
PLACES_TOLD = 6


def headline(advice: PurchaseAdvice) -> str:
    """What to do, in a few words."""
    if advice.level == 0 and "asking" in advice.unnamed:
        return NO_PRICE_JUDGED
    return HEADLINES[advice.level]


def in_brief(advice: PurchaseAdvice) -> tuple[str, ...]:
    """What to do in a conversation, where no figure was named: the answer, what turns it, what was found by itself
    where that alone would be milder, and what to name.
    """
    reasons = (*advice.reasons, *advice.others)
    if not reasons:
        return f"{headline(advice)}.", WITH_FIGURES
    found = next(filter(_was_found, reasons), None)
    lead = found if found and found.level == advice.level else reasons[0]
    told = [f"{HEADLINES[advice.level]}. {lead.because} {behind(lead.behind)}".strip(), f"{TURNS}: {turned_by(lead)}"]
    if found and found is not lead:
        alone = uncapital(HEADLINES[found.level])
        told.append(f"{BY_WHAT_WAS_FOUND} {alone}. {found.because} {behind(found.behind)}")
    elif not found and any(not one.looked_at_only for one in advice.assessment.findings):
        told.append(NOTHING_AGAINST)
    if advice.untried and lead.scale != "untried":
        told.append(f"Not tried, so not passed: {counted(len(advice.untried), 'place')} on which she depends.")
    return *told, WITH_FIGURES


def _was_found(one: DecidingReason) -> bool:
    """Whether a mark that somebody saw is behind it."""
    return any(thing.findings and not thing.suspected for thing in one.behind)


def reason(one: DecidingReason) -> str:
    """Why, with what is behind it, and what would turn it."""
    return " ".join(part for part in (one.because, behind(one.behind), f"{TURNS}: {turned_by(one)}") if part)


def behind(things: Sequence[Evidence]) -> str:
    """The marks or the places that a reason rests on, what nobody looked for last; many of them by number."""
    named = things[:EVIDENCE_TOLD]
    first = next((one for one in named if one.suspected), None)
    told = "; ".join(one.name if one.suspected and one is not first else evidence(one) for one in named)
    more = len(things) - EVIDENCE_TOLD
    return f"{capital(told)}{f'; and {more} more' if more > 0 else ''}." if things else ""


def evidence(one: Evidence) -> str:
    """One thing that a reason rests on."""
    return f"not looked for yet: {one.name}" if one.suspected else DOUBTS.get(one.name, one.name)


def turned_by(one: DecidingReason) -> str:
    """What would turn it: the first check of each thing behind it, the quickest first, and the condition."""
    checks = sorted((thing.check for thing in one.behind if thing.check), key=lambda check: check.minutes)
    told = dict.fromkeys(
        f"{check.name}{f' ({check.side})' if check.side else ''}, {check.minutes:g} minutes" for check in checks
    )
    first = capital("; ".join(uncapital(name) for name in list(told)[:CHECKS_TOLD]))
    return " ".join((f"{first}." if first else "", *one.turns)).strip()


def also(others: Sequence[DecidingReason]) -> str:
    """The reasons that decide less, in a line."""
    return " ".join(one.because for one in others)


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
        parts.append(f"{line.chance * 100:.0f} in 100{' each' if line.counted > 1 else ''}")
        if line.otherwise:
            parts.append(f"else {amount(line.otherwise, currency)}")
    parts.append(line.rests_on.partition(" from ")[0])
    if line.margin:
        parts.append(f"+{line.margin * 100:.0f}% for the unseen")
    if line.accepted:
        parts.append("accepted")
    return ", ".join(part for part in parts if part)


def line_basis(line: PriceLine) -> str:
    """What a line for gear rests on, and what to mind about it; empty where its figure is the buyer's own."""
    told = [f"{capital(basis_words(line.basis))}." if line.basis else "", line.note]
    return " ".join(one for one in told if one)


def smaller(lines: Sequence[PriceLine], currency: str) -> str:
    """The lines that are not told one by one."""
    if not lines:
        return ""
    return (
        f"And {counted(len(lines), 'smaller line')}, together about {money(sum(line.mean for line in lines), currency)}"
    )


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
            told += f" That this is more than your budget of {exactly(offer.budget, currency)} is {over}."
        yield told
    if advice.unnamed:
        yield f"Not judged, because you did not name it: {listed([NAMES[one] for one in advice.unnamed])}."


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
    fee = span(*one.fee, currency)
    verdict = "Worth paying for" if one.pays else "Not worth a fee" if one.worth < one.fee[0] else "May be worth a fee"
    return (
        f"{verdict}: knowing is worth about {money(one.worth, currency)}, a look costs {fee}. It rests on: "
        f"something hidden {out_of_100(one.chance * 100)}, then some {money(one.loss, currency)} more to pay; "
        f"a professional finds {one.finds * 10:g} of 10; you pay {money(one.price, currency)}.{yourself}"
    )


def in_writing(advice: PurchaseAdvice) -> str:
    """By when, where there are conditions."""
    if advice.level not in (1, 2):
        return ""
    return f"All of it dated, by {advice.offer.until}." if advice.offer.until else "All of it, with a date beside each."


def untried(advice: PurchaseAdvice) -> str:
    """The places on which she depends and that nobody tried."""
    places = [uncapital(at_side(one.place, one.side)) for one in advice.untried]
    more = len(places) - PLACES_TOLD
    told = "; ".join(places[:PLACES_TOLD])
    return f"{told}{f'; and {more} more' if more > 0 else ''}." if places else ""


def photographed(advice: PurchaseAdvice) -> str:
    """The marks that nobody saw but in a photograph, and what one cannot show; empty where there are none."""
    if not advice.only_in_photos:
        return ""
    hidden = f" It cannot show {'; '.join(advice.photos_hide)}." if advice.photos_hide else ""
    return f"{ONLY_IN_PHOTOS}: {'; '.join(advice.only_in_photos)}.{hidden} {STAYS_OPEN}"


def says(advice: PurchaseAdvice) -> str:
    """A sentence for the seller, and one for what sellers say; neither makes anything milder."""
    said = f"“{SAYINGS[advice.level]}”"
    return f"{said} {THEY_ALL_DO_THAT}" if advice.level in (1, 2) else said
