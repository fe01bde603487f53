"""Whether a boat that is for sale lies in the water, by what is said of where she lives."""

from __future__ import annotations

from triage.buying.noticed import says_one_of
from triage.buying.offer import Offer
from triage.knowledge.model import KnowledgeBase
from triage.knowledge.model.purchase import Afloat


def afloat(kb: KnowledgeBase, offer: Offer) -> Afloat | None:
    """How she is viewed then; None where she lies ashore, or where nobody said."""
    known = kb.purchase.viewing.afloat if kb.purchase.viewing else None
    return known if known and says_one_of(kb, offer.lives, known.heard) else None
