"""What cannot be kept of a form: every trouble at once, each with the field that it stands beside."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from triage.app.purchase import plainly
from triage.buying.offer import NOTHING_NAMED
from triage.buying.read_offer import offer_from
from triage.errors import BadOffer, Problem
from triage.knowledge.model import KnowledgeBase

BESIDE = {"sound": "sound_least", "of_new": "of_new_least"}
"""The field of the form for a word of an offer file, where it is called otherwise."""


@dataclass(frozen=True)
class Trouble:
    """What is wrong in a field, in a sentence; ``field`` is empty where it is in none of its own."""

    field: str
    says: str


def troubles_of(offer: Mapping[str, Any], kb: KnowledgeBase) -> list[Trouble]:
    """All that is wrong with the words of an offer. What has the wrong shape hides what is wrong with the rest, so it
    is read again without that.
    """
    found: list[Trouble] = []
    left = dict(offer)
    while True:
        try:
            offer_from(left, kb)
        except BadOffer as error:
            found += [Trouble(_field(one), plainly(one.what, one.hint)) for one in error.problems]
            wrong = {_word(one) for one in error.problems} & left.keys()
            left = {word: said for word, said in left.items() if word not in wrong}
            if wrong:
                left.setdefault("currency", NOTHING_NAMED.currency)
                continue
        return found


def _word(problem: Problem) -> str:
    return problem.place.source.partition(": ")[2].partition(".")[0].partition("[")[0]


def _field(problem: Problem) -> str:
    word = _word(problem)
    return "one_unit" if word == "currency" and problem.what.startswith("how much of") else BESIDE.get(word, word)
