"""What can be answered about a mark and its boat, in the order in which it is shown and counted."""

from __future__ import annotations

from dataclasses import dataclass

from triage.asking.told import answer_of
from triage.dialogue.edits import find
from triage.dialogue.facts import fact_of
from triage.dialogue.interview import values_of
from triage.knowledge.model import BUOYANCY, KnowledgeBase
from triage.phrases import conversation as phrases
from triage.survey.model import COULD_NOT_TELL, Finding, Survey


@dataclass(frozen=True)
class Answer:
    """One answer to a question: what is recorded (None clears it), and how it is shown."""

    said: str | None
    text: str


def askable(kb: KnowledgeBase, finding: Finding) -> tuple[str, ...]:
    """Every scale by which the mark is judged there, and every fact about the boat and the place."""
    varies = (BUOYANCY,) if kb.zones[finding.zone].encloses_buoyancy == "varies" else ()
    return (*kb.applicable(finding.zone, finding.sign), *kb.facts, *varies)


def answered(kb: KnowledgeBase, survey: Survey, finding: Finding, ask: str) -> str | None:
    """What was answered, as it was said."""
    if ask in kb.scales:
        return finding.readings[ask].said if ask in finding.readings else None
    return fact_of(survey.boat, ask, finding.zone)


def answers_to(kb: KnowledgeBase, survey: Survey, mark: str, ask: str) -> list[Answer]:
    """Every answer to a question, in the order in which they are shown and counted."""
    finding = find(survey, mark)
    if ask in kb.scales:
        levels = range(kb.best(finding.sign, ask), kb.worst(finding.sign, ask) + 1)
        found = [Answer(said, words) for level in levels for said, words in kb.scales[ask].choices(level)]
    else:
        found = [Answer(value, answer_of(kb, ask, value)) for value in values_of(kb, ask)]
    found.append(Answer(COULD_NOT_TELL, phrases.I_COULD_NOT_TELL))
    if answered(kb, survey, finding, ask) is not None:
        found.append(Answer(None, phrases.CLEAR))
    return found
