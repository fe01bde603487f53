"""From somebody's own words to a place, a mark and a size: "crack where the mast wires bolt on, about an inch".

Every name and phrase of the knowledge is compared with the sentence, word by word and allowing for misspelling. What
comes out are candidates, best first, to be shown and confirmed: nothing is taken for granted, and where no candidate
stands out the answer says so.
"""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from weakref import WeakKeyDictionary

from triage.knowledge.model import KnowledgeBase
from triage.knowledge.model.lexicon import SizeUse
from triage.listening.phrase_matcher import PhraseMatcher, plain_words
from triage.listening.sizes import Size, sizes_in
from triage.parsing.quantities import NotAQuantity, in_unit

USUAL = 0.8
"""How much it speaks for a mark that the place is one where such words usually mean it."""

MEASURED = 2.0
"""How much a size speaks for a mark that is itself a reading of it: litres for water in a closed space."""

CLEAR, AHEAD = 2.0, 1.25
"""A candidate stands out when its evidence reaches the first, and the second times that of the next."""

MOST_CANDIDATES = 5


@dataclass(frozen=True)
class Candidate:
    """A place or a mark that may be meant: its name and its picture in words."""

    id: str
    name: str
    picture: str


@dataclass(frozen=True)
class Understood:
    """What a sentence may mean. ``zone`` and ``sign`` are None where none stands out; candidates are best first."""

    zone: str | None
    sign: str | None
    side: str | None
    zones: tuple[Candidate, ...]
    signs: tuple[Candidate, ...]
    sizes: tuple[Size, ...]


@dataclass(frozen=True)
class Meant:
    """A size as a reading: its scale, how it was said, what it was taken as, and whether that is an estimate."""

    scale: str
    said: str
    quantity: str
    estimated: bool


def understand(text: str, kb: KnowledgeBase, *, zone: str | None = None) -> Understood:
    """The places and marks that a sentence may mean. With ``zone`` the place is settled and only the mark is sought."""
    sizes, rest = sizes_in(text, kb.words.taken_as)
    side, rest = _side(kb, rest)
    places, marks = (hearing.weigh(rest) for hearing in _hearings(kb))
    for mark in _told_by(kb, sizes):
        marks[mark] = marks.get(mark, 0.0) + MEASURED
    together = {
        (place, mark): places.get(place, 0.0) + _weight(kb, marks, place, mark)
        for place in (kb.zones if zone is None else [zone])
        for mark in kb.offers[place]
        if place in places or mark in marks
    }
    zones = _best({}, [(place, weight) for (place, _), weight in together.items()])
    signs = _best({}, [(mark, weight) for (_, mark), weight in together.items() if mark in marks])
    return Understood(
        zone=zone or (zones[0] if _stands_out(zones, places) else None),
        sign=signs[0] if _stands_out(signs, marks) else None,
        side=side,
        zones=tuple(place_candidate(kb, place) for place in zones[:MOST_CANDIDATES]),
        signs=tuple(mark_candidate(kb, mark) for mark in signs[:MOST_CANDIDATES]),
        sizes=tuple(sizes),
    )


def _told_by(kb: KnowledgeBase, sizes: Sequence[Size]) -> list[str]:
    """The marks that are themselves readings of such a size. A length may be that of anything, so it tells of none."""
    scales = {
        scale
        for size in sizes
        for scale, use in kb.words.readings.items()
        if use.alone and _measures(kb, scale, size.quantity) and not _is_in(size.quantity, "mm")
    }
    return [sign.id for sign in kb.signs.values() if scales.intersection(sign.about)]


def place_candidate(kb: KnowledgeBase, zone: str) -> Candidate:
    """A place by its name and its picture in words."""
    known = kb.words.zones.get(zone)
    return Candidate(zone, kb.zones[zone].name, known.picture if known else kb.zones[zone].trouble)


def mark_candidate(kb: KnowledgeBase, sign: str) -> Candidate:
    """A mark by its name and its picture in words."""
    return Candidate(sign, kb.signs[sign].name, kb.signs[sign].picture)


def readings_meant(kb: KnowledgeBase, text: str, zone: str, sign: str) -> tuple[Meant, ...]:
    """The sizes in a sentence as readings of this mark, as far as it is judged by any of them."""
    sizes, _ = sizes_in(text, kb.words.taken_as)
    words = plain_words(text)
    found: dict[str, Meant] = {}
    own_first = sorted(kb.applicable(zone, sign), key=lambda scale: scale not in kb.about(zone, sign))
    for size in sizes:
        fitting = [scale for scale in own_first if _measures(kb, scale, size.quantity)]
        beside = [scale for scale in fitting if any(plain_words(word) in words for word in _use(kb, scale).beside)]
        alone = [scale for scale in fitting if _use(kb, scale).alone]
        for scale in (beside or alone)[:1]:
            found.setdefault(scale, Meant(scale, size.said, size.quantity, size.estimated))
    return tuple(found.values())


def asked_for(kb: KnowledgeBase, text: str) -> str | None:
    """The outcome that a sentence asks about ("can I go out in light wind?"), if it does."""
    words = plain_words(text)
    return next((outcome for outcome, said in kb.words.asking.items() if _says(words, said)), None)


def could_not_tell(kb: KnowledgeBase, text: str) -> bool:
    """Whether a sentence says that somebody could not tell ("can't reach under there")."""
    return _says(plain_words(text), kb.words.could_not_tell)


def _says(words: str, phrases: Sequence[str]) -> bool:
    return any(f" {plain_words(phrase).strip()} " in words for phrase in phrases)


def _use(kb: KnowledgeBase, scale: str) -> SizeUse:
    return kb.words.readings.get(scale, SizeUse((), alone=False))


def _measures(kb: KnowledgeBase, scale: str, quantity: str) -> bool:
    measure = kb.scales[scale].measure
    return measure is not None and scale in kb.words.readings and _is_in(quantity, measure.unit)


def _is_in(quantity: str, unit: str) -> bool:
    try:
        in_unit(quantity, unit)
    except NotAQuantity:
        return False
    return True


def _side(kb: KnowledgeBase, text: str) -> tuple[str | None, str]:
    """The side that a sentence names, and the sentence without it; none when it names both."""
    found: dict[str, None] = {}
    for side, phrases in kb.words.sides.items():
        for phrase in sorted(phrases, key=len, reverse=True):
            text, count = re.subn(rf"\b{re.escape(phrase)}\b", " ", text, flags=re.IGNORECASE)
            if count:
                found[side] = None
    return (next(iter(found)) if len(found) == 1 else None), text


def _weight(kb: KnowledgeBase, marks: Mapping[str, float], place: str, mark: str) -> float:
    if mark not in marks:
        return 0.0
    return marks[mark] + (USUAL if mark in kb.words.signs and place in kb.words.signs[mark].usual_in else 0.0)


def _best(known: dict[str, float], weighed: Sequence[tuple[str, float]]) -> list[str]:
    """Each id once, by its greatest weight."""
    for id_, weight in weighed:
        known[id_] = max(weight, known.get(id_, 0.0))
    return sorted(known, key=lambda id_: -known[id_])


def _stands_out(ids: Sequence[str], evidence: Mapping[str, float]) -> bool:
    first, second, *_ = [*(evidence.get(id_, 0.0) for id_ in ids[:2]), 0.0, 0.0]
    return first >= CLEAR and first >= AHEAD * second


_known: WeakKeyDictionary[KnowledgeBase, tuple[PhraseMatcher, PhraseMatcher]] = WeakKeyDictionary()


def _hearings(kb: KnowledgeBase) -> tuple[PhraseMatcher, PhraseMatcher]:
    """What listens for places and for marks; made once for each knowledge base."""
    if kb not in _known:
        said = kb.words
        places = {
            zone.id: [*(said.zones[zone.id].said if zone.id in said.zones else ()), zone.name, *zone.trade.split(",")]
            for zone in kb.zones.values()
        }
        marks = {
            sign.id: [*(said.signs[sign.id].said if sign.id in said.signs else ()), sign.name]
            for sign in kb.signs.values()
        }
        _known[kb] = (PhraseMatcher(places, marks, said), PhraseMatcher(marks, places, said))
    return _known[kb]
