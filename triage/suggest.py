"""Which checks could settle an open finding, most useful first."""

from __future__ import annotations

from triage.assessment import Range, Suggestion
from triage.explain import is_open, range_of
from triage.inference.outcome import Judged
from triage.knowledge.model import AFLOAT, TOW, VERDICT, Check, KnowledgeBase
from triage.whatif import WhatIf

PENALTY = {"none": 1.0, "partial": 3.0, "off": 8.0}
"""How much dearer a minute is when something has to come off first (estimate)."""


def effort(check: Check) -> float:
    """Minutes, weighted by what has to be taken apart."""
    return check.minutes * PENALTY[check.dismantling]


def suggestions(kb: KnowledgeBase, judged: Judged, whatif: WhatIf) -> tuple[Suggestion, ...]:
    """Checks on an open finding, in the order in which they are worth making.

    A check is worth making when some answer to it changes what is concluded. Named checks come first, because nothing
    settles without them; then those whose good answer leaves the fewest others to make, per minute of effort.
    """
    if not is_open(judged):
        return ()
    risky = _risky(judged, whatif, {})
    named = {scale for way in kb.named_sets(judged.finding.zone, judged.finding.sign) for scale in way}
    ranked = []
    for scale in whatif.unanswered:
        checks = kb.checks_for(scale, judged.finding.zone)
        best = whatif.judged({scale: whatif.levels(scale)[0]})
        worst = whatif.judged({scale: whatif.levels(scale)[-1]})
        if not checks or (scale not in risky and _worst(best) == _worst(judged)):
            continue
        closed = len(risky) - len(_risky(best, whatif, {scale: whatif.levels(scale)[0]}))
        gain = closed + sum(_worst(judged)) - sum(_worst(best))
        suggestion = _suggestion(kb, whatif, scale, checks[0], best, worst)
        ranked.append(((scale not in named, -gain / effort(checks[0]), scale), suggestion))
    return tuple(suggestion for _, suggestion in sorted(ranked, key=lambda pair: pair[0]))


def _risky(judged: Judged, whatif: WhatIf, given: dict[str, int]) -> set[str]:
    """Unanswered scales which alone, at the worst still possible, would make the outcome graver than its best."""
    found = set()
    for scale in whatif.unanswered:
        worst = judged.ceiling.level(scale)
        if scale not in given and worst > 0:
            then = whatif.judged({**given, scale: worst})
            if _best(then) > _best(judged) and _best(then) != _best(judged):
                found.add(scale)
    return found


def _best(judged: Judged) -> tuple[int, ...]:
    return tuple(judged.floor.level(scale) for scale in (VERDICT, AFLOAT, TOW))


def _worst(judged: Judged) -> tuple[int, ...]:
    return tuple(judged.ceiling.level(scale) for scale in (VERDICT, AFLOAT, TOW))


def _suggestion(kb: KnowledgeBase, whatif: WhatIf, scale: str, check: Check, best: Judged, worst: Judged) -> Suggestion:
    levels = kb.scales[scale].levels
    steps = whatif.levels(scale)
    return Suggestion(
        check=check.id,
        name=check.name,
        scale=scale,
        question=kb.scales[scale].asks,
        minutes=check.minutes,
        dismantling=check.dismantling,
        helper=check.helper,
        tools=check.tools,
        steps=check.steps,
        care=check.care,
        if_good=f"If {levels[steps[0]].phrase}: {in_words(range_of(kb, best, VERDICT))}.",
        if_bad=f"If {levels[steps[-1]].phrase}: {in_words(range_of(kb, worst, VERDICT))}.",
    )


def in_words(verdict: Range) -> str:
    """A range of verdicts as a person would say it."""
    return verdict.best if verdict.settled else f"still between {verdict.best} and {verdict.worst}"
