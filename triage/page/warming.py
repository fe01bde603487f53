"""What the next screens need, worked out while nobody asks: the words to hear with, the drawings, the modules."""

from __future__ import annotations

from collections.abc import Iterator
from urllib.parse import urlencode

from triage.app import addresses
from triage.knowledge.model import NOTHING_SEEN, KnowledgeBase
from triage.listening.choosing import ear
from triage.listening.tokens import tokens_of
from triage.listening.understand import matchers
from triage.page.phone import Phone

_FORM = "application/x-www-form-urlencoded"
_TALK = ("", "choose?number=1", "choose?number=1", "answer", "report.html", "boat", "walk")
"""Of a visit that nobody keeps: what is read, and what is sent with a form."""


def warming(kb: KnowledgeBase) -> Iterator[str]:
    """What was done, after each step; a step takes a moment only."""
    for prepare in (matchers, ear):
        prepare(kb)
        yield prepare.__name__
    tokens_of("", kb)
    yield tokens_of.__name__
    place, mark = _told(kb)
    phone = Phone(kb, {})
    for story, screens in ((f"{mark} at the {place}.", _TALK), (place, ("",))):
        said = urlencode({"text": story}).encode()
        visit = phone.answer("POST", addresses.NEW, kind=_FORM, body=said)[1].get("location", "").lstrip("./")
        yield story
        for one in screens:
            path, _, form = one.partition("?")
            phone.answer("POST" if form else "GET", f"{visit}{path}", kind=_FORM if form else "", body=form.encode())
            yield one


def _told(kb: KnowledgeBase) -> tuple[str, str]:
    """What somebody might tell of: a place, and the mark there about which there is most to ask."""
    pairs = ((zone, sign) for zone, signs in kb.offers.items() for sign in signs if sign != NOTHING_SEEN)
    zone, sign = max(pairs, key=lambda pair: len(kb.applicable(*pair)))
    return kb.zones[zone].name, kb.signs[sign].name
