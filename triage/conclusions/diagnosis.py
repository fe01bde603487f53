"""What the program concludes about causes, as frozen values: what may have done it, stories, and where to look next."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True)
class StillAtWork:
    """Whether a cause goes on: what was found that shows it (nothing: not known), how to tell, and what ends it."""

    shown_by: tuple[str, ...]
    tell: str
    cure: str


@dataclass(frozen=True)
class Cause:
    """What may have done it, as a word and with its reasons; never a figure.

    ``alike`` names the causes of the same marks that are as likely. ``findings`` are the marks it may have left.
    ``answer`` is what the owner said when asked: yes, no, unknown, or nothing yet.
    """

    id: str
    name: str
    likelihood: str
    happens: str
    alike: tuple[str, ...]
    speaks_for: tuple[str, ...]
    speaks_against: tuple[str, ...]
    findings: tuple[str, ...]
    ask: str
    answer: str
    still_at_work: StillAtWork | None
    basis: str


@dataclass(frozen=True)
class Story:
    """Several findings that one likely cause explains: those it left itself, and those that follow from them.

    ``or_else`` names causes that explain them as well. ``tells`` says it in sentences, one for each finding.
    """

    cause: str
    name: str
    likelihood: str
    or_else: tuple[str, ...]
    happens: str
    tells: tuple[str, ...]
    findings: tuple[str, ...]
    still_at_work: StillAtWork | None


@dataclass(frozen=True)
class Reason:
    """One way from something known to a check: the steps in words, and the same steps as nodes of the graph."""

    path: tuple[str, ...]
    nodes: tuple[str, ...]


@dataclass(frozen=True)
class PlanLine:
    """A check elsewhere that causes or findings demand and nobody has made yet.

    ``rank`` counts from the most worthwhile. ``likelihood`` is a word for the chance that there is something to find,
    ``at_worst`` the gravest verdict that it can come to. ``side`` is port, starboard or both sides; None for a part
    that is one.
    """

    rank: int
    zone: str
    place: str
    side: str | None
    check: str
    name: str
    question: str
    minutes: float
    helper: bool
    tools: tuple[str, ...]
    steps: tuple[str, ...]
    care: str
    likelihood: str
    at_worst: str
    reasons: tuple[Reason, ...]
    causes: tuple[str, ...]
    findings: tuple[str, ...]


@dataclass(frozen=True)
class Stop:
    """Checks that are made from one place with one thing taken off, most worthwhile first; ``minutes`` for all."""

    leg: str
    stand: str
    takes_off: str
    minutes: float
    lines: tuple[PlanLine, ...]
