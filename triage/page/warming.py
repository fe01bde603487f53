"""What the next screens need, worked out while nobody asks: the drawings, the modules."""

from __future__ import annotations

from collections.abc import Iterator
from urllib.parse import urlencode

from triage.app import addresses
from triage.knowledge.model import NOTHING_SEEN, KnowledgeBase
from triage.page.phone import Phone

_FORM = "application/x-www-form-urlencoded"
_TALK = ("", "choose?number=1", "choose?number=1", "answer", "report.html", "boat", "walk")
"""Of a visit that nobody keeps: what is read, and what is sent with a form."""


def warming(kb: KnowledgeBase) -> Iterator[str]:
    """What was done, after each step; a step takes a moment only."""
    phone = Phone(kb, {})
    for told, screens in ((a_mark(kb), _TALK), (_most_to_ask(kb)[0], ("",))):
        said = urlencode({"text": told}).encode()
        visit = phone.answer("POST", addresses.NEW, kind=_FORM, body=said)[1].get("location", "").lstrip("./")
        yield told
        for one in screens:
            path, _, form = one.partition("?")
            phone.answer("POST" if form else "GET", f"{visit}{path}", kind=_FORM if form else "", body=form.encode())
            yield one


def a_mark(kb: KnowledgeBase) -> str:
    """What somebody might tell of."""
    zone, sign = _most_to_ask(kb)
    return f"{sign} at the {zone}."


def _most_to_ask(kb: KnowledgeBase) -> tuple[str, str]:
    """A place, and the mark there about which there is most to ask, by their names."""
    pairs = ((zone, sign) for zone, signs in kb.offers.items() for sign in signs if sign != NOTHING_SEEN)
    zone, sign = max(pairs, key=lambda pair: len(kb.applicable(*pair)))
    return kb.zones[zone].name, kb.signs[sign].name
