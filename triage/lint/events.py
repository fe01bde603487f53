"""Rules about events whose own cases come out otherwise, and events of which nothing speaks."""

from __future__ import annotations

from collections.abc import Iterator

from triage.errors import Problem
from triage.knowledge.model import KnowledgeBase


def event_problems(kb: KnowledgeBase) -> Iterator[Problem]:
    """All of them, rule by rule, then event by event."""
    for rule in kb.happenings.rules:
        for case in rule.cases:
            if rule.holds(case.happened, case.force, case.ago, case.facts) != case.fires:
                wanted = "does not hold" if case.fires else "holds"
                yield Problem(case.place, f"{rule.id} {wanted} for its own case", "Mend the case or the rule.")
    spoken = {event for rule in kb.happenings.rules for event in rule.happened}
    for event in kb.happenings.events.values():
        if not (event.id in spoken or event.speaks_for or event.hides or event.note):
            hint = "Write a rule about it, let it speak for a cause, or give it a note."
            yield Problem(event.place, f"nothing comes of the event {event.id}", hint)
