"""Learners' runs and a trainer's own cases in a file of SQLite's."""

from __future__ import annotations

import json
from collections.abc import Sequence
from dataclasses import astuple, fields

from triage.errors import NoSuch
from triage.log.runs import NO_CASE, NO_RUN, OwnCase, Run, run_of, run_words
from triage.log.sqlite_file import SqliteFile

_CASE = ", ".join(field.name for field in fields(OwnCase))


class SqliteClasses(SqliteFile):
    """What is kept of classes in one file."""

    def run(self, id_: str) -> Run:
        """A run as it was last kept. Raises NoSuch, CannotWork."""
        with self._reading():
            found = self._db.execute("SELECT run FROM runs WHERE id = ?", (id_,)).fetchone()
        if found is None:
            raise NoSuch(NO_RUN)
        return run_of(json.loads(found[0]))

    def keep_run(self, run: Run) -> None:
        """Keep a run, in place of what was kept of it before. Raises CannotWork."""
        put = "INSERT INTO runs (id, code, run) VALUES (?, ?, ?) ON CONFLICT (id) DO UPDATE SET run = excluded.run"
        with self._writing():
            self._db.execute(put, (run.id, run.code, json.dumps(run_words(run), ensure_ascii=False)))

    def runs(self, code: str) -> Sequence[Run]:
        """Every run of a class, in the order in which they were begun. Raises CannotWork."""
        with self._reading():
            rows = self._db.execute("SELECT run FROM runs WHERE code = ? ORDER BY number", (code,)).fetchall()
        return [run_of(json.loads(row)) for (row,) in rows]

    def remove_runs(self, code: str) -> None:
        """Take all runs of a class out. Raises CannotWork."""
        with self._writing():
            self._db.execute("DELETE FROM runs WHERE code = ?", (code,))

    def own_case(self, id_: str) -> OwnCase:
        """A case that a trainer made. Raises NoSuch, CannotWork."""
        with self._reading():
            found = self._db.execute(f"SELECT {_CASE} FROM own_cases WHERE id = ?", (id_,)).fetchone()
        if found is None:
            raise NoSuch(NO_CASE)
        return OwnCase(*found)

    def keep_own_case(self, case: OwnCase) -> None:
        """Keep a case that a trainer made. Raises CannotWork."""
        with self._writing():
            self._db.execute(f"INSERT INTO own_cases ({_CASE}) VALUES (?, ?, ?, ?, ?)", astuple(case))

    def own_cases(self, code: str) -> Sequence[OwnCase]:
        """The cases that were made for a class, in the order in which they were made. Raises CannotWork."""
        with self._reading():
            found = self._db.execute(f"SELECT {_CASE} FROM own_cases WHERE code = ? ORDER BY number", (code,))
            return [OwnCase(*row) for row in found]

    def remove_own_case(self, id_: str) -> None:
        """Take a case out. Raises NoSuch, CannotWork."""
        self.own_case(id_)
        with self._writing():
            self._db.execute("DELETE FROM own_cases WHERE id = ?", (id_,))
