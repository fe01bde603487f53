"""Which places the sentences of a story speak of, and by what a place is judged."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from triage.knowledge.model import NOTHING_SEEN, KnowledgeBase
from triage.knowledge.per_knowledge import per_knowledge
from triage.listening.choosing import ear
from triage.listening.clauses import Sentence
from triage.listening.naming import places_named
from triage.listening.parts import asides
from triage.listening.tokens import Token

_NEAR = 0.3
"""What the rest of a sentence says about the place counts for a clause that names one."""


def places_told(kb: KnowledgeBase, sentence: Sentence) -> dict[str, float]:
    """How much a sentence speaks for each place, if it names any."""
    said = [token for clause in sentence for token in clause.tokens if token.word not in kb.lexicon.ignored]
    named = places_named(kb).named(token.stem for token in said)
    if not named:
        return {}
    scores = ear(kb).zones.scores([(token.stem, 1.0) for token in said])
    return {zone: value for zone, value in scores.items() if zone in named}


def everywhere_told(kb: KnowledgeBase, told: Sequence[Sentence]) -> dict[str, float]:
    """How much the whole story speaks for each place: the most that any sentence of it does."""
    found: dict[str, float] = {}
    for sentence in told if len(told) > 1 else ():
        for zone, value in places_told(kb, sentence).items():
            found[zone] = max(value, found.get(zone, 0.0))
    return found


def ranked(kb: KnowledgeBase, tokens: Sequence[Token], around: Mapping[str, float]) -> tuple[str, ...]:
    """The places that the words name, the likeliest first; rather not one that another lies near."""
    aside = asides(kb, [token.word for token in tokens])
    said = [(token.stem, at in aside) for at, token in enumerate(tokens) if token.word not in kb.lexicon.ignored]
    stems = [stem for stem, _ in said]
    named = places_named(kb).named(stem for stem, near in said if not near) or places_named(kb).named(stems)
    scores = ear(kb).zones.scores([(stem, 1.0) for stem in stems]) if named else {}
    likely = {zone: scores.get(zone, 0.0) + _NEAR * around.get(zone, 0.0) for zone in named}
    return tuple(sorted(likely, key=lambda zone: (likely[zone], zone), reverse=True))


def likeliest(places: Mapping[str, float]) -> tuple[str, ...]:
    """The likeliest of the places, alone; none where there are none."""
    return (max(places, key=lambda zone: (places[zone], zone)),) if places else ()


@per_knowledge
def fitting(kb: KnowledgeBase, zone: str) -> frozenset[str]:
    """The scales by which the place, or a mark there, is judged."""
    judged = {scale for sign in kb.offers[zone] for scale in kb.signs[sign].scales}
    return frozenset((*judged, *kb.applicable(zone, NOTHING_SEEN)))
