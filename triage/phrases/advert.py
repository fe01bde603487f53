"""What the screens of a buyer say: the advert, the plan for the viewing, and the decision."""

from __future__ import annotations

from collections.abc import Sequence

from triage.buying.advice import DecidingReason, PurchaseAdvice
from triage.buying.standing import Evidence
from triage.phrases import buying, prices
from triage.phrases.money import amount, exactly, likely, span
from triage.phrases.words import capital, counted

SHOULD_I_BUY = "Should I buy her?"
ADVERT = "The advert"
ADVERT_WHY = "Fill in what you know. All of it may stay empty, and what you do not name is not judged."
THE_PLAN = "Plan the viewing"
PASTE = "Paste the advert"
PASTE_WHY = "What is understood of it goes into the empty fields below. Nothing is kept until you keep the form."
READ_IT = "Read it"
TELL_MARKS = "Keep, and tell these as marks"
READ_NUMBER = "Keep, and read the number"
KEEP_AND_PLAN = "Keep and plan"
KEEP_AND_DECIDE = "Keep and decide"
YOUR_FIGURES = "Prices"
WHOSE = "Her number and year"
HER_GEAR = "What comes with her"
GEAR_MORE = "Say only what is not as it should be"
THE_SALE = "What you noticed about the sale"
IN_PHOTOS = "Only seen in photographs"
IN_PHOTOS_WHY = "Tick the marks that you know from pictures alone. They stay open until somebody tries them."
QUOTES = "Figures you were quoted for mending"
QUOTES_WHY = "They go before ours."
ACCEPTED = "I take her with this at this price"
SAW_NONE = "I saw none for sale, and know what a new one costs"
AGE = "The age"
MORE_ABOUT_NUMBERS = "Where it is, and whom to ask"
NAME_PRICES = "Name your prices"
QUOTE = "A quote"
LEAST, MOST = "from", "to"

FIELDS = {
    "called": "What you call her",
    "currency": "Currency",
    "one_unit": "How much of it is about one euro",
    "asking": "Asking price",
    "budget": "The most you can spend, mending and all",
    "sound_most": "Others like her, complete and undamaged",
    "sound_least": "Others like her, complete and undamaged",
    "new": "What a new one costs",
    "of_new_least": "Of that, used ones fetch, in percent",
    "claimed_year": "Year she was built, as the seller says",
    "number": "Hull number (12 or 14 letters and figures)",
    "second_number": "Number at the second place",
    "lives": "Where she lives",
    "until": "Put terms in writing by",
}
HINTS = {
    "currency": "€, £, or its three letters.",
    "called": "Her name or where she lies, to tell her from the others.",
    "one_unit": "Only for a currency in which one is not about one euro, pound or dollar.",
    "sound_least": "What you saw them advertised for. It is what her price is worked out from.",
    "of_new_least": "From what you saw advertised, complete and sound.",
    "number": "Moulded, engraved or on a plate: at the back of the boat, on the outside, upper right.",
    "second_number": "Boats have it twice; the second is hidden inside. Ask the seller.",
    "lives": "Town, and whether ashore, under cover or in the water (on a mooring).",
}
GEAR = (("", "there"), ("missing", "missing"), ("spent", "spent"))
EXTRA_GEAR = (("", "not with her"), ("extra", "comes with her"), ("spent", "spent"))

MINUTES = (20, 30, 40, 60, 90)
HOW = "How this is done"
HOW_LONG = "How long will you have?"
PUT_IN_ORDER = "What to try, in the order in which you reach it"
THE_LIST = "To ask the seller beforehand"
WHAT_TO_ASK = "What to ask"
PHOTOS = "What photographs show"
NO_TIME = "No time for"
BRING = "Bring"
ODD = "Ask about this"
THE_PLAN_FILE = "The plan as text"

WHY = "Why"
NOT_TRIED = "Not tried"
TO_SAY = "To say to the seller"
THE_PAGE = "The page"
THE_TEXT = "As text"
A_NOTE = "A note to the seller"
ALL_LINES = "How the price is made up"
MORE_REASONS = "More reasons"
NOT_NOW = "Not now"
GO_ON_LOOKING = "Go on looking"
TO_TURN_IT = "To turn it"
ALL_TRIED = "Every place on which she depends was tried."
STILL_ASKED = "What you told is not counted yet: a question about it is open."
ANSWER_IT = "Answer it"
NOTHING_SEEN_YET = "Nobody has looked at her yet. This rests on the advert alone."
SOUND, AS_SHE_LIES, TO_PAY, ALL_IN = "A sound one like her", "As she lies", "What is to pay", "Bought as asked, all in"


TICK_IT = "If that is about the sale, tick it in the advert."


def you_told(sentence: str) -> str:
    """What somebody told of the sale, in his own words."""
    return f"You told: “{sentence}”"


def no_figure(called: str, text: str) -> str:
    """A field that holds no number."""
    return f"{called}: “{text}” is no figure. Write digits, such as 1200."


def bad_form(wrong: int) -> str:
    """Above a form that cannot be kept."""
    return f"Not kept yet: {counted(wrong, 'field')} to mend, said beside each. All else stands as you wrote it."


def other_currency(called: str, sign: str, currency: str) -> str:
    """A figure in another currency than the rest."""
    return f"{called} is in {sign}, and the currency is {currency}. Write all of it in one."


def ours(least: float, most: float) -> str:
    """Beside what takes our own estimate of used boats' prices."""
    return f"Take our estimate, {least:g} to {most:g} percent. The decision will not rest on it."


def no_day(text: str) -> str:
    """A field that holds no date."""
    return f"{FIELDS['until']}: “{text}” is no date. Write year-month-day."


def wrong_way(called: str) -> str:
    """A span that does not run from the least to the most."""
    return f"{called}: it does not run from the least to the most."


def not_known(problems: Sequence[str]) -> str:
    """What was kept of an advert means nothing to the rules of today."""
    told = " ".join(problems)
    return f"What is kept of the advert means nothing to these rules: {told} Open the advert and keep it again."


def shown_above(check: str) -> str:
    """Where a check was shown further up already."""
    return f"{check}: shown further up"


def years(gear: str) -> str:
    """On the field for the age of some gear."""
    return f"Age of the {gear}, in years"


def asking(price: float, currency: str) -> str:
    """On the post in the picture of the price."""
    return f"asking {exactly(price, currency)}"


def answer(advice: PurchaseAdvice) -> str:
    """The decision, with the price where the buyer's own figures make one and terms are about money."""
    worth = advice.sums.worth
    money_decides = any(one.scale == "asking" for one in (*advice.reasons, *advice.others))
    if advice.level == 1 and worth and money_decides:
        return f"Go on, but for {span(*likely(worth), advice.offer.currency)}"
    return buying.headline(advice)


def leads(advice: PurchaseAdvice) -> Sequence[str]:
    """What follows the decision: what she is worth meanwhile, or how else to come to terms."""
    told = []
    if answer(advice) != buying.headline(advice):
        told.append("And on terms, in writing. Or have it mended first, and pay what she is worth then.")
    if advice.level == 2 and advice.sums.worth:
        worth = span(*likely(advice.sums.worth), advice.offer.currency)
        told.append(f"As far as anybody knows, she is worth {worth} as she lies.")
    return told


def behind(reason: DecidingReason, advice: PurchaseAdvice) -> Sequence[tuple[str, str]]:
    """What a reason rests on, each with what it comes to where there is a figure; many of them by number."""
    told = [(capital(buying.evidence(one)), _costs(one, advice)) for one in reason.behind[: buying.EVIDENCE_TOLD]]
    if reason.scale == "beyond_budget":
        told.append((prices.beyond(advice).strip(), ""))
    more = len(reason.behind) - buying.EVIDENCE_TOLD
    return [*told, (f"And {more} more", "")] if more > 0 else told


def _costs(evidence: Evidence, advice: PurchaseAdvice) -> str:
    for line in advice.sums.lines:
        if evidence.findings and line.name == evidence.name:
            details = prices.line_detail(line, advice.offer.currency)
            return f"{amount(line.amount, advice.offer.currency)}{f', {details}' if details else ''}"
    return ""


def see_mark(number: int) -> str:
    """On what leads to a mark in the answer."""
    return f"Mark {number} in the answer"


def untried(advice: PurchaseAdvice) -> str:
    """The places that nobody tried, as a sentence."""
    return f"{capital(buying.untried(advice))} What nobody tried is not passed."


def drawn(advice: PurchaseAdvice) -> str:
    """What the picture of the price shows, in words."""
    return " ".join(prices.sum_up(advice))
