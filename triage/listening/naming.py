"""Which places and marks a row of words names outright, by a phrase of theirs; common words alone name nothing."""

from __future__ import annotations

from collections import Counter, defaultdict
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass

from triage.knowledge.model import NOTHING_SEEN, KnowledgeBase
from triage.knowledge.per_knowledge import per_knowledge
from triage.listening.choosing import content, ear
from triage.listening.phrase_matcher import stem
from triage.listening.tokens import words_of

_LONGEST = 3
"""Words of a phrase that names something by being all there, in whatever order."""

_AS_LIKE = 0.75
"""What part of the greatest likeness still tells no mark from another, where no place is known: "no cracks"."""

Stems = frozenset[str]


@dataclass(frozen=True)
class Names:
    """Phrases as sets of stems, each found by its rarest stem."""

    by_stem: Mapping[str, tuple[tuple[Stems, str], ...]]
    weak: frozenset[str] = frozenset()

    def named(self, stems: Iterable[str], *, sized: bool = False) -> dict[str, int]:
        """The things of which a whole phrase stands in the words, and how many words it has.

        ``sized``: a figure stands beside them, with which a common word says enough ("rocks 2 mm").
        """
        here = frozenset(stems)
        found: dict[str, int] = {}
        for one in here:
            for phrase, owner in self.by_stem.get(one, ()):
                if phrase <= here and (sized or not phrase <= self.weak or len(phrase) > 1):
                    found[owner] = max(len(phrase), found.get(owner, 0))
        return found

    def all_told(self, stems: Iterable[str]) -> bool:
        """Whether the words are names of things and nothing else."""
        here = frozenset(stems)
        return here <= {
            one for stem in here for phrase, _ in self.by_stem.get(stem, ()) if phrase <= here for one in phrase
        }


@per_knowledge
def marks_named(kb: KnowledgeBase) -> Names:
    """What people call the marks."""
    own, also = kb.lexicon.signs, kb.lexicon.speech.signs
    return _names(
        kb,
        {
            sign.id: [sign.name, *(own[sign.id].said if sign.id in own else ()), *also.get(sign.id, ())]
            for sign in kb.signs.values()
            if sign.id != NOTHING_SEEN
        },
        kb.lexicon.speech.scope.alone,
    )


def likeliest_named(kb: KnowledgeBase, stems: Sequence[str], places: Sequence[str]) -> tuple[str, str]:
    """The likeliest of the marks named that can be at the first of the places where any can, and that place.

    Where none can be at any of them, it is the one that is told of at the most places, and no place ("").
    The stems name at least one mark.
    """
    scores = ear(kb).signs.scores([(one, 1.0) for one in stems])
    likest = sorted(marks_named(kb).named(stems), key=lambda sign: (scores.get(sign, 0.0), sign), reverse=True)
    for place in places:
        if can_be := [sign for sign in likest if sign in kb.offers[place]]:
            return can_be[0], place
    told = Counter(sign for marks in kb.lexicon.speech.complaints.values() for sign in marks)
    as_like = (sign for sign in likest if scores.get(sign, 0.0) >= _AS_LIKE * scores.get(likest[0], 0.0))
    return max(as_like, key=lambda sign: told[sign]), ""


@per_knowledge
def places_named(kb: KnowledgeBase) -> Names:
    """What people call the places."""
    own, also = kb.lexicon.zones, kb.lexicon.speech.zones
    return _names(
        kb,
        {
            zone.id: [
                zone.name,
                *zone.trade.split(","),
                *(own[zone.id].said if zone.id in own else ()),
                *also.get(zone.id, ()),
            ]
            for zone in kb.zones.values()
        },
        kb.lexicon.speech.scope.directions,
    )


def _names(kb: KnowledgeBase, said: Mapping[str, Iterable[str]], common: Iterable[str]) -> Names:
    speech = kb.lexicon.speech
    weak = frozenset(stem(word) for word in common)
    sets = {
        (frozenset(content(words_of(phrase, speech.variants), kb)), owner)
        for owner, phrases in said.items()
        for phrase in phrases
    }
    sets = {(some, owner) for some, owner in sets if 0 < len(some) <= _LONGEST}
    spread = Counter(one for some, _ in sets for one in some)
    rows: dict[str, list[tuple[Stems, str]]] = defaultdict(list)
    for some, owner in sorted(sets, key=lambda one: (sorted(one[0]), one[1])):
        rows[min(some, key=lambda one: (spread[one], one))].append((some, owner))
    return Names({one: tuple(row) for one, row in rows.items()}, weak)
