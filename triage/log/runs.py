"""Learners' runs, as anything that keeps them offers them. Of people they hold a nickname, no more."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import asdict, dataclass, field
from typing import Any, Protocol

NO_RUN = "This run is not kept here, or not any more."
NO_CASE = "This case was taken out by whoever made it."


@dataclass(frozen=True)
class Run:
    """What a learner did with a case, in ids: played again, it comes to where it was left.

    ``code`` is the class (empty: none); ``about`` what the cases were chosen by, ``number`` which of them it is, and
    ``case`` draws it again; ``digest`` tells whether it is still the same one. ``made`` are the checks in their order,
    ``answers`` all other answers; ``result`` is what is counted of it, once it is over.
    ``otherwise`` is what was said against its key: a verdict, because, by; none is ever changed.
    """

    id: str
    name: str
    code: str
    about: str
    number: int
    case: str
    digest: str
    when: str = ""
    made: tuple[str, ...] = ()
    answers: Mapping[str, str] = field(default_factory=dict)
    result: Mapping[str, Any] = field(default_factory=dict)
    otherwise: tuple[Mapping[str, str], ...] = ()


@dataclass(frozen=True)
class OwnCase:
    """A visit of which a trainer made a case for a class, as it was then: ``survey`` is the text of a survey file,
    ``mark`` the finding to judge. Its photographs are kept with ``visit`` and go with it.
    """

    id: str
    code: str
    visit: str
    mark: str
    survey: str


class Runs(Protocol):
    """What keeps runs. Whatever a method has returned from is kept: it outlives the program."""

    def run(self, id_: str) -> Run:
        """A run as it was last kept. Raises `NoSuch`."""

    def keep_run(self, run: Run) -> None:
        """Keep a run, in place of what was kept of it before."""

    def runs(self, code: str) -> Sequence[Run]:
        """Every run of a class, in the order in which they were begun."""

    def remove_runs(self, code: str) -> None:
        """Take all runs of a class out."""

    def own_case(self, id_: str) -> OwnCase:
        """A case that a trainer made. Raises `NoSuch`."""

    def keep_own_case(self, case: OwnCase) -> None:
        """Keep a case that a trainer made."""

    def own_cases(self, code: str) -> Sequence[OwnCase]:
        """The cases that were made for a class, in the order in which they were made."""

    def remove_own_case(self, id_: str) -> None:
        """Take a case out. Raises `NoSuch`."""


def run_words(run: Run) -> dict[str, Any]:
    """A run as it is written."""
    return asdict(run)


def run_of(words: Mapping[str, Any]) -> Run:
    """A run that was written. Raises TypeError and KeyError for what is none."""
    return Run(**{**words, "made": tuple(words["made"]), "otherwise": tuple(words.get("otherwise", ()))})
