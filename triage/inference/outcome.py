"""What inference concludes, as data: levels at both ends of the range, and the trace of how each came about."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Literal

from triage.knowledge.clauses import Clause
from triage.knowledge.model import Presumption, Rule
from triage.survey.model import Finding

Bound = Literal["floor", "ceiling"]
BOUNDS: tuple[Bound, Bound] = ("floor", "ceiling")


@dataclass(frozen=True)
class Firing:
    """A rule that fired on a finding: by which of its clauses, raising what from where to where.

    ``witnesses`` are the ids of the other findings it rests on.
    """

    rule: Rule
    clause: Clause
    raised: tuple[tuple[str, int, int], ...]
    witnesses: tuple[str, ...] = ()


@dataclass(frozen=True)
class End:
    """One end of the range of a finding: every level, observed and derived, and what fired."""

    levels: Mapping[str, int]
    firings: tuple[Firing, ...]

    def level(self, scale: str) -> int:
        return self.levels.get(scale, 0)


@dataclass(frozen=True)
class Presumed:
    """A presumption in use: which unanswered scales it holds at which level."""

    presumption: Presumption
    levels: tuple[tuple[str, int], ...]


@dataclass(frozen=True)
class Withdrawn:
    """A presumption that an answer contradicts: the answers it rested on and the one that pulls the other way."""

    presumption: Presumption
    against: tuple[str, ...]


@dataclass(frozen=True)
class Start:
    """Where inference starts for one finding: the observed levels at both ends, and what was presumed on the way."""

    floor: Mapping[str, int]
    ceiling: Mapping[str, int]
    presumed: tuple[Presumed, ...]
    withdrawn: tuple[Withdrawn, ...]

    def levels(self, bound: Bound) -> Mapping[str, int]:
        return self.floor if bound == "floor" else self.ceiling


@dataclass(frozen=True)
class Judged:
    """One finding with both ends of its range."""

    finding: Finding
    floor: End
    ceiling: End
    presumed: tuple[Presumed, ...]
    withdrawn: tuple[Withdrawn, ...]

    def end(self, bound: Bound) -> End:
        return self.floor if bound == "floor" else self.ceiling

    def range(self, scale: str) -> tuple[int, int]:
        """The best and the worst level still possible on the scale."""
        return self.floor.level(scale), self.ceiling.level(scale)
