"""What a learner is asked about a case, and what there is to choose from: the right answer among likely others."""

from __future__ import annotations

import random
from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass

from triage.knowledge.model import AFLOAT, HANDS, NOTHING_SEEN, TOW, VERDICT, KnowledgeBase
from triage.phrases import learning
from triage.phrases.words import LOAD
from triage.teaching.confusions import taken_for
from triage.teaching.key import Key

MARK, TRADE, CARRIES, CHECK, NEXT = "mark", "trade", "load", "check", "next"
CONFIDENCE, CAUSE, ELSEWHERE = "confidence", "cause", "elsewhere"

ORDER = (MARK, TRADE, CARRIES, CHECK, VERDICT, CONFIDENCE, AFLOAT, TOW, CAUSE, NEXT, ELSEWHERE, HANDS)
"""What is asked, in this order."""

NOT_YET, NOTHING, STOP = "not yet", "nothing", "stop"
"""Answers that every case has: the verdict is still open; nothing that is listed; no more checks."""

FROM_MARK = " "
"""Stands between the finding and the check in the id of a choice."""

MOST_CHOICES = 5
"""To choose from, where the right one is among likely others."""


@dataclass(frozen=True)
class Choice:
    """One answer: what is kept of it, and what is read."""

    id: str
    says: str


@dataclass(frozen=True)
class Question:
    """What is asked. Without choices a percentage is."""

    about: str
    says: str
    choices: tuple[Choice, ...] = ()


def question_of(kb: KnowledgeBase, key: Key, about: str) -> Question:
    """A question about the mark to judge. Raises KeyError for what depends on what was found."""
    return Question(about, learning.ASKED[about], tuple(_CHOICES[about](kb, key)))


def _marks(kb: KnowledgeBase, key: Key) -> Iterable[Choice]:
    mark = key.case.mark
    likely = [*taken_for(kb)[mark.sign], *(one for one in kb.offers[mark.zone] if one != NOTHING_SEEN)]
    chosen = _among(kb.signs, [mark.sign], likely)
    return [Choice(one, kb.signs[one].name) for one in chosen]


def _trades(kb: KnowledgeBase, key: Key) -> Iterable[Choice]:
    zone = kb.zones[key.case.mark.zone]
    likely = [*zone.neighbours, *(one.id for one in kb.zones.values() if one.leg == zone.leg)]
    chosen = _among(kb.zones, [zone.id], [one for one in likely if kb.zones[one].trade != zone.trade])
    return [Choice(one, kb.zones[one].trade) for one in chosen]


def _loads(kb: KnowledgeBase, _: Key) -> Iterable[Choice]:
    return [Choice(load, says) for load, says in LOAD.items() if any(zone.load == load for zone in kb.zones.values())]


def _levels(scale: str, also: tuple[Choice, ...] = ()) -> Callable[[KnowledgeBase, Key], Iterable[Choice]]:
    def levels(kb: KnowledgeBase, _: Key) -> Iterable[Choice]:
        return [*(Choice(level.name, level.name) for level in kb.scales[scale].levels), *also]

    return levels


def _causes(kb: KnowledgeBase, key: Key) -> Iterable[Choice]:
    causes = kb.causation.causes
    chosen = _among(causes, key.causes[:2], [*key.causes, *_shuffled(causes, key, CAUSE)])
    return [*(Choice(one, causes[one].name) for one in chosen), Choice(NOTHING, learning.NOTHING_MADE_IT)]


def _places(kb: KnowledgeBase, key: Key) -> Iterable[Choice]:
    others = [one for one in _shuffled(kb.zones, key, ELSEWHERE) if one != key.case.mark.zone]
    chosen = _among(kb.zones, key.elsewhere[:2], others)
    return [*(Choice(one, kb.zones[one].name) for one in chosen), Choice(NOTHING, learning.NOWHERE_ELSE)]


def _shuffled(ids: Iterable[str], key: Key, about: str) -> list[str]:
    """In an order that is the same whenever the case is played."""
    shuffled = list(ids)
    random.Random(f"{key.case.name} {about}").shuffle(shuffled)
    return shuffled


def _among(order: Iterable[str], right: Sequence[str], likely: Iterable[str]) -> list[str]:
    """The right ones among others, in the order of the knowledge, so that the place in the list tells nothing."""
    others = [one for one in dict.fromkeys(likely) if one not in right][: MOST_CHOICES - len(right)]
    return [one for one in order if one in {*right, *others}]


_CHOICES: Mapping[str, Callable[[KnowledgeBase, Key], Iterable[Choice]]] = {
    MARK: _marks,
    TRADE: _trades,
    CARRIES: _loads,
    VERDICT: _levels(VERDICT, (Choice(NOT_YET, learning.NOT_CLEARED),)),
    CONFIDENCE: lambda _kb, _key: (),
    AFLOAT: _levels(AFLOAT, (Choice(NOT_YET, learning.NOT_BEFORE),)),
    TOW: _levels(TOW, (Choice(NOT_YET, learning.NOT_BEFORE),)),
    CAUSE: _causes,
    ELSEWHERE: _places,
    HANDS: _levels(HANDS),
}
