"""Boats and their visits, as anything that keeps them offers them; each visit is one survey as it was last kept."""

from __future__ import annotations

import datetime
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any, Literal, Protocol

from triage.log.runs import Runs
from triage.survey.merge import Clash
from triage.survey.model import Survey


@dataclass(frozen=True)
class Kept:
    """A visit as it was kept. ``version`` counts its savings; ``said`` are the sentences that answered the last step.

    ``clashes`` is what somebody else said otherwise since it was opened, of which one had to give way.
    """

    visit: str
    boat: str
    survey: Survey
    version: int
    said: tuple[str, ...] = ()
    clashes: tuple[Clash, ...] = ()


@dataclass(frozen=True)
class VisitEntry:
    """A visit in a list: its id, its day, and how many marks were found."""

    id: str
    day: datetime.date | None
    marks: int


@dataclass(frozen=True)
class BoatEntry:
    """A boat in a list: its id, its name, and its visits, the newest first."""

    id: str
    name: str
    visits: tuple[VisitEntry, ...]


What = Literal["mended", "closed", "open"]


@dataclass(frozen=True)
class Entry:
    """A line in a boat's diary: what became of a mark, on which day, by whom. ``what``: mended; looked at again after
    that and closed; or open still, whatever was written before. ``mark`` is its id, by which one of several alike is
    known; empty where the line speaks of them all.
    """

    zone: str
    side: str | None
    sign: str
    what: What
    on: datetime.date
    by: str
    mark: str = ""


class Boats(Runs, Protocol):
    """What keeps boats, and learners' runs. Whatever a method has returned from is kept: it outlives the program."""

    def boats(self) -> Sequence[BoatEntry]:
        """All boats, the one that was last visited first."""

    def begin(self, survey: Survey, boat: str | None = None) -> Kept:
        """A new visit, to a new boat or to one that is known. Raises `NoSuch`, and BadSurvey for what cannot be."""

    def open(self, visit: str) -> Kept:
        """A visit as it was last kept. Raises `NoSuch`."""

    def save(self, opened: Kept, survey: Survey, said: Sequence[str] = ()) -> Kept:
        """Keep what became of a visit since it was opened. Raises `NoSuch`.

        What somebody else has kept meanwhile is joined with it, mark by mark and answer by answer. Where the two cannot
        be one survey, this one becomes a visit of its own to the same boat: go on with the ``visit`` of what is given
        back. Raises BadSurvey for what cannot be.
        """

    def remove(self, visit: str) -> None:
        """Take a visit out, and its boat with the last one. Raises `NoSuch`."""

    def add_photo(self, visit: str, jpeg: bytes) -> str:
        """Keep a photograph with a visit; the name under which findings refer to it. Raises `NoSuch`."""

    def photo(self, visit: str, name: str) -> bytes:
        """A photograph. Raises `NoSuch`."""

    def diary(self, boat: str) -> Sequence[Entry]:
        """What became of her marks, in the order in which it was written. Empty for a boat that is not kept."""

    def write(self, boat: str, entry: Entry) -> None:
        """Write a line into the diary of a boat; none is ever changed. Raises `NoSuch`."""

    def offer(self, boat: str) -> Mapping[str, Any]:
        """What somebody who thinks of buying her brings along, in the words of an offer file; empty: nothing.

        It belongs to the boat: what is asked for her is the same at the next visit.
        """

    def keep_offer(self, boat: str, offer: Mapping[str, Any]) -> None:
        """Keep what a buyer brings along, in place of what was kept. Raises `NoSuch`."""
