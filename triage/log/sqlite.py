"""Boats in a file of SQLite's, which several programs may use at once; what was answered is on the disk."""

from __future__ import annotations

import json
from collections.abc import Mapping, Sequence
from dataclasses import astuple, fields
from typing import Any

from triage.errors import NoSuch
from triage.log.boats import BoatEntry, Entry, Kept
from triage.log.sqlite_classes import SqliteClasses
from triage.log.visits import (
    NO_BOAT,
    NO_PHOTO,
    NO_VISIT,
    Visit,
    begun,
    entry_of,
    entry_words,
    free_id,
    listed,
    photo_name,
    saved,
)
from triage.survey.model import Survey

_COLUMNS = ", ".join(field.name for field in fields(Visit))
_PUT = (
    f"INSERT INTO visits ({_COLUMNS}) VALUES ({', '.join('?' * len(fields(Visit)))}) ON CONFLICT (id) DO UPDATE SET "
    + ", ".join(f"{field.name} = excluded.{field.name}" for field in fields(Visit))
)  # to replace the line would take its photographs along


class SqliteBoats(SqliteClasses):
    """Boats in one file, beside what is kept of classes."""

    def boats(self) -> Sequence[BoatEntry]:
        """All boats, the one that was last visited first."""
        lines = _COLUMNS.replace("said, clashes, survey", "'', '', ''")
        with self._reading():
            return listed(Visit(*row) for row in self._db.execute(f"SELECT {lines} FROM visits"))

    def begin(self, survey: Survey, boat: str | None = None) -> Kept:
        """A new visit, to a new boat or to one that is known. Raises NoSuch, BadSurvey, CannotWork."""
        with self._writing():
            return self._begin(survey, boat)

    def open(self, visit: str) -> Kept:
        """A visit as it was last kept. Raises NoSuch, CannotWork."""
        with self._reading():
            last = self._visit(visit)
        return last.kept(self.kb)

    def save(self, opened: Kept, survey: Survey, said: Sequence[str] = ()) -> Kept:
        """Keep what became of a visit since it was opened. Raises NoSuch, BadSurvey, CannotWork."""
        with self._writing():
            both = saved(self.kb, self._visit(opened.visit), opened, survey, said)
            return self._begin(survey, opened.boat) if both is None else self._put(both)

    def remove(self, visit: str) -> None:
        """Take a visit out with its photographs, and its boat with the last one. Raises NoSuch, CannotWork."""
        with self._writing():
            self._db.execute("DELETE FROM visits WHERE id = ?", (self._visit(visit).id,))
            for of_boats in ("diary", "offers"):
                self._db.execute(f"DELETE FROM {of_boats} WHERE boat NOT IN (SELECT boat FROM visits)")

    def add_photo(self, visit: str, jpeg: bytes) -> str:
        """Keep a photograph with a visit; its name. Raises NoSuch, CannotWork."""
        with self._writing():
            id_ = self._visit(visit).id
            (count,) = self._db.execute("SELECT count(*) FROM photos WHERE visit = ?", (id_,)).fetchone()
            name = photo_name(count + 1)
            self._db.execute("INSERT INTO photos VALUES (?, ?, ?)", (id_, name, jpeg))
            return name

    def photo(self, visit: str, name: str) -> bytes:
        """A photograph. Raises NoSuch, CannotWork."""
        with self._reading():
            found = self._db.execute("SELECT jpeg FROM photos WHERE visit = ? AND name = ?", (visit, name)).fetchone()
        if found is None:
            raise NoSuch(NO_PHOTO)
        return bytes(found[0])

    def diary(self, boat: str) -> Sequence[Entry]:
        """What became of her marks, in the order in which it was written. Empty for a boat that is not kept."""
        with self._reading():
            lines = self._db.execute("SELECT entry FROM diary WHERE boat = ? ORDER BY number", (boat,)).fetchall()
        return [entry_of(json.loads(line)) for (line,) in lines]

    def write(self, boat: str, entry: Entry) -> None:
        """Write a line into the diary of a boat; none is ever changed. Raises NoSuch, CannotWork."""
        with self._writing():
            if boat not in self._boats():
                raise NoSuch(NO_BOAT)
            line = json.dumps(entry_words(entry), ensure_ascii=False)
            self._db.execute("INSERT INTO diary (boat, entry) VALUES (?, ?)", (boat, line))

    def offer(self, boat: str) -> Mapping[str, Any]:
        """What a buyer brings along; empty where nothing is kept."""
        with self._reading():
            found = self._db.execute("SELECT offer FROM offers WHERE boat = ?", (boat,)).fetchone()
        offer: dict[str, Any] = json.loads(found[0]) if found else {}
        return offer

    def keep_offer(self, boat: str, offer: Mapping[str, Any]) -> None:
        """Keep what a buyer brings along, in place of what was kept. Raises NoSuch, CannotWork."""
        with self._writing():
            if boat not in self._boats():
                raise NoSuch(NO_BOAT)
            line = json.dumps(dict(offer), ensure_ascii=False)
            self._db.execute("INSERT OR REPLACE INTO offers VALUES (?, ?)", (boat, line))

    def _boats(self) -> set[str]:
        return {one for (one,) in self._db.execute("SELECT DISTINCT boat FROM visits")}

    def _begin(self, survey: Survey, boat: str | None) -> Kept:
        known = self._boats()
        if boat is not None and boat not in known:
            raise NoSuch(NO_BOAT)
        taken = {one for (one,) in self._db.execute("SELECT id FROM visits")}
        (number,) = self._db.execute("SELECT coalesce(max(number), 0) + 1 FROM visits").fetchone()
        return self._put(begun(self.kb, survey, boat or free_id(known), free_id(taken), number))

    def _visit(self, visit: str) -> Visit:
        row = self._db.execute(f"SELECT {_COLUMNS} FROM visits WHERE id = ?", (visit,)).fetchone()
        if row is None:
            raise NoSuch(NO_VISIT)
        return Visit(*row)

    def _put(self, visit: Visit) -> Kept:
        kept = visit.kept(self.kb)
        self._db.execute(_PUT, astuple(visit))
        return kept
