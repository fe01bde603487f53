"""The program served by one command: reached, told of, ended with Ctrl-C; and what stands in its way."""

from __future__ import annotations

import importlib
import os
import re
import signal
import socket
import subprocess
import sys
import urllib.error
import urllib.request
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

import pytest
from click.testing import CliRunner

from tests.conftest import ROOT
from triage.cli import main
from triage.cli.codes import COULD_NOT_WORK
from triage.knowledge.model import KnowledgeBase
from triage.log.sqlite import SqliteBoats
from triage.log.sqlite_file import MIGRATIONS

serving = importlib.import_module("triage.cli.serve")
posix = pytest.mark.skipif(sys.platform == "win32", reason="nobody is interrupted like this there")


@contextmanager
def served(*words: str) -> Iterator[tuple[subprocess.Popen[str], list[str]]]:
    """The program as it runs, and its first lines: down to the one that says how it ends."""
    command = [sys.executable, "-m", "triage", "serve", "--port", "0", "--no-browser", *words]
    told: list[str] = []
    with subprocess.Popen(
        command,
        cwd=ROOT,
        stdout=subprocess.PIPE,
        stderr=subprocess.STDOUT,
        text=True,
        env={**os.environ, "PYTHONUNBUFFERED": "1"},
    ) as running:
        try:
            assert running.stdout is not None
            while not told or "Ctrl-C" not in told[-1]:
                told.append(running.stdout.readline())
                assert told[-1], told
            yield running, told
        finally:
            running.kill()


def link_in(told: list[str]) -> str:
    return next(found[0] for line in told if (found := re.search(r"http://\S+", line)))


def refused(*words: str) -> str:
    result = CliRunner().invoke(main, ["serve", "--no-browser", *words])
    assert COULD_NOT_WORK == result.exit_code, result.output
    return result.output


@posix
def test_it_says_in_two_lines_what_to_do_and_ends_quietly(tmp_path: Path) -> None:
    file = tmp_path / "boats.sqlite"

    with served("--file", str(file)) as (running, told):
        with urllib.request.urlopen(link_in(told)) as page:
            assert b"What did you find?" in page.read()
        running.send_signal(signal.SIGINT)
        rest, _ = running.communicate(timeout=20)

    assert 2 == len(told)
    assert link_in(told).startswith("http://127.0.0.1:")
    assert f"Ended. The boats are kept in {file}." == rest.strip()
    assert 0 == running.returncode
    assert file.exists()


@posix
def test_it_is_reached_under_its_own_address_only(tmp_path: Path) -> None:
    with served("--file", str(tmp_path / "boats.sqlite")) as (_, told):
        asked = urllib.request.Request(link_in(told), headers={"host": "evil.example"})
        with pytest.raises(urllib.error.HTTPError, match="400"):
            urllib.request.urlopen(asked)


@posix
def test_a_visit_is_there_after_the_program_was_killed(tmp_path: Path) -> None:
    file = tmp_path / "boats.sqlite"
    with served("--file", str(file)) as (running, told):
        link = link_in(told)
        form = b"text=crack+in+the+side+deck"
        begun = urllib.request.Request(f"{link}new", form, {"origin": link.rstrip("/")})
        with urllib.request.urlopen(begun) as page:
            path = page.url.removeprefix(link)
        os.kill(running.pid, signal.SIGKILL)

    with served("--file", str(file)) as (_, told), urllib.request.urlopen(f"{link_in(told)}{path}") as page:
        assert 200 == page.status


def test_shared_it_is_told_by_a_link_and_a_code(
    tmp_path: Path, kb: KnowledgeBase, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(serving, "_address_here", lambda: "127.0.0.1")
    monkeypatch.setattr(serving, "_run", lambda app, listening: None)

    told = (
        CliRunner()
        .invoke(main, ["serve", "--no-browser", "--share", "--port", "0", "--file", str(tmp_path / "b")])
        .output
    )

    assert re.search(r"open http://127\.0\.0\.1:\d+/\?k=[\w-]{24}$", told, re.MULTILINE)
    assert "█▀▀▀▀▀█" in told or "█ ▄▄▄▄▄ █" in told
    assert "Whoever has the link above can read and change every boat" in told


def test_a_port_that_is_taken_is_told(tmp_path: Path) -> None:
    with socket.create_server(("127.0.0.1", 0)) as taken:
        port = taken.getsockname()[1]
        told = refused("--file", str(tmp_path / "boats.sqlite"), "--port", str(port))

    assert f"Port {port} is taken" in told
    assert "name another with --port" in told


def test_a_newer_file_is_told(tmp_path: Path, kb: KnowledgeBase) -> None:
    file = tmp_path / "boats.sqlite"
    boats = SqliteBoats(file, kb)
    boats._db.execute(f"PRAGMA user_version = {len(MIGRATIONS) + 1}")
    boats.close()

    assert "newer version of this program" in refused("--file", str(file))


def test_a_file_that_cannot_be_written_is_told(tmp_path: Path) -> None:
    file = tmp_path / "boats.sqlite"
    file.touch(0o400)

    assert "it is read-only" in refused("--file", str(file))
    assert "Cannot make the folder" in refused("--file", str(file / "boats.sqlite"))


def test_without_a_network_nothing_can_be_shared(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(serving, "NOWHERE", ("127.0.0.1", 9))

    assert "on no network" in refused("--share", "--file", str(tmp_path / "boats.sqlite"))


def test_without_a_file_it_is_kept_in_ones_own_folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("XDG_DATA_HOME", str(tmp_path))
    monkeypatch.setenv("HOME", str(tmp_path))
    monkeypatch.setattr(serving, "_run", lambda app, listening: None)

    told = CliRunner().invoke(main, ["serve", "--no-browser", "--port", "0"]).output

    assert str(tmp_path) in told
    assert [file.name for file in tmp_path.rglob("boats.sqlite")]


def test_no_browser_is_opened_where_it_would_take_the_terminal(monkeypatch: pytest.MonkeyPatch) -> None:
    opened: list[str] = []
    monkeypatch.setattr("webbrowser.open", opened.append)
    monkeypatch.setattr(sys, "platform", "linux")
    for name in ("DISPLAY", "WAYLAND_DISPLAY"):
        monkeypatch.delenv(name, raising=False)

    serving._open("http://127.0.0.1:8017/")

    assert [] == opened
