"""Where inference starts: what an unanswered scale may be, at best and at worst."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from triage.inference.evaluation import Defeated, InitialState, Presumed
from triage.inference.program import program_of
from triage.knowledge.compiled.conjuncts import Conjunct
from triage.knowledge.model import KnowledgeBase, Presumption
from triage.survey.model import Boat, Finding


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
    applicable = kb.applicable(finding.zone, finding.sign)
    about = kb.about(finding.zone, finding.sign)
    ways = kb.named_sets(finding.zone, finding.sign)
    barred = set(about)
    if not any(way <= answered.keys() for way in ways):
        barred.update(scale for way in ways for scale in way)

    shown = {scale: level for scale, level in kb.signs[finding.sign].least.items() if scale in applicable}
    lower = {**shown, **{scale: max(level, shown.get(scale, 0)) for scale, level in finding.lower.items()}}
    upper = {**{scale: kb.worst(finding.sign, scale) for scale in applicable}, **answered}
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
