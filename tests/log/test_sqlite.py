"""The file that boats are kept in: nothing that was acknowledged is lost, and what is not ours is left alone."""

from __future__ import annotations

import multiprocessing
import os
import signal
import sqlite3
import stat
import subprocess
import sys
import time
from dataclasses import replace
from pathlib import Path

import pytest

from tests.conftest import ROOT
from tests.log.keepers import PLATE, wagtail
from triage.errors import CannotWork
from triage.knowledge.model import KnowledgeBase
from triage.knowledge.store.load import load_knowledge
from triage.log.sqlite import SqliteBoats
from triage.log.sqlite_file import MIGRATIONS


@pytest.fixture
def file(tmp_path: Path) -> Path:
    return tmp_path / "folder" / "boats.sqlite"


def ask(file: Path, query: str) -> object:
    with sqlite3.connect(file) as db:
        (answer,) = db.execute(query).fetchone()
    db.close()
    return answer


def test_it_is_as_durable_as_sqlite_can_be(kb: KnowledgeBase, file: Path) -> None:
    boats = SqliteBoats(file, kb)

    assert "wal" == ask(file, "PRAGMA journal_mode")
    assert (2, 1) == tuple(
        boats._db.execute(f"PRAGMA {word}").fetchone()[0] for word in ("synchronous", "foreign_keys")
    )
    assert len(MIGRATIONS) == ask(file, "PRAGMA user_version")
    assert 0o600 == stat.S_IMODE(file.stat().st_mode)
    boats.begin(wagtail())
    with pytest.raises(sqlite3.IntegrityError, match="cannot store TEXT value in INTEGER column"):
        boats._db.execute("UPDATE visits SET marks = 'many'")


def test_a_newer_file_is_refused_and_left_alone(kb: KnowledgeBase, file: Path) -> None:
    SqliteBoats(file, kb).close()
    ask_newer = f"PRAGMA user_version = {len(MIGRATIONS) + 1}"
    with sqlite3.connect(file) as db:
        db.execute(ask_newer)
    db.close()
    before = file.read_bytes()

    with pytest.raises(CannotWork, match=r"written by a newer version of this program\. Bring this one up to date"):
        SqliteBoats(file, kb)
    assert before == file.read_bytes()


@pytest.mark.parametrize(("column", "spoilt"), [("said", "5"), ("clashes", "[1]"), ("survey", "{'boat'")])
def test_what_the_disk_does_not_give_back_as_it_was_is_said_so(
    kb: KnowledgeBase, file: Path, column: str, spoilt: str
) -> None:
    boats = SqliteBoats(file, kb)
    kept = boats.begin(wagtail())
    boats._db.execute("PRAGMA ignore_check_constraints = ON")
    boats._db.execute(f"UPDATE visits SET {column} = ?", (spoilt,))

    with pytest.raises(CannotWork, match=r"^The disk does not give back what was kept of this visit\. Look after it"):
        boats.open(kept.visit)


def test_so_it_is_where_sqlite_complains_in_what_is_no_text(kb: KnowledgeBase, file: Path) -> None:
    SqliteBoats(file, kb).close()
    with sqlite3.connect(file) as db:
        db.execute("PRAGMA writable_schema = ON")
        db.execute("UPDATE sqlite_schema SET sql = CAST(x'43524541544520ff' AS TEXT) WHERE name = 'runs'")
    db.close()

    with pytest.raises(CannotWork, match=r"the disk does not give back what was written to it"):
        SqliteBoats(file, kb)


@pytest.mark.parametrize("version", [0, 1])
def test_another_programs_file_is_refused_and_left_alone(kb: KnowledgeBase, tmp_path: Path, version: int) -> None:
    file = tmp_path / "other.sqlite"
    with sqlite3.connect(file) as db:
        db.execute("CREATE TABLE shopping (what TEXT)")
        db.execute(f"PRAGMA user_version = {version}")
    db.close()
    before = file.read_bytes()

    with pytest.raises(CannotWork, match="something else than boats"):
        SqliteBoats(file, kb)
    assert before == file.read_bytes()


def test_what_is_no_such_file_at_all_is_refused(kb: KnowledgeBase, tmp_path: Path) -> None:
    text, folder = tmp_path / "text", tmp_path / "folder"
    text.write_text("boat: {name: Wagtail}\n" * 100, encoding="utf-8")
    folder.mkdir()

    with pytest.raises(CannotWork, match="something else than boats"):
        SqliteBoats(text, kb)
    with pytest.raises(CannotWork, match="it is a folder"):
        SqliteBoats(folder, kb)
    with pytest.raises(CannotWork, match="Cannot make the folder"):
        SqliteBoats(text / "boats.sqlite", kb)


def test_a_read_only_file_is_refused(kb: KnowledgeBase, file: Path) -> None:
    SqliteBoats(file, kb).close()
    file.chmod(0o400)

    with pytest.raises(CannotWork, match="read-only"):
        SqliteBoats(file, kb)


def test_a_file_that_has_gone_meanwhile_is_told_and_nothing_is_called_kept(kb: KnowledgeBase, file: Path) -> None:
    boats = SqliteBoats(file, kb)
    begun = boats.begin(wagtail(PLATE))
    file.unlink()

    with pytest.raises(CannotWork, match="not where it was"):
        boats.save(begun, wagtail())


def test_a_migration_that_fails_leaves_the_file_as_it_was(
    kb: KnowledgeBase, file: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    SqliteBoats(file, kb).close()
    later = (*MIGRATIONS, ("ALTER TABLE visits ADD COLUMN more TEXT", "CREATE TABLE visits (id TEXT)"))
    monkeypatch.setattr("triage.log.sqlite_file.MIGRATIONS", later)

    with pytest.raises(CannotWork):
        SqliteBoats(file, kb)

    assert len(MIGRATIONS) == ask(file, "PRAGMA user_version")
    assert 0 == ask(file, "SELECT count(*) FROM pragma_table_info('visits') WHERE name = 'more'")


def test_somebody_who_writes_for_ever_is_told_of(
    kb: KnowledgeBase, file: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("triage.log.sqlite_file.PATIENCE", 0.1)
    boats = SqliteBoats(file, kb)
    with sqlite3.connect(file, isolation_level=None) as other:
        other.execute("BEGIN IMMEDIATE")
        with pytest.raises(CannotWork, match="another program is busy writing it"):
            boats.begin(wagtail())
        other.execute("ROLLBACK")
    other.close()
    boats.begin(wagtail())


def add_marks(file: Path, name: str, count: int, visit: str) -> None:
    """What one of several programs does: one mark after the other, each kept; ``visit`` was opened only once."""
    boats = SqliteBoats(file, load_knowledge(ROOT / "rules"))
    kept = boats.open(visit)
    for number in range(count):
        marks = (*kept.survey.findings, replace(PLATE, id=f"{name}{number}"))
        kept = boats.save(kept, replace(kept.survey, findings=marks))
        boats.begin(wagtail(name=f"{name}{number}"))


def test_two_programs_at_once_lose_nothing(kb: KnowledgeBase, file: Path) -> None:
    visit = SqliteBoats(file, kb).begin(wagtail()).visit
    spawn = multiprocessing.get_context("spawn")
    workers = [spawn.Process(target=add_marks, args=(file, name, 12, visit)) for name in "ab"]

    for worker in workers:
        worker.start()
    for worker in workers:
        worker.join(100)

    boats = SqliteBoats(file, kb)
    wanted = sorted(f"{name}{number}" for name in "ab" for number in range(12))
    assert wanted == sorted(one.id for one in boats.open(visit).survey.findings)
    assert ["Wagtail", *wanted] == sorted(boat.name for boat in boats.boats())


def make(file: Path) -> None:
    SqliteBoats(file, load_knowledge(ROOT / "rules")).begin(wagtail())


def test_programs_that_make_the_file_at_the_same_time_agree(kb: KnowledgeBase, file: Path) -> None:
    spawn = multiprocessing.get_context("spawn")
    workers = [spawn.Process(target=make, args=(file,)) for _ in range(3)]

    for worker in workers:
        worker.start()
    for worker in workers:
        worker.join(100)

    assert [0, 0, 0] == [worker.exitcode for worker in workers]
    assert 3 == len(SqliteBoats(file, kb).boats())


SAVING = """
import sys
from dataclasses import replace
from pathlib import Path
from tests.log.keepers import PLATE
from triage.knowledge.store.load import load_knowledge
from triage.log.sqlite import SqliteBoats
boats = SqliteBoats(Path(sys.argv[1]), load_knowledge(Path("rules")))
kept = boats.open(sys.argv[2])
for number in range(10000):
    note = f"{sys.argv[3]} {number}"
    kept = boats.save(kept, replace(kept.survey, findings=(replace(PLATE, note=note), *kept.survey.findings[1:])))
    print(note, flush=True)
"""


@pytest.mark.slow
@pytest.mark.skipif(sys.platform == "win32", reason="nobody is killed like this there")
def test_a_program_killed_in_mid_save_has_lost_nothing_that_it_acknowledged(kb: KnowledgeBase, file: Path) -> None:
    boats = SqliteBoats(file, kb)
    visit = boats.begin(wagtail(PLATE)).visit
    for turn in range(10):
        command = [sys.executable, "-c", SAVING, str(file), visit, str(turn)]
        with subprocess.Popen(command, cwd=ROOT, stdout=subprocess.PIPE, text=True) as saver:
            assert saver.stdout is not None
            acknowledged = saver.stdout.readline()
            time.sleep(0.01 + turn * 0.021)
            os.kill(saver.pid, signal.SIGKILL)
            acknowledged = (acknowledged + saver.stdout.read()).split("\n")[-2]

        (mark,) = SqliteBoats(file, kb).open(visit).survey.findings
        last, kept = (one.split() for one in (acknowledged, mark.note))
        assert str(turn) == last[0] == kept[0]
        assert int(kept[1]) - int(last[1]) in (0, 1)
        assert "ok" == ask(file, "PRAGMA integrity_check")
