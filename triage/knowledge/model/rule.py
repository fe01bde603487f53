"""Rules and presumptions, each with its condition, its reason, where it comes from and its own cases."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cached_property
from typing import Literal

from triage.errors import Place
from triage.knowledge.model.conditions import AtMost, Condition, parts
from triage.knowledge.model.scale import Basis


@dataclass(frozen=True)
class Suspect:
    """Something not yet looked at that a rule sends people to."""

    zone: str
    sign: str


@dataclass(frozen=True)
class Advice:
    """A sentence for the person with the boat; ``kind`` is caution, do, never or recheck, due after so many ``weeks``
    where it can be told.
    """

    kind: str
    say: str
    weeks: float | None = None


def stated_at(kind: str) -> Literal["lower", "upper"]:
    """The bound whose firings state advice of this kind: cautions for what may be, all else for what is known."""
    return "upper" if kind == "caution" else "lower"


@dataclass(frozen=True)
class Case:
    """An example inside a rule: one finding, the others on the boat, and whether the rule fires on it."""

    words: Mapping[str, str]
    levels: Mapping[str, int]
    elsewhere: tuple[Case, ...]
    fires: bool
    place: Place


@dataclass(frozen=True, eq=False)
class Rule:
    """When the condition holds: raise derived scales, suspect other places, or say something."""

    id: str
    order: int
    when: Condition
    because: str
    basis: Basis
    place: Place
    raises: tuple[tuple[str, int], ...] = ()
    suspects: tuple[Suspect, ...] = ()
    advises: tuple[Advice, ...] = ()
    cases: tuple[Case, ...] = ()

    @property
    def speaks(self) -> bool:
        """Whether people are told something by it beside the levels it raises."""
        return bool(self.suspects or self.advises)


@dataclass(frozen=True, eq=False)
class Presumption:
    """When the condition holds on what was answered: the worst that these unanswered scales are taken to be."""

    id: str
    order: int
    when: Condition
    because: str
    basis: Basis
    place: Place
    presumes: tuple[tuple[str, int], ...] = ()
    cases: tuple[Case, ...] = ()

    @cached_property
    def rests_on(self) -> tuple[str, ...]:
        """The scales whose answers it needs."""
        return tuple(dict.fromkeys(part.scale for part in parts(self.when) if isinstance(part, AtMost)))
