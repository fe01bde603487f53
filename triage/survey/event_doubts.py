"""What cannot be about the events of a survey."""

from __future__ import annotations

from collections.abc import Iterator

from triage.knowledge.model import OTHER_SIDE, KnowledgeBase
from triage.knowledge.model.event import AGES, FORCES, UNKNOWN
from triage.parsing.documents import Path
from triage.survey.doubt import Doubt, date_doubts, text_doubts
from triage.survey.finding_doubts import MAX_NOTE
from triage.survey.model import Happened, Survey
from triage.survey.names import event_names


def event_doubts(kb: KnowledgeBase, survey: Survey) -> Iterator[Doubt]:
    """Everything about the events that cannot be, in reading order."""
    first: dict[str, int] = {}
    for number, told in enumerate(survey.events):
        here: Path = ("happened", number)
        if told.event not in kb.happenings.events:
            yield Doubt((*here, "event"), *event_names(kb).unknown(told.event))
        elif first.setdefault(told.event, number) != number:
            what, hint = f"{told.event} is told already", "Keep one of them; of several times, the worst or the last."
            yield Doubt((*here, "event"), what, hint, ("happened", first[told.event]))
        yield from _words(here, told)
        yield from text_doubts((*here, "said"), told.said, MAX_NOTE, lines=True)
        yield from date_doubts((*here, "on"), told.on)
        if told.on and survey.seen_on and told.on > survey.seen_on:
            yield Doubt((*here, "on"), f"{told.on} is after the visit on {survey.seen_on}", "Check both dates.")
        if told.on and told.when:
            yield Doubt((*here, "when"), "both a day and a time are given", 'Keep "on" or "when".')


def _words(here: Path, told: Happened) -> Iterator[Doubt]:
    for key, said, allowed in (
        ("force", told.force, FORCES),
        ("when", told.when, AGES),
        ("side", told.side, OTHER_SIDE),
    ):
        words = [word for word in allowed if word != UNKNOWN]
        if said and said not in words:
            yield Doubt((*here, key), f'{key} cannot be "{said}"', f"It can be {', '.join(words)}; or leave it out.")
