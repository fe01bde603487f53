"""What the program concludes about causes, as frozen values: what may have done it, stories, and where to look next."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from triage.conclusions.checks import OpenCheck
from triage.conclusions.values import Range
from triage.knowledge.model import Basis


@dataclass(frozen=True)
class StillAtWork:
    """Whether a cause goes on: the findings that show it (none: not known), how to tell, and what ends it."""

    shown_by: tuple[str, ...]
    tell: str
    cure: str


@dataclass(frozen=True)
class Support:
    """Something that speaks for a cause or against it.

    ``said``: somebody who knows the boat said yes or no. ``told``: an event (its name) that was told. ``found``: a
    finding (its id), which the cause leaves ``how_often``. ``absent``: a mark at a place where somebody looked for
    it. ``older``: a mark that was there before what was told. ``likelier``: the name of a likelier cause that explains
    all of it.
    """

    kind: Literal["said", "told", "found", "absent", "older", "likelier"]
    finding: str = ""
    place: str = ""
    mark: str = ""
    how_often: str = ""
    cause: str = ""
    event: str = ""


@dataclass(frozen=True)
class CauseHypothesis:
    """What may have done it, as a word and with its reasons; never a figure.

    ``alike`` names the causes of the same marks that are as likely. ``findings`` are the marks it may have left.
    ``answer`` is what the owner said when asked: yes, no, unknown, or nothing yet; an event that is worth as much as a
    yes answers it too. ``worth_telling`` is false for what
    little speaks for.
    """

    id: str
    name: str
    likelihood: str
    worth_telling: bool
    happens: str
    alike: tuple[str, ...]
    speaks_for: tuple[Support, ...]
    speaks_against: tuple[Support, ...]
    findings: tuple[str, ...]
    ask: str
    answer: str
    still_at_work: StillAtWork | None
    basis: Basis


@dataclass(frozen=True)
class StoryPart:
    """One finding of a story: left by the cause (``how_often``), or following from another one because of a rule."""

    finding: str
    how_often: str = ""
    follows_from: str = ""
    because: str = ""


@dataclass(frozen=True)
class Story:
    """Several findings that one likely cause explains: those it left itself, and those that follow from them.

    ``or_else`` names causes that explain them as well.
    """

    cause: str
    name: str
    likelihood: str
    or_else: tuple[str, ...]
    happens: str
    parts: tuple[StoryPart, ...]
    still_at_work: StillAtWork | None

    @property
    def findings(self) -> tuple[str, ...]:
        """The ids of all its findings."""
        return tuple(part.finding for part in self.parts)


@dataclass(frozen=True)
class Reason:
    """One way from something known to a check: from a finding (its id) or from somebody's word (``finding`` empty), by
    the sentences of the rules; and the same way as nodes of the graph.
    """

    finding: str
    path: tuple[str, ...]
    nodes: tuple[str, ...]


@dataclass(frozen=True, kw_only=True)
class PlanLine(OpenCheck):
    """A check elsewhere that causes or findings demand and nobody has made yet.

    ``rank`` counts from the most worthwhile. ``likelihood`` is a word for the chance that there is something to find,
    ``at_worst`` what it can come to. ``suspects`` are the signs for which the boat stays open until it is made; without
    any it is advice. ``attempted``: somebody tried it already and could not tell. ``after_mending``: the part is weak
    already and must not be loaded before it is mended.
    """

    rank: int
    likelihood: str
    at_worst: Range
    reasons: tuple[Reason, ...]
    causes: tuple[str, ...]
    findings: tuple[str, ...]
    suspects: tuple[str, ...]
    attempted: bool
    after_mending: bool


@dataclass(frozen=True)
class Stop:
    """Checks that are made from one place with one thing taken off, most worthwhile first; ``minutes`` for all."""

    leg: str
    stand: str
    takes_off: str
    minutes: float
    lines: tuple[PlanLine, ...]
