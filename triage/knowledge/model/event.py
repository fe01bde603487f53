"""Events: what happened to a boat and what was done to her, and which of it sends people to look where."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Literal

from triage.errors import Place
from triage.knowledge.model.rule import Suspect
from triage.knowledge.model.scale import NOWHERE, Basis

UNKNOWN = "unknown"
"""How hard it was, or how long ago, where nobody has said."""

FORCES = ("light", "hard", UNKNOWN)
AGES = ("today", "this season", "earlier", UNKNOWN)


@dataclass(frozen=True, eq=False)
class Event:
    """Something that happened to her, or was done to her. ``said`` are phrases by which it is heard; ``told`` are rows
    of steps that stand in this order with other words between, each step by any of its phrases.

    ``speaks_for`` names causes, each with the strength of what such a word is worth as evidence. ``hides``: signs that
    nobody can look for in vain after it. ``note``: what to think of when it is told; may be empty.
    """

    id: str
    name: str
    kind: Literal["happened", "done"]
    said: tuple[str, ...]
    basis: Basis
    speaks_for: Mapping[str, str] = field(default_factory=dict)
    note: str = ""
    place: Place = field(default=NOWHERE, compare=False)
    hides: frozenset[str] = frozenset()
    told: tuple[tuple[tuple[str, ...], ...], ...] = ()

    @property
    def sentence(self) -> str:
        """The name as it begins a sentence."""
        return f"{self.name[:1].upper()}{self.name[1:]}"


@dataclass(frozen=True)
class Look:
    """A check somewhere that an event advises; the boat does not wait for it."""

    zone: str
    check: str


@dataclass(frozen=True)
class EventCase:
    """An example inside a rule about events: what was told, on which boat, and whether the rule holds."""

    happened: str
    force: str
    ago: str
    facts: Mapping[str, str]
    fires: bool
    place: Place


@dataclass(frozen=True, eq=False)
class EventRule:
    """When one of these events is told, of such force and age: suspect marks (the boat waits), or advise looks.

    ``only_if``: boat facts without which it does not hold; an unknown fact rules nothing out.
    """

    id: str
    happened: tuple[str, ...]
    force: frozenset[str]
    ago: frozenset[str]
    because: str
    basis: Basis
    place: Place
    only_if: Mapping[str, str] = field(default_factory=dict)
    suspects: tuple[Suspect, ...] = ()
    looks: tuple[Look, ...] = ()
    cases: tuple[EventCase, ...] = ()

    def holds(self, happened: str, force: str, ago: str, facts: Mapping[str, str]) -> bool:
        """Whether it holds for such an event on a boat of which these facts are known."""
        told = happened in self.happened and force in self.force and ago in self.ago
        return told and all(facts.get(fact, value) == value for fact, value in self.only_if.items())


@dataclass(frozen=True, eq=False)
class Happenings:
    """Every event and the rules about them; ``ago`` and ``force`` hold the words by which people tell these.

    ``denied``: words after which it has not happened, or nobody says that it has, up to one of ``held_true``;
    ``in_doubt``: phrases with such a word that deny nothing; ``asked``: words with which a question begins. A mark that
    was read no worse than ``stood_before`` says, by scale, was there before this season.
    """

    events: Mapping[str, Event] = field(default_factory=dict)
    rules: tuple[EventRule, ...] = ()
    ago: Mapping[str, tuple[str, ...]] = field(default_factory=dict)
    force: Mapping[str, tuple[str, ...]] = field(default_factory=dict)
    denied: frozenset[str] = frozenset()
    in_doubt: tuple[str, ...] = ()
    held_true: frozenset[str] = frozenset()
    asked: frozenset[str] = frozenset()
    stood_before: Mapping[str, int] = field(default_factory=dict)
