"""Boats in memory, for tests of the screens: a plain mapping, nothing joined."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from triage.errors import NoSuch
from triage.log.boats import BoatEntry, Kept, VisitEntry
from triage.survey.model import Survey


class FewBoats:
    """What the screens need of boats that are kept."""

    def __init__(self) -> None:
        self.visits: dict[str, Kept] = {}
        self.photos: dict[tuple[str, str], bytes] = {}

    def boats(self) -> Sequence[BoatEntry]:
        found: dict[str, BoatEntry] = {}
        for kept in reversed(self.visits.values()):
            entry = VisitEntry(kept.visit, kept.survey.seen_on, len(kept.survey.marks))
            boat = found.get(kept.boat, BoatEntry(kept.boat, kept.survey.boat.name, ()))
            found[kept.boat] = replace(boat, visits=(*boat.visits, entry))
        return list(found.values())

    def begin(self, survey: Survey, boat: str | None = None) -> Kept:
        if boat is not None:
            name = next((one.name for one in self.boats() if one.id == boat), None)
            if name is None:
                raise NoSuch(f"There is no boat {boat}.")
            survey = replace(survey, boat=replace(survey.boat, name=name))
        number = len(self.visits) + 1
        kept = Kept(f"v{number}", boat or f"b{number}", survey, 1)
        self.visits[kept.visit] = kept
        return kept

    def open(self, visit: str) -> Kept:
        if visit not in self.visits:
            raise NoSuch(f"There is no visit {visit}.")
        return self.visits[visit]

    def save(self, opened: Kept, survey: Survey, said: Sequence[str] = ()) -> Kept:
        kept = replace(self.open(opened.visit), survey=survey, said=tuple(said), version=opened.version + 1)
        self.visits[kept.visit] = kept
        return kept

    def remove(self, visit: str) -> None:
        self.open(visit)
        del self.visits[visit]

    def add_photo(self, visit: str, jpeg: bytes) -> str:
        self.open(visit)
        name = f"{len(self.photos) + 1}.jpg"
        self.photos[visit, name] = jpeg
        return name

    def photo(self, visit: str, name: str) -> bytes:
        if (visit, name) not in self.photos:
            raise NoSuch(f"There is no photograph {name}.")
        return self.photos[visit, name]
