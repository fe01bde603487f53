"""What is open, as something to do: one shape for every check that anybody is told to make."""

from __future__ import annotations

from dataclasses import dataclass

from triage.conclusions.values import Range
from triage.knowledge.model import Wait


@dataclass(frozen=True)
class Outcome:
    """What one answer would come to: the answer (a level of the scale, or the value of a fact) and the verdict then."""

    answer: str
    level: int | None
    value: str
    verdict: Range


@dataclass(frozen=True, kw_only=True)
class OpenCheck:
    """A check of one reading at one place, or a fact about the boat to find out (then ``check`` is empty).

    ``scale`` is what it would answer; ``side`` port, starboard, both sides or None (a part that is one). ``minutes`` of
    work; ``wait`` is what goes by before the answer is there. ``outcomes``: the mildest answer and the gravest, where
    it is known what they would come to. ``loads``: it strains the part, which one that is weak already must not be.
    """

    check: str
    name: str
    scale: str
    question: str
    zone: str
    place: str
    side: str | None
    minutes: float
    dismantling: str
    helper: bool
    tools: tuple[str, ...]
    steps: tuple[str, ...]
    care: str
    wait: Wait | None = None
    outcomes: tuple[Outcome, ...] = ()
    loads: bool = False
