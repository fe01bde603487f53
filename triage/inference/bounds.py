"""Where inference starts: what an unanswered scale may be, at best and at worst."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from triage.inference.evaluation import Defeated, InitialState, Presumed
from triage.inference.program import program_of
from triage.knowledge.compiled.conjuncts import Conjunct
from triage.knowledge.model import KnowledgeBase, Presumption
from triage.knowledge.per_knowledge import per_knowledge
from triage.survey.model import Boat, Finding


@dataclass(frozen=True)
class Picture:
    """What a sign in a zone is before anything was answered.

    ``shown`` are the levels that its picture shows, where not 0, ``worst`` the worst that it allows; ``about`` the
    scales that it is itself a reading of; ``ways`` the sets of named checks; ``barred`` all that no presumption may
    speak about while none of these sets is complete.
    """

    shown: Mapping[str, int]
    worst: Mapping[str, int]
    about: frozenset[str]
    ways: tuple[frozenset[str], ...]
    barred: frozenset[str]


@per_knowledge
def picture_of(kb: KnowledgeBase, zone: str, sign: str) -> Picture:
    """The picture of a sign in a zone."""
    applicable, ways = kb.applicable(zone, sign), kb.named_sets(zone, sign)
    about = frozenset(kb.about(zone, sign))
    return Picture(
        shown={scale: level for scale, level in kb.signs[sign].least.items() if scale in applicable},
        worst={scale: kb.worst(sign, scale) for scale in applicable},
        about=about,
        ways=ways,
        barred=about.union(*ways),
    )


def initial_state(kb: KnowledgeBase, boat: Boat, finding: Finding) -> InitialState:
    """The observed levels at both ends of the range, with the presumptions that hold for this finding."""
    return initial_state_given(kb, finding, holding_presumptions(kb, boat, finding))


def holding_presumptions(kb: KnowledgeBase, boat: Boat, finding: Finding) -> list[Presumption]:
    """The presumptions whose condition holds on what was answered and is known."""
    words = boat.words(kb.zones[finding.zone], finding.side)
    return [
        compiled.presumption
        for compiled in program_of(kb).presumptions_for(finding.zone, finding.sign)
        if any(_holds(conjunct, finding, words) for conjunct in compiled.conjuncts)
    ]


def _holds(conjunct: Conjunct, finding: Finding, words: Mapping[str, str]) -> bool:
    answered = finding.upper
    return (
        conjunct.fits(finding.zone, finding.sign)
        and all(words.get(word) in values for word, values in conjunct.words)
        and all(scale in answered and answered[scale] <= level for scale, level in conjunct.bounds)
    )


def initial_state_given(kb: KnowledgeBase, finding: Finding, holding: Iterable[Presumption]) -> InitialState:
    """The start, given which presumptions hold: the ground rules of presuming.

    Lower: answers at their low end, unanswered scales at the best the sign's own picture allows. Upper: answers at
    their high end, all else at the worst it allows, or as presumed.
    A presumption is defeated whole when one of its scales was answered worse, or the picture shows worse; it never
    speaks about what its sign is itself a reading of, nor about a named check until one whole set of them is answered.
    """
    answered = finding.upper
    picture = picture_of(kb, finding.zone, finding.sign)
    about, shown = picture.about, picture.shown
    barred = about
    if not any(way <= answered.keys() for way in picture.ways):
        barred = picture.barred

    lower = {**shown, **{scale: max(level, shown.get(scale, 0)) for scale, level in finding.lower.items()}}
    upper = {**picture.worst, **answered}
    presumed, defeated = [], []
    for presumption in holding:
        against = tuple(
            s
            for s, level in presumption.presumes
            if s not in about and max(shown.get(s, 0), answered.get(s, 0)) > level
        )
        if against:
            defeated.append(Defeated(presumption, against))
            continue
        lowered = tuple(
            (scale, level)
            for scale, level in presumption.presumes
            if scale not in answered and scale not in barred and upper.get(scale, 0) > level
        )
        if lowered:
            upper.update(lowered)
            presumed.append(Presumed(presumption, lowered))
    return InitialState(lower, upper, tuple(presumed), tuple(defeated))
