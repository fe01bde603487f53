"""A promise: a statement about every survey that the rules must keep, whatever else is in it."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from triage.errors import Place
from triage.knowledge.model.conditions import Condition

Said = Literal["caution", "do", "never", "recheck"]


@dataclass(frozen=True, eq=False)
class Promise:
    """Whenever ``when`` holds of a finding and nobody has answered ``not_answered``, all of these follow.

    ``at_least``: the scale is at least at this level, at whichever end of the range ``when`` holds.
    ``worst_at_least``: once ``when`` is known to hold, the worst end is at least at this level.
    ``advises``: a sentence of each of these kinds is said, once ``when`` is known to hold.
    ``named_checks_missing``: it speaks only of findings for which no whole set of named checks has been answered.
    """

    id: str
    order: int
    when: Condition
    says: str
    because: str
    place: Place
    not_answered: tuple[str, ...] = ()
    named_checks_missing: bool = False
    at_least: tuple[tuple[str, int], ...] = ()
    worst_at_least: tuple[tuple[str, int], ...] = ()
    advises: tuple[Said, ...] = ()
