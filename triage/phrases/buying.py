"""What is said to somebody who thinks of buying a boat, and what he can say to the seller."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence

from triage.buying.advice import DecidingReason, PurchaseAdvice
from triage.buying.standing import Evidence
from triage.conclusions.assessment import Assessment, Job
from triage.phrases import findings
from triage.phrases.money import exactly
from triage.phrases.words import at_side, capital, counted, hours_of, listed, plus_waiting, uncapital

BECAUSE, TURNS, PRICE, IN_WRITING, NOT_NOW = "Because", "To turn it", "Price", "In writing", "Do not"
NOT_LOOKED_AT, LOOKED_AT_ONLY, IN_VAIN = "Not looked at", "Looked at, not tried", "Tried, and nobody could tell"
ALL_SEEN = "Every place was looked at and tried."
NOT_OPENED = "Not opened up, not looked at, not tried"
TESTED, TO_DO = "Found", "To do"
NOT_TRIED, TO_THE_SELLER, ADVISER, MORE_REASONS = "Not tried", "Say", "Paid look", "Also"
IN_PHOTOS = "In photos"
FOR_A_BUYER, FOUND = "For somebody who thinks of buying her", "What was found"

HEADLINES = (
    "Buy: nothing found speaks against it",
    "Buy on terms, in writing",
    "Wait: a check first, money after it",
    "Leave this one",
)
NO_PRICE_JUDGED = "Nothing found speaks against buying her; you named no price, so none was judged"
DEFERS = "A guide, not a survey. The money is yours: every figure is rough until somebody has quoted it."

BY_WHAT_WAS_FOUND = "By what was found alone:"
ONLY_LOOKS = "What was found is only looks."
WITH_FIGURES = (
    "No price was weighed: name what is asked, what a sound one like her costs and your budget, under “Buy her?” on "
    "the screens or in an offer file for triage buy."
)
MORE_FIGURES = (
    "What a sound one like her costs, and your budget, would weigh it: name them under “Buy her?” on the screens or in "
    "an offer file for triage buy."
)
ONLY_IN_PHOTOS = "Only seen in a photograph"
STAYS_OPEN = "It stays open until somebody tries it."

DOUBTS = {
    "unreadable": "a number you wrote down cannot be a hull number; look again (triage number)",
    "contradicts itself": "the number contradicts itself",
    "another year": "the number is of another year than she is said to be",
    "two numbers": "the two numbers differ",
    "misread": "the two numbers differ in letters that are easily misread; look again",
}


EVIDENCE_TOLD = 3
CHECKS_TOLD = 3
PLACES_TOLD = 6


def headline(advice: PurchaseAdvice) -> str:
    """What to do, in a few words."""
    if advice.level == 0 and "asking" in advice.unnamed:
        return NO_PRICE_JUDGED
    return HEADLINES[advice.level]


def by_what_was_found(advice: PurchaseAdvice) -> str:
    """What to do by the marks that somebody saw, where what nobody has seen makes it graver; else empty."""
    found = _found(advice)
    if found:
        return f"{BY_WHAT_WAS_FOUND} {uncapital(HEADLINES[found.level])}." if found.level < advice.level else ""
    jobs = advice.assessment.jobs
    return ONLY_LOOKS if jobs and advice.level and all(job.verdict.roles[1] == "looks" for job in jobs) else ""


def in_brief(advice: PurchaseAdvice) -> tuple[str, ...]:
    """What to do in a conversation, where no figure was named: the answer, what turns it, what was found by itself
    where that alone would be milder, and what to name.
    """
    reasons = (*advice.reasons, *advice.others)
    if not reasons:
        return f"{headline(advice)}.", _what_to_name(advice)
    found = _found(advice)
    deciding = [one for one in reasons if one.level == advice.level]
    lead = min(deciding, key=lambda one: (not _was_found(one), one.scale == "untried"))
    told = (
        f"{HEADLINES[advice.level]}. {_why(lead)}",
        f"{TURNS}: {turned_by(lead)}",
        f"{by_what_was_found(advice)} {_why(found) if found and found is not lead else ''}".strip(),
        _how_much_untried(advice) if lead.scale != "untried" else "",
        f"{NOT_NOW}: {' '.join(advice.never)}" if advice.never else "",
        _what_to_name(advice),
    )
    return tuple(filter(None, told))


def _what_to_name(advice: PurchaseAdvice) -> str:
    """Which figures would weigh more, and which were told."""
    offer = advice.offer
    if offer.asking is None:
        return WITH_FIGURES
    asked = f"Asked, as you told: {exactly(offer.asking, offer.currency)}."
    return f"{asked} {MORE_FIGURES}" if advice.unnamed else asked


def _why(one: DecidingReason) -> str:
    return f"{one.because} {behind(one.behind)}".strip()


def _how_much_untried(advice: PurchaseAdvice) -> str:
    some = len(advice.untried)
    return f"Not tried, so not passed: {counted(some, 'place')} on which she depends." if some else ""


def _found(advice: PurchaseAdvice) -> DecidingReason | None:
    """The most deciding of the reasons that rest on a mark which somebody saw."""
    return next(filter(_was_found, (*advice.reasons, *advice.others)), None)


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
    names = (one.name if one.suspected and one is not first else evidence(one) for one in named)
    told = "; ".join(map(uncapital, names))
    more = len(things) - EVIDENCE_TOLD
    return f"{capital(told)}{f'; and {more} more' if more > 0 else ''}." if things else ""


def evidence(one: Evidence) -> str:
    """One thing that a reason rests on."""
    return f"not looked for yet: {one.name}" if one.suspected else DOUBTS.get(one.name, one.name)


def turned_by(one: DecidingReason) -> str:
    """What would turn it: the first check of each thing behind it, the quickest first, and the condition."""
    checks = sorted((thing.check for thing in one.behind if thing.check), key=lambda check: check.minutes)
    told = dict.fromkeys(
        f"{check.name}{f' ({check.side})' if check.side else ''}, {check.minutes:g} minutes{plus_waiting(check.wait)}"
        for check in checks
    )
    first = capital("; ".join(uncapital(name) for name in list(told)[:CHECKS_TOLD]))
    return " ".join((f"{first}." if first else "", *one.turns)).strip()


def also(others: Sequence[DecidingReason]) -> str:
    """The reasons that decide less, in a line."""
    return " ".join(one.because for one in others)


def in_writing(advice: PurchaseAdvice) -> str:
    """By when, where there are conditions."""
    if advice.level not in (1, 2):
        return ""
    return f"All of it dated, by {advice.offer.until}." if advice.offer.until else "All of it, with a date beside each."


def untried(advice: PurchaseAdvice) -> str:
    """The places on which she depends and that nobody tried."""
    sides: dict[str, list[str | None]] = {}
    for one in advice.untried:
        sides.setdefault(one.place, []).append(one.side)
    places = [uncapital(at_side(place, "both sides" if len(at) > 1 else at[0])) for place, at in sides.items()]
    more = len(places) - PLACES_TOLD
    told = "; ".join(places[:PLACES_TOLD])
    return f"{told}{f'; and {more} more' if more > 0 else ''}." if places else ""


def not_opened(assessment: Assessment) -> Iterator[tuple[str, str]]:
    """Everything at which nobody looked, what was looked at and not tried, and what was tried in vain, by name."""
    for leg in assessment.not_looked_at:
        yield f"{NOT_LOOKED_AT}, {uncapital(leg.leg)}", _listed(at_side(one.place, one.side) for one in leg.places)
    if looked := [at_side(one.place, one.side) for one in assessment.findings if one.looked_at_only]:
        yield LOOKED_AT_ONLY, _listed(looked)
    tried = {
        at_side(one.place, one.side): [said for said in one.readings if said.low is None] for one in assessment.findings
    }
    if in_vain := [f"{at} ({listed([uncapital(one.name) for one in said])})" for at, said in tried.items() if said]:
        yield IN_VAIN, _listed(in_vain)


def _listed(places: Iterable[str]) -> str:
    return f"{'; '.join(map(uncapital, places))}."


def tried(job: Job, assessment: Assessment) -> str:
    """What was found at a damage, test by test, in the words of whoever made them."""
    marks = [assessment.finding(id_) for id_ in job.findings]
    return listed(list(dict.fromkeys(findings.reading(said) for mark in marks for said in mark.readings)))


def upkeep(job: Job) -> str:
    """What mends it, and how long that takes; what it costs stands in the price."""
    repair = job.mending
    if repair is None or repair.hours is None:
        return ""
    return f"{repair.name}: {hours_of(repair.hours)} of work{f', and {repair.wait}' if repair.wait else ''}."


def photographed(advice: PurchaseAdvice) -> str:
    """The marks that nobody saw but in a photograph, and what one cannot show; empty where there are none."""
    if not advice.only_in_photos:
        return ""
    hidden = f" It cannot show {'; '.join(advice.photos_hide)}." if advice.photos_hide else ""
    return f"{ONLY_IN_PHOTOS}: {'; '.join(advice.only_in_photos)}.{hidden} {STAYS_OPEN}"
