"""What somebody told of a sale in a conversation, as an offer: the signs of it, and the money that he named."""

from __future__ import annotations

from dataclasses import replace

from triage.buying.offer import NOTHING_NAMED, Offer
from triage.buying.read_offer import offer_from
from triage.errors import BadOffer
from triage.knowledge.model import KnowledgeBase
from triage.listening.advert import hear_advert
from triage.listening.advert_year import FIRST_YEAR

TOLD = ("asking", "budget", "sound", "sale")
"""What is taken from a conversation: gear and years are of an advert, and asked for there."""


def offer_told(kb: KnowledgeBase, note: str) -> Offer:
    """The offer that a note tells of. What cannot be one (a currency that has to be explained) is not taken."""
    heard = hear_advert(note, kb, FIRST_YEAR)  # no year is taken
    facts = tuple(one for one in heard.facts if one.word in TOLD and one.named)
    offer = {"currency": NOTHING_NAMED.currency, **replace(heard, facts=facts).offer()}
    try:
        return offer_from(offer, kb)
    except BadOffer:
        return offer_from({"currency": NOTHING_NAMED.currency, "sale": offer.get("sale", [])}, kb)
