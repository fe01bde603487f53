"""What cannot be kept of a form: every trouble at once, each with the field that it stands beside."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from triage.app.purchase import plainly
from triage.errors import Problem

BESIDE = {"sound": "sound_least", "of_new": "of_new_least", "new": "new"}
"""The field of the form for a word of an offer file, where it is called otherwise."""


@dataclass(frozen=True)
class Trouble:
    """What is wrong in a field, in a sentence; ``field`` is empty where it is in none of its own."""

    field: str
    says: str


def troubles_of(problems: Iterable[Problem]) -> list[Trouble]:
    """The troubles of an offer as those of its form."""
    return [Trouble(_field(one), plainly(one.what, one.hint)) for one in problems]


def _field(problem: Problem) -> str:
    word = problem.place.source.partition(": ")[2].partition(".")[0].partition("[")[0]
    return "one_unit" if word == "currency" and problem.what.startswith("how much of") else BESIDE.get(word, word)
