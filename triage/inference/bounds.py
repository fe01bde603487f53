"""Where inference starts: what an unanswered scale may be, at best and at worst."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from triage.inference.outcome import Presumed, Start, Withdrawn
from triage.inference.program import program_of
from triage.knowledge.clauses import Clause
from triage.knowledge.model import KnowledgeBase, Presumption
from triage.survey.model import Boat, Finding


def start(kb: KnowledgeBase, boat: Boat, finding: Finding) -> Start:
    """The observed levels at both ends of the range, with the presumptions that hold for this finding."""
    return start_with(kb, finding, holding_presumptions(kb, boat, finding))


def holding_presumptions(kb: KnowledgeBase, boat: Boat, finding: Finding) -> list[Presumption]:
    """The presumptions whose condition holds on what was answered and is known."""
    words = boat.words(kb.zones[finding.zone], finding.side)
    return [
        compiled.presumption
        for compiled in program_of(kb).presumptions_for(finding.zone, finding.sign)
        if any(_holds(clause, finding, words) for clause in compiled.clauses)
    ]


def _holds(clause: Clause, finding: Finding, words: Mapping[str, str]) -> bool:
    answered = finding.answered
    return (
        clause.fits(finding.zone, finding.sign)
        and all(words.get(word) in values for word, values in clause.words)
        and all(scale in answered and answered[scale] <= level for scale, level in clause.bounds)
    )


def start_with(kb: KnowledgeBase, finding: Finding, holding: Iterable[Presumption]) -> Start:
    """The start, given which presumptions hold: the ground rules of presuming.

    Floor: unanswered scales at the best the sign's own picture allows. Ceiling: at the worst it allows, or as presumed.
    A presumption is withdrawn whole when one of its scales was answered worse, or the picture shows worse; it never
    speaks about what its sign is itself a reading of, nor about a named check until one whole set of them is answered.
    """
    answered = finding.answered
    applicable = kb.applicable(finding.zone, finding.sign)
    about = kb.about(finding.zone, finding.sign)
    ways = kb.named_sets(finding.zone, finding.sign)
    barred = set(about)
    if not any(way <= answered.keys() for way in ways):
        barred.update(scale for way in ways for scale in way)

    shown = {scale: level for scale, level in kb.signs[finding.sign].least.items() if scale in applicable}
    floor = {**shown, **answered}
    ceiling = {**{scale: kb.worst(finding.sign, scale) for scale in applicable}, **answered}
    presumed, withdrawn = [], []
    for presumption in holding:
        against = tuple(s for s, level in presumption.presumes if s not in about and floor.get(s, 0) > level)
        if against:
            withdrawn.append(Withdrawn(presumption, against))
            continue
        lowered = tuple(
            (scale, level)
            for scale, level in presumption.presumes
            if scale not in answered and scale not in barred and ceiling.get(scale, 0) > level
        )
        if lowered:
            ceiling.update(lowered)
            presumed.append(Presumed(presumption, lowered))
    return Start(floor, ceiling, tuple(presumed), tuple(withdrawn))
