"""Boats in a file of SQLite's, which several programs may use at once; what was answered is on the disk."""

from __future__ import annotations

import json
import os
import sqlite3
import threading
from collections.abc import Iterator, Mapping, Sequence
from contextlib import contextmanager
from dataclasses import astuple, fields
from pathlib import Path
from typing import Any

from triage.errors import CannotWork, NoSuch
from triage.files import cannot, identity, make_folder
from triage.knowledge.model import KnowledgeBase
from triage.log.boats import BoatEntry, Entry, Kept
from triage.log.sqlite_classes import SqliteClasses
from triage.log.troubles import in_plain_words
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

OURS = 0x7412A6E0
"""What marks a file as one of ours (SQLite's application_id)."""

PATIENCE = 10.0
"""Seconds that somebody else's saving may take."""

MIGRATIONS = (
    (
        """CREATE TABLE visits (
            id TEXT PRIMARY KEY, boat TEXT NOT NULL, number INTEGER NOT NULL UNIQUE, version INTEGER NOT NULL,
            name TEXT NOT NULL, day TEXT NOT NULL, marks INTEGER NOT NULL, said TEXT NOT NULL CHECK (json_valid(said)),
            clashes TEXT NOT NULL CHECK (json_valid(clashes)), survey TEXT NOT NULL CHECK (json_valid(survey))
        ) STRICT""",
        "CREATE INDEX visits_of_a_boat ON visits (boat)",
        """CREATE TABLE photos (
            visit TEXT NOT NULL REFERENCES visits (id) ON DELETE CASCADE, name TEXT NOT NULL, jpeg BLOB NOT NULL,
            PRIMARY KEY (visit, name)
        ) STRICT""",
        """CREATE TABLE diary (
            number INTEGER PRIMARY KEY, boat TEXT NOT NULL, entry TEXT NOT NULL CHECK (json_valid(entry))
        ) STRICT""",
        f"PRAGMA application_id = {OURS}",
    ),
    (
        """CREATE TABLE runs (
            number INTEGER PRIMARY KEY, id TEXT NOT NULL UNIQUE, code TEXT NOT NULL,
            run TEXT NOT NULL CHECK (json_valid(run))
        ) STRICT""",
        "CREATE INDEX runs_of_a_class ON runs (code)",
    ),
    ("CREATE TABLE offers (boat TEXT PRIMARY KEY, offer TEXT NOT NULL CHECK (json_valid(offer))) STRICT",),
    (
        """CREATE TABLE own_cases (
            number INTEGER PRIMARY KEY, id TEXT NOT NULL UNIQUE, code TEXT NOT NULL, visit TEXT NOT NULL,
            mark TEXT NOT NULL, survey TEXT NOT NULL
        ) STRICT""",
    ),
)
"""What makes a file of each version out of one of the version before."""

_COLUMNS = ", ".join(field.name for field in fields(Visit))
_PUT = (
    f"INSERT INTO visits ({_COLUMNS}) VALUES ({', '.join('?' * len(fields(Visit)))}) ON CONFLICT (id) DO UPDATE SET "
    + ", ".join(f"{field.name} = excluded.{field.name}" for field in fields(Visit))
)  # to replace the line would take its photographs along


class SqliteBoats(SqliteClasses):
    """Boats in one file, which is made when it is not there."""

    def __init__(self, file: Path, kb: KnowledgeBase) -> None:
        """Raises CannotWork: no such folder, not to be written, not ours, or from a newer version."""
        self.file, self.kb = file, kb
        self._lock = threading.RLock()
        _make_ready(file)
        self._identity = identity(file)
        with in_plain_words(file):
            self._db = sqlite3.connect(file, timeout=PATIENCE, isolation_level=None, check_same_thread=False)
            try:
                self._prepare()
            except BaseException:
                self._db.close()
                raise

    def close(self) -> None:
        """Let go of the file. Nothing is lost without it."""
        self._db.close()

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

    def _prepare(self) -> None:
        # asked first: somebody else may make the file just now, tables and version at once
        (tables,) = self._db.execute("SELECT count(*) FROM sqlite_schema").fetchone()
        version = self._version()
        if version == 0 and tables:
            raise CannotWork(f"{self.file} holds something else than boats. Name another file.")
        for setting in ("journal_mode = WAL", "synchronous = FULL", "foreign_keys = ON"):
            self._db.execute(f"PRAGMA {setting}")
        if version < len(MIGRATIONS):
            self._migrate()

    def _version(self) -> int:
        """The version of the file; 0 for a new one. Raises CannotWork."""
        (version,) = self._db.execute("PRAGMA user_version").fetchone()
        (whose,) = self._db.execute("PRAGMA application_id").fetchone()
        if version and whose != OURS:
            raise CannotWork(f"{self.file} holds something else than boats. Name another file.")
        if version > len(MIGRATIONS):
            raise CannotWork(
                f"{self.file} was written by a newer version of this program. Bring this one up to date, or name "
                "another file."
            )
        return int(version)

    def _migrate(self) -> None:
        """Bring the file up to date, in one go or not at all; perhaps somebody else has done so meanwhile."""
        with self._writing():
            for statements in MIGRATIONS[self._version() :]:
                for statement in statements:
                    self._db.execute(statement)
            self._db.execute(f"PRAGMA user_version = {len(MIGRATIONS)}")

    @contextmanager
    def _reading(self) -> Iterator[None]:
        with self._lock, in_plain_words(self.file):
            yield

    @contextmanager
    def _writing(self) -> Iterator[None]:
        """All that is written within, or nothing; nobody else writes meanwhile."""
        with self._lock, in_plain_words(self.file):
            if identity(self.file) != self._identity:  # SQLite would go on writing to what has no name any more
                raise CannotWork(f"{self.file} is not where it was. Put it back, or start the program again.")
            self._db.execute("BEGIN IMMEDIATE")
            try:
                yield
                self._db.execute("COMMIT")
            except BaseException:
                if self._db.in_transaction:
                    self._db.execute("ROLLBACK")
                raise


def _make_ready(file: Path) -> None:
    """The folder and an empty file that only its owner reads, where they are missing."""
    make_folder(file.parent)
    try:
        os.close(os.open(file, os.O_RDWR | os.O_CREAT, 0o600))
        mode = file.stat().st_mode
    except OSError as error:
        raise cannot(f"Cannot keep boats in {file}", error) from None
    if not mode & 0o222:  # the superuser is asked too
        raise CannotWork(f"Cannot keep boats in {file}: it is read-only. Make it writable, or name another file.")
