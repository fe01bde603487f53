"""Questions, checks and answers as somebody is told them, with what an answer would come to."""

from __future__ import annotations

from collections.abc import Mapping

from triage.conclusions.checks import OpenCheck, Outcome
from triage.conclusions.ranges import range_of
from triage.inference.whatif import WhatIf
from triage.knowledge.model import VERDICT, Check, KnowledgeBase
from triage.survey.model import Finding

FINDING_OUT = 3.0
"""Minutes to find out a fact about the boat (estimate)."""


def open_check(
    kb: KnowledgeBase, finding: Finding, ask: str, check: Check | None, outcomes: tuple[Outcome, ...] = ()
) -> OpenCheck:
    """How to answer a scale by this check, or, without one, how to find out a fact about the boat."""
    zone = kb.zones[finding.zone]
    return OpenCheck(
        check=check.id if check else "",
        name=check.name if check else question_of(kb, ask),
        scale=ask,
        question=question_of(kb, ask),
        zone=zone.id,
        place=zone.name,
        side=finding.side,
        minutes=check.minutes if check else FINDING_OUT,
        dismantling=check.dismantling if check else "none",
        helper=check.helper if check else False,
        tools=check.tools if check else (),
        steps=check.steps if check else (how_to_find_out(kb, ask),),
        care=check.care if check else "",
        wait=check.wait if check else None,
        outcomes=outcomes,
        loads=check.loads if check else False,
    )


def outcome_of(kb: KnowledgeBase, whatif: WhatIf, ask: str, answer: int | str) -> Outcome:
    """What this answer would come to."""
    level, value = (answer, "") if isinstance(answer, int) else (None, answer)
    verdict = range_of(kb, whatif.judged({ask: answer}), VERDICT)
    return Outcome(supposed(kb, ask, answer), level, value, verdict)


def question_of(kb: KnowledgeBase, ask: str) -> str:
    """The question for a scale or a fact."""
    if ask in kb.scales:
        return kb.scales[ask].asks
    return kb.facts[ask].asks if ask in kb.facts else "Is there a closed, watertight space behind this place?"


def answer_of(kb: KnowledgeBase, ask: str, answer: int | str) -> str:
    """An answer in words: a level that somebody might find, or the meaning of a fact's value."""
    if isinstance(answer, int):
        return kb.scales[ask].words(answer)
    return kb.facts[ask].values[answer] if ask in kb.facts else _CLOSED_SPACE[answer]


def supposed(kb: KnowledgeBase, ask: str, answer: int | str) -> str:
    """An answer that nobody has given yet, in words that stand after "if": of a level, one thing that shows it."""
    return kb.scales[ask].example(answer) if isinstance(answer, int) else answer_of(kb, ask, answer)


_CLOSED_SPACE: Mapping[str, str] = {"yes": "a closed space lies behind it", "no": "no closed space lies behind it"}


def how_to_find_out(kb: KnowledgeBase, fact: str) -> str:
    """How to find out a fact about the boat."""
    if fact in kb.facts:
        return kb.facts[fact].find_out
    return "Look for a hatch or a bung near it and follow the walls. A space that holds air to float her is closed."
