"""The short answer as data: what a person beside the boat needs to read."""

from __future__ import annotations

from dataclasses import dataclass

from triage.conclusions.values import Range


@dataclass(frozen=True)
class ShortJob:
    """One damage: what and where, what it comes to, why, who mends it and what that takes."""

    number: int
    title: str
    verdict: Range
    headline: str
    why: str
    mending: str


@dataclass(frozen=True)
class NextStep:
    """One thing to do: ``where`` and ``wait`` (words after its name and ``minutes``), and which answers are good and
    which bad, where a yes awaits it, or what they come to.
    """

    what: str
    where: str = ""
    minutes: float = 0
    wait: str = ""
    helper: bool = False
    comes_of: str = ""


@dataclass(frozen=True)
class Direct:
    """The answer to what somebody asked."""

    question: str
    answer: str


@dataclass(frozen=True)
class ShortAnswer:
    """What a person needs to read.

    ``asked``: the answers to what was asked. ``means``: what the verdict asks of people. ``other_jobs`` are those to
    tell in a line each, ``looks_only`` the titles of marks that are looks and no more. ``money`` says what the prices
    are in. ``later`` counts the steps that are not told; ``care`` are the cautions of the steps that are.
    """

    headline: str
    means: str
    asked: tuple[Direct, ...]
    afloat: str
    tow: str
    jobs: tuple[ShortJob, ...]
    other_jobs: tuple[ShortJob, ...]
    money: str
    looks_only: tuple[str, ...]
    steps: tuple[NextStep, ...]
    later: str
    rests_on: tuple[str, ...]
    care: tuple[str, ...]
    defers: str
