"""What finding something out takes: a check in minutes of trouble, and what the person has to do without."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from triage.knowledge.model import Check

PENALTY = {"none": 1.0, "partial": 3.0, "off": 8.0}
"""How much dearer a minute is when something has to come off first (estimate)."""

ANSWERING = 2.0
"""Minutes to read a question, walk to the place and write the answer down, beside what the check takes (estimate)."""

WAITING = 3.0
"""How many minutes of trouble an hour of waiting is as bad as (estimate)."""

NOT_AT_HAND = 5.0
"""How much dearer a check is for which a tool or the helper is missing (estimate)."""


@dataclass(frozen=True)
class Resources:
    """What the person with the boat has to do without: tools, as the checks name them, and a helper."""

    without: frozenset[str] = frozenset()
    alone: bool = False

    def suffice(self, check: Check) -> bool:
        """Whether all that the check needs is at hand."""
        return not (self.without & set(check.tools)) and not (self.alone and check.helper)


WITH_ALL = Resources()


def at_hand(checks: Sequence[Check], means: Resources) -> Check:
    """The first check for which all is at hand, else the first. Raises IndexError when there is none."""
    return next((check for check in checks if means.suffice(check)), checks[0])


def effort(check: Check, means: Resources, *, made: bool) -> float:
    """Minutes of trouble; a check that was made for another reading has only to be answered."""
    if made:
        return ANSWERING
    minutes = trouble(check, check.minutes)
    return minutes if means.suffice(check) else minutes * NOT_AT_HAND


def trouble(check: Check, minutes: float) -> float:
    """So many minutes of a check in minutes of trouble, with what has to come off and what goes by in waiting."""
    waiting = check.wait.hours * WAITING if check.wait else 0.0
    return (minutes + ANSWERING) * PENALTY[check.dismantling] + waiting
