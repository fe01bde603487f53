"""What is said of an advert that was read from its words, before anything of it is kept."""

from __future__ import annotations

from collections.abc import Iterator

from triage.knowledge.model import KnowledgeBase
from triage.listening.advert import Advert, Fact
from triage.phrases.advert import FIELDS
from triage.phrases.money import exactly
from triage.phrases.words import capital, counted

NOTHING_KEPT = "This is what I understood of the advert. Nothing of it is kept yet."
NOTHING_HEARD = "Nothing was understood of it that an advert tells. Fill in what you know."
UNCLEAR = "May mean more than one thing, so it is left to you"
MARKS = "Speaks of damage; look at it yourself"
REST = "Nothing was made of this"
KEEP = "Keep this in {file}, and plan the viewing?"
NOT_KEPT = "Nothing is kept."
CURRENCY = "No currency is named. In which is it, in three letters (EUR, GBP, USD …)?"
GEAR = {
    "missing": "missing",
    "spent": "spent",
    "extra": "comes with her",
    "there": "there",
    "not with her": "not with her",
}


def understood(kb: KnowledgeBase, advert: Advert) -> Iterator[tuple[str, str]]:
    """The words of the advert, each with what was understood of them."""
    told: dict[str, list[str]] = {}
    for one in advert.facts:
        told.setdefault(one.words, []).append(fact(kb, one, advert.currency))
    yield from ((words, "; ".join(dict.fromkeys(said))) for words, said in told.items())


def fact(kb: KnowledgeBase, one: Fact, currency: str) -> str:
    """One thing that was understood."""
    if one.word == "sale":
        return capital(kb.purchase.sale[one.about].say)
    if one.about:
        gear = capital(kb.purchase.gear[one.about].name)
        return f"{gear}: {counted(one.value, 'year')} old" if one.word == "ages" else f"{gear}: {GEAR[one.word]}"
    if one.word == "sound":
        least, most = one.value
        return f"{FIELDS['sound_least']}: {exactly(least, currency)} to {exactly(most, currency)}".strip()
    told = exactly(one.value, currency).strip() if one.word in ("asking", "budget") else one.value
    return f"{FIELDS[one.word]}: {told}"
