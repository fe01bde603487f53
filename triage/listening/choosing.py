"""Place and mark together, over what can meet there: what some words may mean, and how sure that is."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field

from triage.knowledge.model import NOTHING_SEEN, KnowledgeBase
from triage.knowledge.per_knowledge import per_knowledge
from triage.listening.likeness import Likeness
from triage.listening.phrase_matcher import PhraseMatcher, stem
from triage.listening.tokens import words_of
from triage.listening.understand import matchers

LISTED, USUAL, OFFERED = 0.0, math.log(0.7), math.log(0.25)
"""Log odds of a mark at a place: told of in a complaint, usual there, or merely possible."""

_PRIOR = 0.25
"""What those count beside the likeness of the words."""

_SHARP = 5.5
"""How much sooner a likeness is taken for certain. Set so that of answers given at 0.8 some nine in ten are right."""

_TOLD = 0.3
"""What a whole complaint counts as words of its place, beside the names of it: most of it tells of the mark."""

_WHOLE = 0.4
"""What a whole complaint of just this place and mark counts."""

_COMPLETE = 0.06
"""What the evidence of phrases that are all there counts: the more words such a phrase has, the more it says."""

_PICTURE = 0.6
"""What a picture in words counts as a phrase."""

MOST_ASKED = 4
"""Candidates that are shown at once."""

Weighed = Sequence[tuple[str, float]]


@dataclass(frozen=True)
class Choice:
    """A mark at a place, and how likely it is that just this is meant, from 0 to 1."""

    zone: str
    sign: str
    sure: float


@dataclass(frozen=True)
class Chosen:
    """What words may mean, likeliest first: marks at places, and how sure place and mark are each by themselves."""

    pairs: tuple[Choice, ...]
    zones: tuple[tuple[str, float], ...]
    signs: tuple[tuple[str, float], ...]
    at: Mapping[str, Choice] = field(default_factory=dict)
    """The likeliest mark at each place."""


@dataclass(frozen=True)
class Ear:
    """What whole stories are compared with."""

    zones: Likeness
    signs: Likeness
    named_zones: PhraseMatcher
    named_signs: PhraseMatcher
    whole: Likeness
    prior: Mapping[tuple[str, str], float]


@per_knowledge
def ear(kb: KnowledgeBase) -> Ear:
    """The words of the knowledge, ready to be compared with."""
    lexicon, speech = kb.lexicon, kb.lexicon.speech

    def stems(phrase: str) -> tuple[str, ...]:
        return content(words_of(phrase, speech.variants), kb)

    zones: dict[str, list[tuple[Sequence[str], float]]] = {}
    signs: dict[str, list[tuple[Sequence[str], float]]] = {}
    for zone in kb.zones.values():
        terms = lexicon.zones.get(zone.id)
        said = [zone.name, *zone.trade.split(","), *(terms.said if terms else ()), *speech.zones.get(zone.id, ())]
        zones[zone.id] = [(stems(one), 1.0) for one in said]
        if terms:
            zones[zone.id].append((stems(terms.picture), _PICTURE))
    for sign in kb.signs.values():
        if sign.id != NOTHING_SEEN:
            own = lexicon.signs.get(sign.id)
            said = [sign.name, *(own.said if own else ()), *speech.signs.get(sign.id, ())]
            signs[sign.id] = [*((stems(one), 1.0) for one in said), (stems(sign.picture), _PICTURE)]
    whole: dict[str, list[tuple[Sequence[str], float]]] = {}
    for place, marks in speech.complaints.items():
        for mark, sentences in marks.items():
            told = [stems(one) for one in sentences]
            whole[f"{place} {mark}"] = [(one, 1.0) for one in told]
            zones[place] += [(one, _TOLD) for one in told]
            signs[mark] += [(one, 1.0) for one in told]
    common = [stem(one) for one in speech.scope.alone]
    return Ear(
        Likeness(zones, common),
        Likeness(signs, common),
        *matchers(kb),
        Likeness(whole),
        _prior(kb),
    )


def _prior(kb: KnowledgeBase) -> dict[tuple[str, str], float]:
    found = {}
    for zone, offered in kb.offers.items():
        told = kb.lexicon.speech.complaints.get(zone, {})
        for sign in offered:
            terms = kb.lexicon.signs.get(sign)
            if sign != NOTHING_SEEN:
                usual = terms is not None and zone in terms.usual_in
                found[zone, sign] = LISTED if sign in told else USUAL if usual else OFFERED
    return found


def content(words: Sequence[str], kb: KnowledgeBase) -> tuple[str, ...]:
    """The stems of the words that say something."""
    return tuple(stem(word) for word in words if word not in kb.lexicon.ignored)


def choose(kb: KnowledgeBase, here: Weighed, around: Mapping[str, float] | None = None) -> Chosen:
    """What these stems may mean. ``around``: how much the words beside them speak for each place."""
    heard = ear(kb)
    of_zones, of_signs, whole = heard.zones.scores(here), heard.signs.scores(here), heard.whole.scores(here)
    for zone, value in heard.named_zones.weigh_stems(here).items():
        of_zones[zone] = of_zones.get(zone, 0.0) + _COMPLETE * value
    for sign, value in heard.named_signs.weigh_stems(here).items():
        of_signs[sign] = of_signs.get(sign, 0.0) + _COMPLETE * value
    for zone, value in (around or {}).items():
        of_zones[zone] = of_zones.get(zone, 0.0) + value
    scores = {}
    for (zone, sign), prior in heard.prior.items():
        if zone in of_zones or sign in of_signs:
            pair = of_zones.get(zone, 0.0) + of_signs.get(sign, 0.0) + _WHOLE * whole.get(f"{zone} {sign}", 0.0)
            scores[zone, sign] = _SHARP * (pair + _PRIOR * prior)
    if not scores:
        return Chosen((), (), ())
    top = max(scores.values())
    odds = {pair: math.exp(score - top) for pair, score in scores.items()}
    total = sum(odds.values())
    places: dict[str, float] = {}
    marks: dict[str, float] = {}
    for (zone, sign), value in odds.items():
        places[zone] = places.get(zone, 0.0) + value / total
        marks[sign] = marks.get(sign, 0.0) + value / total
    ranked = sorted(odds.items(), key=lambda one: -one[1])
    at: dict[str, Choice] = {}
    for (zone, sign), value in ranked:
        at.setdefault(zone, Choice(zone, sign, value / total))
    pairs = tuple(Choice(zone, sign, value / total) for (zone, sign), value in ranked[:12])
    return Chosen(pairs, _ranked(places), _ranked(marks), at)


def _ranked(odds: Mapping[str, float]) -> tuple[tuple[str, float], ...]:
    return tuple(sorted(odds.items(), key=lambda one: -one[1])[:12])
