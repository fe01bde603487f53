"""Of which findings a promise speaks by what was answered of them: as a formula, and as a check of a finding."""

from __future__ import annotations

from collections.abc import Collection

from triage.knowledge.compiled.reads import suspected_marks
from triage.knowledge.model import KnowledgeBase
from triage.knowledge.model.promise import Promise
from triage.proof.scopes import ZoneSign
from triage.proof.symbolic import Formula, both, either, no
from triage.proof.symbolic_finding import SymbolicFinding
from triage.survey.model import Finding


def may_speak(kb: KnowledgeBase, promise: Promise, pair: ZoneSign) -> bool:
    """Whether it speaks of any such mark at all."""
    return (not promise.of_suspicions or pair in suspected_marks(kb)) and all(ways(kb, promise, pair))


def speaks(kb: KnowledgeBase, promise: Promise, finding: SymbolicFinding) -> Formula:
    """What must not have been answered has not been; and nothing worse than it may."""
    if not may_speak(kb, promise, (finding.zone, finding.sign)):
        return False
    told = [*finding.answered] if promise.of_suspicions else promise.not_answered
    open_ = [no(finding.answered.get(scale, False)) for scale in told]
    incomplete = [
        no(either(both(finding.answered.get(scale, False) for scale in way) for way in some))
        for some in ways(kb, promise, (finding.zone, finding.sign))
    ]
    worse = finding.high.items() if promise.answered_well else ()
    well = [
        no(both((finding.answered[scale], high)))
        for (scale, level), high in worse
        if level > kb.best(finding.sign, scale)
    ]
    return both((*open_, *incomplete, *well))


def is_spoken_of(kb: KnowledgeBase, promise: Promise, finding: Finding) -> bool:
    """The same of a finding that somebody told."""
    pair, answered = (finding.zone, finding.sign), finding.answered
    if not may_speak(kb, promise, pair) or any(scale in answered for scale in promise.not_answered):
        return False
    if promise.of_suspicions and answered:
        return False
    if any(way <= answered for some in ways(kb, promise, pair) for way in some):
        return False
    return not promise.answered_well or all(
        level <= kb.best(finding.sign, scale) for scale, level in finding.upper.items()
    )


def ways(kb: KnowledgeBase, promise: Promise, pair: ZoneSign) -> list[Collection[frozenset[str]]]:
    """The sets of checks of which it says that not one is complete."""
    named = [kb.named_sets(*pair)] if promise.named_checks_missing else []
    passing = [[frozenset(way) for way in kb.zones[pair[0]].passed_by]] if promise.passing_checks_missing else []
    return [*named, *passing]
