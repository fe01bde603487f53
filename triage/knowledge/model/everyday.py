"""Everyday marks: what a practised eye expects of them, and where the knowledge says more and why."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from triage.errors import Place
from triage.knowledge.model.scale import NOWHERE


@dataclass(frozen=True)
class Outcome:
    """A verdict by its level, and after how few answers it is settled when each is the mildest that the sign allows."""

    answers: int
    verdict: int


@dataclass(frozen=True)
class EverydayMark:
    """A mark that everybody meets, and what is expected of it.

    ``comes_to`` is what it comes to in place of that, for the reason in ``because``.
    """

    zone: str
    sign: str
    expected: Outcome
    comes_to: Outcome | None = None
    because: str = ""
    place: Place = field(default=NOWHERE, compare=False)

    @property
    def outcome(self) -> Outcome:
        """What the rules should come to."""
        return self.comes_to or self.expected


@dataclass(frozen=True)
class Everyday:
    """All of them, on a common ``boat`` of which these facts are known."""

    boat: Mapping[str, str] = field(default_factory=dict)
    marks: tuple[EverydayMark, ...] = ()
