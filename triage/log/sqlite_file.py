"""A file of SQLite's that boats are kept in: whose it is, of which version, and how it is read and written."""

from __future__ import annotations

import os
import sqlite3
import threading
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from triage.errors import CannotWork
from triage.files import cannot, identity, make_folder
from triage.knowledge.model import KnowledgeBase
from triage.log.troubles import in_plain_words

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


class SqliteFile:
    """One file, which is made when it is not there."""

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
