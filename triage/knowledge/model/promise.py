"""A promise: a statement about every survey that the rules must keep, whatever else is in it."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from triage.errors import Place
from triage.knowledge.model.conditions import Condition

Said = Literal["caution", "do", "never", "recheck"]


@dataclass(frozen=True, eq=False)
class Promise:
    """Whenever ``when`` holds of a finding of which it speaks, all of these follow.

    It speaks only of findings for which nobody has answered ``not_answered``, no whole set of the named checks where
    ``named_checks_missing``, and no whole way of passing the part where ``passing_checks_missing``;
    ``answered_well``: of which no answer is worse than the best; ``of_suspicions``: only of marks that rules send
    people to look for, with nothing answered.

    ``at_least``: the scale is at least at this level, at whichever end of the range ``when`` holds.
    ``worst_at_least``: once ``when`` is known to hold, the worst end is at least at this level.
    ``at_most``: once ``when`` is known to hold of a finding by itself, its best end is no worse than this level.
    ``advises``: a sentence of each of these kinds is said, once ``when`` is known to hold.
    """

    id: str
    order: int
    when: Condition
    says: str
    because: str
    place: Place
    not_answered: tuple[str, ...] = ()
    named_checks_missing: bool = False
    passing_checks_missing: bool = False
    answered_well: bool = False
    of_suspicions: bool = False
    at_least: tuple[tuple[str, int], ...] = ()
    worst_at_least: tuple[tuple[str, int], ...] = ()
    at_most: tuple[tuple[str, int], ...] = ()
    advises: tuple[Said, ...] = ()
