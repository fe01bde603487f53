"""An offer file from the words of an advert: what was understood is shown, and kept once somebody says so."""

from __future__ import annotations

from collections.abc import Iterable
from pathlib import Path
from typing import TYPE_CHECKING

import click

from triage.cli.terminal import say

if TYPE_CHECKING:
    from triage.knowledge.model import KnowledgeBase
    from triage.listening.advert import Advert


def keep_advert(kb: KnowledgeBase, advert_file: Path, offer_file: Path, this_year: int) -> bool:
    """Show what the words of an advert tell, and write the offer; False where it was not to be kept.

    Raises BadOffer when there is such a file already, or no such advert.
    """
    from triage.buying.write_offer import write_offer
    from triage.errors import BadOffer, Place, Problem
    from triage.listening.advert import hear_advert
    from triage.phrases import heard_advert as phrases

    if offer_file.exists():
        what = "is there already, and what stands in it is yours"
        raise BadOffer([Problem(Place(str(offer_file)), what, "Name a new file for what the advert tells.")])
    words = _words(advert_file)
    advert = hear_advert(words, kb, this_year)
    _show(kb, advert)
    say()
    if not click.confirm(phrases.KEEP.format(file=offer_file.name)):
        say(phrases.NOT_KEPT)
        return False
    currency = advert.currency or click.prompt(phrases.CURRENCY).strip().upper()
    write_offer({"currency": currency, "year": this_year, **advert.offer(), "advert": words}, offer_file)
    return True


def _words(file: Path) -> str:
    from triage.errors import BadOffer, Place, Problem
    from triage.listening.story import MOST

    try:
        with file.open(encoding="utf-8", errors="replace") as opened:
            return opened.read(MOST + 1)
    except OSError as error:
        what = f"cannot be opened: {error.strerror}"
        raise BadOffer([Problem(Place(str(file)), what, "Check the name and the folder.")]) from None


def _show(kb: KnowledgeBase, advert: Advert) -> None:
    from triage.phrases import heard_advert as phrases

    told = [f"{said}. “{words}”" for words, said in phrases.understood(kb, advert)]
    say(phrases.NOTHING_KEPT if told or advert.marks else phrases.NOTHING_HEARD)
    _lines("", told)
    for title, words in ((phrases.MARKS, advert.marks), (phrases.UNCLEAR, advert.unclear), (phrases.REST, advert.rest)):
        _lines(title, [f"“{one}”" for one in words])


def _lines(title: str, lines: Iterable[str]) -> None:
    every = list(lines)
    if every:
        say()
        if title:
            say(f"{title}:")
        for one in every:
            say(one, 4, "  *")
