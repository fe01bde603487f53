"""A note to the seller of a boat, from somebody who thinks of buying her."""

from __future__ import annotations

from collections.abc import Iterator

from triage.buying.advice import DecidingReason, PurchaseAdvice
from triage.phrases.money import amount
from triage.phrases.prices import line_name
from triage.phrases.screens import UNNAMED
from triage.phrases.sharing import ASKS_BACK
from triage.phrases.words import capital

SAYINGS = (
    "I should like to take her. Shall we write down the number, the price and the day?",
    "I should like to buy her, if we can put these points in writing first.",
    "I like her, and I cannot decide before this has been looked at. When may I come back to do it?",
    "Thank you for your time. She is not the boat for me.",
)


SAYINGS_BEFORE = (
    "I should like to come and see her. When would suit you?",
    "I should like to come and see her. If we agree, may we put these points in writing?",
    "I like what I have read of her, and I cannot decide before this has been looked at. When may I come and do it?",
    "I have thought about it, and she is not the boat for me.",
)
"""The same, before anybody has been there."""


NOT_WAITING = "I have thought about it, and I shall not come to see her. I did not want to leave you waiting."
NOT_FOR_ME = "She is not the boat for me, and I did not want to leave you waiting for an answer."


THEY_ALL_DO_THAT = (
    "“They all do that”: “That may well be. I should still like it looked at before we agree on a price.”"
)
"""A polite answer to what changes nothing."""


def to_the_seller(advice: PurchaseAdvice) -> str:
    """A sentence for the seller, by whether anybody has been at the boat."""
    return (SAYINGS if been_there(advice) else SAYINGS_BEFORE)[advice.level]


def been_there(advice: PurchaseAdvice) -> bool:
    """Whether the buyer has stood at the boat: a part of her was tried, or looked at, and not in a photograph."""
    looked = (one for one in advice.assessment.findings if one.passed or one.looked_at_only or one.readings)
    return any(one.id not in advice.offer.only_in_photos for one in looked)


def says(advice: PurchaseAdvice) -> str:
    """A sentence for the seller, and one for what sellers say; neither makes anything milder."""
    said = f"“{to_the_seller(advice)}”"
    return f"{said} {THEY_ALL_DO_THAT}" if advice.level in (1, 2) else said


def note(advice: PurchaseAdvice) -> Iterator[str]:
    """A note to the seller, line by line: what was found, what is asked for and by when; nobody is accused, and no
    figure of the buyer's own is in it but those for mending.
    """
    assessment = advice.assessment
    seen = f" on {assessment.seen_on}" if assessment.seen_on else ""
    boat = YOUR_BOAT if assessment.boat in UNNAMED else assessment.boat
    tried = been_there(advice)
    yield f"Thank you for showing me {boat}{seen}." if tried else f"I am thinking of buying {boat}."
    if advice.level == len(SAYINGS) - 1:
        yield NOT_FOR_ME if tried else NOT_WAITING
        return
    yield to_the_seller(advice)
    reasons = (*advice.reasons, *advice.others)  # a buyer decides by four; a seller is told all
    found = [thing for one in reasons for thing in one.behind if thing.findings and not thing.suspected]
    if names := list(dict.fromkeys(one.name for one in found)):
        yield ""
        yield FOUND if tried else KNOWN
        yield from (f"- {capital(name)}" for name in names)
    quoted = [line for line in advice.sums.lines if line.rests_on.startswith("your quote")]
    if quoted:
        yield ""
        yield "What a repairer asks for it:"
        yield from (
            f"- {line_name(line)}: {amount(line.amount.scaled(1 / (1 + line.margin)), advice.offer.currency)}"
            for line in quoted
        )
    if advice.level in (1, 2):
        yield ""
        until = f" by {advice.offer.until}" if advice.offer.until else ", each with a date"
        yield f"What I should like us to put in writing{until}:"
        asked = (_asked(one) for one in reasons if one.scale in ASKED)
        yield from (f"- {one}" for one in dict.fromkeys(asked))
    yield ""
    yield f"{ASKS_BACK} Thank you." if tried else ASKS_BACK


def _asked(one: DecidingReason) -> str:
    """What is asked for a reason, with the places where a look is asked for; what is suspected there is left out."""
    places = dict.fromkeys(thing.name.partition(":")[0] for thing in one.behind)
    return ASKED[one.scale] + (f": {'; '.join(places)}" if one.scale == "open_main" else "")


FOUND = "What I found, as far as it could be seen; nothing was opened unless it says so:"
KNOWN = "What I know of, from what was told or shown in pictures:"

YOUR_BOAT = "your boat"
"""What a boat is called to her seller, where the buyer has no name for her."""

ASKED = {
    "weak_main": "that the damage is mended and seen before I pay, or that a repairer's figure comes off the price",
    "weak_other": "that the damage is mended and seen before I pay, or that a repairer's figure comes off the price",
    "priced": "the damage that I take her with, and its price",
    "open_main": "a day on which these places can be looked at, by me or by a repairer",
    "open_other": "that I may look first, and that a repairer's figure comes off if there is damage",
    "untried": "a day on which I may see the rest of her, with the hatches open and from below",
    "road": "who puts the trailer right, or brings her",
    "identity": "her number, read and photographed in both places, and the papers that go with it",
    "pattern": "a few words on her history",
    "share": "a price that takes the mending into account",
    "unquoted": "some days in which a repairer can name a price for the mending",
    "asking": "a price that takes the mending into account",
    "over_budget": "a price that takes the mending into account",
    "beyond_budget": "some days in which a repairer can name a price for the mending",
}
"""What a seller is asked for each reason, in words that he can accept; what is left out asks for nothing."""
