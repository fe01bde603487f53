"""Place and mark together, over what can meet there: what some words may mean, and how sure that is."""

from __future__ import annotations

import math
from array import array
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field

from triage.knowledge.model import NOTHING_SEEN, KnowledgeBase
from triage.knowledge.per_knowledge import per_knowledge
from triage.listening.features import Numbered
from triage.listening.likeness import Likeness
from triage.listening.phrase_matcher import PhraseMatcher, stem
from triage.listening.tokens import words_of
from triage.listening.understand import matchers

_SHARP = 4.5
"""How much sooner a likeness is taken for certain. Set so that of answers given at 0.8 some nine in ten are right."""

_TOLD = 0.3
"""What a whole complaint counts as words of its place, beside the names of it: most of it tells of the mark."""

_WHOLE = 0.5
"""What a whole complaint of just this place and mark counts."""

_EXPLAINED = 0.5
"""What it counts how well place and mark explain the words together."""

_AROUND = 1.5
"""What counts what the words beside say of the place."""

_COMPLETE = 0.05
"""What the evidence of phrases that are all there counts: the more words such a phrase has, the more it says."""

_BY_PLACE, _BY_MARK, _BY_BOTH, _BY_NEITHER = 0.35, 0.35, 0.15, 0.15
"""How many of the words of a complaint are told by what."""

_KEPT = 250
"""Words of which it is kept how likely each mark tells them: some 4 KB for each."""

_PICTURE = 0.6
"""What a picture in words counts as a phrase."""

_FITS = 0.05
"""How likely a mark must be for words to fit it at a place that is certain, whatever they would mean elsewhere."""

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
    marks: Mapping[tuple[str, str], tuple[int, int, int]]
    """Every mark at every place where it can be, and which it is among places, marks and whole complaints."""
    told: dict[str, array[float]] = field(default_factory=dict)
    """How likely each of them tells a word, of the last words that were heard."""


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
    whole: dict[tuple[str, str], list[tuple[Sequence[str], float]]] = {
        (zone, sign): [] for zone, offered in kb.offers.items() for sign in offered if sign != NOTHING_SEEN
    }
    for place, marks in speech.complaints.items():
        for mark, sentences in marks.items():
            told = [stems(one) for one in sentences]
            whole[place, mark] = [(one, 1.0) for one in told]
            zones[place] += [(one, _TOLD) for one in told]
            signs[mark] += [(one, 1.0) for one in told]
    common = [stem(one) for one in speech.scope.alone]
    at, of = ({one: number for number, one in enumerate(some)} for some in (zones, signs))
    places = Numbered()
    return Ear(
        Likeness(zones, common, places),
        Likeness(signs, common, places),
        *matchers(kb),
        Likeness({f"{zone} {sign}": said for (zone, sign), said in whole.items()}, (), places),
        {(zone, sign): (at[zone], of[sign], number) for number, (zone, sign) in enumerate(whole)},
    )


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
        of_zones[zone] = of_zones.get(zone, 0.0) + _AROUND * value
    scores = {
        (zone, sign): _SHARP
        * (
            of_zones.get(zone, 0.0)
            + of_signs.get(sign, 0.0)
            + _WHOLE * whole.get(f"{zone} {sign}", 0.0)
            + _EXPLAINED * explained
        )
        for (zone, sign), explained in zip(heard.marks, _explained(heard, here), strict=True)
        if zone in of_zones or sign in of_signs
    }
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


def without(kb: KnowledgeBase, chosen: Chosen, scales: frozenset[str]) -> Chosen:
    """What is left where the words themselves say that all is well by these scales: "worn but turning" is no wheel
    that will not turn.
    """
    against = {sign for sign in kb.signs for scale in scales.intersection(kb.signs[sign].about) if kb.best(sign, scale)}
    return _only(chosen, [one for one in chosen.pairs if one.sign not in against])


def at_place(chosen: Chosen, zone: str) -> Chosen:
    """What the words may mean where their place is certain; nothing if they hardly fit anything there."""
    return _only(chosen, [one for one in chosen.pairs if one.zone == zone and one.sure >= _FITS])


def _only(chosen: Chosen, kept: Sequence[Choice]) -> Chosen:
    if len(kept) == len(chosen.pairs):
        return chosen
    left = sum(one.sure for one in kept)
    pairs = tuple(Choice(one.zone, one.sign, one.sure / left) for one in kept)
    places, marks = ({getattr(one, name): 0.0 for one in pairs} for name in ("zone", "sign"))
    at: dict[str, Choice] = {}
    for one in pairs:
        places[one.zone] += one.sure
        marks[one.sign] += one.sure
        at.setdefault(one.zone, one)
    return Chosen(pairs, _ranked(places), _ranked(marks), at)


def _explained(heard: Ear, here: Weighed) -> list[float]:
    """How well each mark at its place explains the words, on average of the words.

    A word is told by the place, by the mark, by just this mark at this place, or by neither; so it is explained once:
    "hatch" says nothing of a mark that is often told of at hatches where the place has explained it already.
    """
    found, words = [0.0] * len(heard.marks), 0.0
    for word, weight in here:
        if usual := (heard.zones.often(word) + heard.signs.often(word)) / 2:
            found = [value + weight * one for value, one in zip(found, _told(heard, word, usual), strict=True)]
            words += weight
    return [value / (words or 1.0) for value in found]


def _told(heard: Ear, word: str, usual: float) -> array[float]:
    """How likely each mark at its place tells the word, as log odds."""
    if word not in heard.told:
        if len(heard.told) >= _KEPT:
            heard.told.clear()
        places = [_BY_PLACE * share for share in heard.zones.shares(word, usual)]
        marks = [_BY_MARK * share + _BY_NEITHER for share in heard.signs.shares(word, usual)]
        both = [_BY_BOTH * share for share in heard.whole.shares(word, usual)]
        told = (math.log(places[zone] + marks[sign] + both[pair]) for zone, sign, pair in heard.marks.values())
        heard.told[word] = array("f", told)
    return heard.told[word]


def _ranked(odds: Mapping[str, float]) -> tuple[tuple[str, float], ...]:
    return tuple(sorted(odds.items(), key=lambda one: -one[1])[:12])
