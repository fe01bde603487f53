"""What inference concludes, as data: levels at both ends of the range, and the trace of how each came about."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Literal

from triage.knowledge.compiled.conjuncts import Conjunct
from triage.knowledge.model import Presumption, Rule
from triage.survey.model import Finding

Bound = Literal["lower", "upper"]
BOUNDS: tuple[Bound, Bound] = ("lower", "upper")


@dataclass(frozen=True)
class Firing:
    """A rule that fired on a finding: by which of its conjuncts, raising what from where to where.

    ``witnesses`` are the ids of the other findings it rests on.
    """

    rule: Rule
    conjunct: Conjunct
    raised: tuple[tuple[str, int, int], ...]
    witnesses: tuple[str, ...] = ()


@dataclass(frozen=True)
class Fixpoint:
    """One end of the range of a finding: every level, observed and derived, and what fired."""

    levels: Mapping[str, int]
    firings: tuple[Firing, ...]

    def level(self, scale: str) -> int:
        """The level of a scale; 0 where nothing is said of it."""
        return self.levels.get(scale, 0)


@dataclass(frozen=True)
class Presumed:
    """A presumption in use: which unanswered scales it holds at which level."""

    presumption: Presumption
    levels: tuple[tuple[str, int], ...]


@dataclass(frozen=True)
class Defeated:
    """A presumption that an answer contradicts: the answers it rested on and the one that pulls the other way."""

    presumption: Presumption
    against: tuple[str, ...]


@dataclass(frozen=True)
class InitialState:
    """Where inference starts for one finding: the observed levels at both ends, and what was presumed on the way."""

    lower: Mapping[str, int]
    upper: Mapping[str, int]
    presumed: tuple[Presumed, ...]
    defeated: tuple[Defeated, ...]

    def levels(self, bound: Bound) -> Mapping[str, int]:
        """The observed levels at this bound."""
        return self.lower if bound == "lower" else self.upper


@dataclass(frozen=True)
class Evaluation:
    """One finding with both ends of its range."""

    finding: Finding
    lower: Fixpoint
    upper: Fixpoint
    presumed: tuple[Presumed, ...]
    defeated: tuple[Defeated, ...]

    def end(self, bound: Bound) -> Fixpoint:
        """What it comes to at this bound."""
        return self.lower if bound == "lower" else self.upper

    def interval(self, scale: str) -> tuple[int, int]:
        """The best and the worst level still possible on the scale."""
        return self.lower.level(scale), self.upper.level(scale)
