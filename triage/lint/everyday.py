"""Everyday marks that do not come out as a practised eye expects."""

from __future__ import annotations

from collections.abc import Iterator

from triage.errors import Problem
from triage.knowledge.model import VERDICT, KnowledgeBase
from triage.lint.settling import fewest_answers
from triage.survey.model import Boat


def surprising_marks(kb: KnowledgeBase) -> Iterator[Problem]:
    """Marks that settle otherwise than is written, each with what they come to now."""
    boat = Boat("a common one", kb.everyday.boat)
    for mark in kb.everyday.marks:
        wanted = f"{mark.outcome.answers} {kb.level_name(VERDICT, mark.outcome.verdict)}"
        settled = fewest_answers(kb, mark.zone, mark.sign, boat)
        if str(settled) != wanted:
            now = f"{settled} ({', '.join(settled.answers) or 'no answer'})" if settled else "never settles"
            what = f"{mark.sign} at {mark.zone} should come to {wanted}, but now: {now}"
            hint = "Mend the rules; or, if it is right so, say why under stricter."
            yield Problem(mark.place, what, hint)
