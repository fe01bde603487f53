"""Resolving somebody's own words to a zone, a sign and a size: "crack where the mast wires bolt on, about an inch".

Every name and phrase of the knowledge is compared with the sentence, word by word and allowing for misspelling. What
comes out are candidates, best first, to be shown and confirmed: nothing is taken for granted, and where no candidate
stands out the answer says so.
"""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from triage.knowledge.model import KnowledgeBase
from triage.knowledge.model.lexicon import SignTerms, SizeUse, ZoneTerms
from triage.knowledge.per_knowledge import per_knowledge
from triage.listening.phrase_matcher import PhraseMatcher, plain_words
from triage.listening.scope import without_denied, without_the_other_side
from triage.listening.sizes import Size, sizes_in
from triage.parsing.quantities import NotAQuantity, in_unit

USUAL = 0.8
"""How much it speaks for a sign that the zone is one where such words usually mean it."""

MEASURED = 2.0
"""How much a size speaks for a sign that is itself a reading of it: litres for water in a closed space."""

CLEAR, AHEAD = 2.0, 1.25
"""A candidate stands out when its evidence reaches the first, and the second times that of the next."""

MAX_CANDIDATES = 5


@dataclass(frozen=True)
class Candidate:
    """A zone or a sign that may be meant: its name and its picture in words."""

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
    """A size as a reading: its scale, how it was said, what it was taken as, whether that is an estimate, and the words
    that bound it.
    """

    scale: str
    said: str
    quantity: str
    estimated: bool
    bound: str = ""

    @property
    def answer(self) -> str:
        """The quantity as an answer, with the words that bound it: "about 40 mm"."""
        return f"{self.bound} {self.quantity}".strip()


def understand(text: str, kb: KnowledgeBase, *, zone: str | None = None) -> Understood:
    """The zones and signs that a sentence may mean. With ``zone`` the zone is settled and only the sign is sought."""
    sizes, rest = sizes_in(text, kb.lexicon.taken_as)
    side, rest = _side(kb, without_denied(kb, without_the_other_side(kb, rest)))
    of_zones, of_signs = (matcher.weigh(rest) for matcher in matchers(kb))
    for sign in _signs_measured_by(kb, sizes):
        of_signs[sign] = of_signs.get(sign, 0.0) + MEASURED
    of_marks = {
        (place, sign): of_zones.get(place, 0.0) + _weight(kb, of_signs, place, sign)
        for place in (kb.zones if zone is None else [zone])
        for sign in kb.offers[place]
        if place in of_zones or sign in of_signs
    }
    zones = _best({}, [(place, weight) for (place, _), weight in of_marks.items()])
    signs = _best({}, [(sign, weight) for (_, sign), weight in of_marks.items() if sign in of_signs])
    return Understood(
        zone=zone or (zones[0] if _stands_out(zones, of_zones) else None),
        sign=signs[0] if _stands_out(signs, of_signs) else None,
        side=side,
        zones=tuple(place_candidate(kb, place) for place in zones[:MAX_CANDIDATES]),
        signs=tuple(mark_candidate(kb, sign) for sign in signs[:MAX_CANDIDATES]),
        sizes=tuple(sizes),
    )


def _signs_measured_by(kb: KnowledgeBase, sizes: Sequence[Size]) -> list[str]:
    """The signs that are themselves readings of such a size. A length may be that of anything and speaks for none."""
    scales = {
        scale
        for size in sizes
        for scale, use in kb.lexicon.readings.items()
        if use.alone and _measures(kb, scale, size.quantity) and not _is_in(size.quantity, "mm")
    }
    return [sign.id for sign in kb.signs.values() if scales.intersection(sign.about)]


def place_candidate(kb: KnowledgeBase, zone: str) -> Candidate:
    """A zone by its name and its picture in words."""
    terms = kb.lexicon.zones.get(zone)
    return Candidate(zone, kb.zones[zone].name, terms.picture if terms else kb.zones[zone].trouble)


def mark_candidate(kb: KnowledgeBase, sign: str) -> Candidate:
    """A sign by its name and its picture in words."""
    return Candidate(sign, kb.signs[sign].name, kb.signs[sign].picture)


def readings_meant(kb: KnowledgeBase, text: str, zone: str, sign: str) -> tuple[Meant, ...]:
    """The sizes in a sentence as readings of this mark, as far as it is judged by any of them."""
    sizes, _ = sizes_in(text, kb.lexicon.taken_as)
    words = plain_words(text)
    found: dict[str, Meant] = {}
    own_first = sorted(kb.applicable(zone, sign), key=lambda scale: scale not in kb.about(zone, sign))
    for size in sizes:
        fitting = [scale for scale in own_first if _measures(kb, scale, size.quantity)]
        beside = [scale for scale in fitting if any(plain_words(word) in words for word in _use(kb, scale).beside)]
        alone = [scale for scale in fitting if _use(kb, scale).alone]
        for scale in (beside or alone)[:1]:
            found.setdefault(scale, Meant(scale, size.said, size.quantity, size.estimated, size.bound))
    return tuple(found.values())


def asked_for(kb: KnowledgeBase, text: str) -> str | None:
    """The outcome that a sentence asks about ("can I go out in light wind?"), if it does."""
    words = plain_words(text)
    return next((outcome for outcome, said in kb.lexicon.asking.items() if _says(words, said)), None)


def could_not_tell(kb: KnowledgeBase, text: str) -> bool:
    """Whether a sentence says that somebody could not tell ("can't reach under there")."""
    return _says(plain_words(text), kb.lexicon.could_not_tell)


def _says(words: str, phrases: Sequence[str]) -> bool:
    return any(f" {plain_words(phrase).strip()} " in words for phrase in phrases)


def _use(kb: KnowledgeBase, scale: str) -> SizeUse:
    return kb.lexicon.readings.get(scale, SizeUse((), alone=False))


def _measures(kb: KnowledgeBase, scale: str, quantity: str) -> bool:
    measure = kb.scales[scale].measure
    return measure is not None and scale in kb.lexicon.readings and _is_in(quantity, measure.unit)


def _is_in(quantity: str, unit: str) -> bool:
    try:
        in_unit(quantity, unit)
    except NotAQuantity:
        return False
    return True


def _side(kb: KnowledgeBase, text: str) -> tuple[str | None, str]:
    """The side that a sentence names, and the sentence without it; none when it names both."""
    found: dict[str, None] = {}
    for side, phrases in kb.lexicon.sides.items():
        for phrase in sorted(phrases, key=len, reverse=True):
            text, count = re.subn(rf"\b{re.escape(phrase)}\b", " ", text, flags=re.IGNORECASE)
            if count:
                found[side] = None
    return (next(iter(found)) if len(found) == 1 else None), text


def _weight(kb: KnowledgeBase, of_signs: Mapping[str, float], zone: str, sign: str) -> float:
    if sign not in of_signs:
        return 0.0
    terms = kb.lexicon.signs.get(sign)
    return of_signs[sign] + (USUAL if terms and zone in terms.usual_in else 0.0)


def _best(known: dict[str, float], weighed: Sequence[tuple[str, float]]) -> list[str]:
    """Each id once, by its greatest weight."""
    for id_, weight in weighed:
        known[id_] = max(weight, known.get(id_, 0.0))
    return sorted(known, key=lambda id_: -known[id_])


def _stands_out(ids: Sequence[str], evidence: Mapping[str, float]) -> bool:
    first, second, *_ = [*(evidence.get(id_, 0.0) for id_ in ids[:2]), 0.0, 0.0]
    return first >= CLEAR and first >= AHEAD * second


@per_knowledge
def matchers(kb: KnowledgeBase) -> tuple[PhraseMatcher, PhraseMatcher]:
    """The matchers of zones and of signs."""
    lexicon = kb.lexicon
    zones = {
        zone.id: [*_said(lexicon.zones.get(zone.id)), zone.name, *zone.trade.split(",")] for zone in kb.zones.values()
    }
    signs = {sign.id: [*_said(lexicon.signs.get(sign.id)), sign.name] for sign in kb.signs.values()}
    return PhraseMatcher(zones, signs, lexicon), PhraseMatcher(signs, zones, lexicon)


def _said(terms: ZoneTerms | SignTerms | None) -> tuple[str, ...]:
    return terms.said if terms else ()
