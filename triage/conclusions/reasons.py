"""Why a finding is judged as it is, as data: rules, levels and readings, and the words that rules give them."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from triage.conclusions.values import Range, Reached
from triage.knowledge.model import Basis

Known = Literal["answered", "shown by the mark", "unchecked", "unsaid"]
"""How something is known that a rule rests on; unsaid is a fact about the boat that nobody has told."""


@dataclass(frozen=True)
class Premise:
    """Something that a rule rests on: the mark itself, a level of a scale, or a fact about the boat."""

    kind: Literal["mark", "level", "fact"]
    id: str
    level: int | None
    words: str
    known: Known


@dataclass(frozen=True)
class Step:
    """One rule in a chain of reasons: what it rests on, what it concludes, and why.

    ``elsewhere`` are the ids of the other findings that it needed.
    """

    rule: str
    rests_on: tuple[Premise, ...]
    concludes: tuple[Reached, ...]
    because: str
    basis: Basis
    elsewhere: tuple[str, ...] = ()


@dataclass(frozen=True)
class PresumptionUsed:
    """What was taken for granted, because of which answers, and why that is usual."""

    rule: str
    presumes: tuple[Reached, ...]
    rests_on: tuple[Reached, ...]
    because: str
    basis: Basis


@dataclass(frozen=True)
class Conflict:
    """Answers that pull apart, so that nothing was presumed from them: good ones, and those that they do not fit."""

    rule: str
    good: tuple[Reached, ...]
    bad: tuple[Reached, ...]


@dataclass(frozen=True)
class HeldUp:
    """What keeps a verdict from being milder: some answers, each of them needed; or other findings; or the mark alone;
    or several answers, each enough by itself. Nothing, when it is at its mildest.
    """

    by: Literal["nothing", "answers", "elsewhere", "mark", "several"]
    answers: tuple[Reached, ...] = ()


@dataclass(frozen=True)
class Counterfactual:
    """A single reading that would change the verdict, and what it would then be."""

    scale: str
    reading: Reached
    verdict: Range
