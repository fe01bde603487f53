"""What the page is made of is what was pinned, or the page is not made and the one command to run is named."""

from __future__ import annotations

import hashlib
import io
import shutil
import subprocess
import sys
import zipfile
from pathlib import Path

import pytest

from triage.errors import CannotWork
from triage.page import runtime as room
from triage.page.compiling import make
from triage.page.runtime import PACKAGE, checked, pip_command, runtime

TGZ = f"{PACKAGE.replace('@', '-')}.tgz"


def test_what_was_not_pinned_is_refused_and_what_was_is_taken(tmp_path: Path) -> None:
    file = tmp_path / TGZ
    file.write_bytes(b"something else")

    with pytest.raises(CannotWork, match=r"314\.0\.7\.tgz is not the file that this program was tried with"):
        runtime(tmp_path, tmp_path / "workshop")

    pinned = "sha256-ypeBEsobvcr6wjGzmiPcTaeG7/gUfE5yuYB3ha/uSLs="  # of the letter a
    assert checked(file, b"a", integrity=pinned) == b"a"


def test_without_npm_the_command_to_run_elsewhere_is_named(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("TRIAGE_CACHE_DIR", str(tmp_path))
    monkeypatch.setattr(shutil, "which", lambda name: None)

    with pytest.raises(CannotWork, match=rf"npm pack {PACKAGE} .*--runtime FOLDER"):
        runtime(None, tmp_path / "workshop")


def test_a_folder_without_the_runtime_is_told_what_brings_it_there(tmp_path: Path) -> None:
    with pytest.raises(CannotWork, match=rf"{TGZ} is not in .* npm pack {PACKAGE} --pack-destination"):
        runtime(tmp_path, tmp_path / "workshop")


def test_a_package_client_that_fails_is_quoted_and_its_command_named(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def fails(command: object, **_: object) -> subprocess.CompletedProcess[str]:
        return subprocess.CompletedProcess([], 1, "", "no network\nnothing came.")

    monkeypatch.setenv("TRIAGE_CACHE_DIR", str(tmp_path))
    monkeypatch.setattr(shutil, "which", lambda name: name)
    monkeypatch.setattr(subprocess, "run", fails)

    with pytest.raises(CannotWork, match=r"nothing came\. Try this by hand: npm pack"):
        runtime(None, tmp_path / "workshop")


def test_every_library_is_pinned_by_its_digest() -> None:
    pins = [line for line in room.WHEELS.read_text(encoding="utf-8").splitlines() if not line.startswith("#")]

    assert [line for line in pins if not room._PIN.fullmatch(line)] == []
    assert "--require-hashes" in pip_command(Path("folder"))


def test_the_libraries_are_those_of_the_lock_file(root: Path) -> None:
    locked = (root / "requirements.lock").read_text(encoding="utf-8").splitlines()
    pins = room._PIN.findall(room.WHEELS.read_text(encoding="utf-8"))

    assert [name for name, version, _ in pins if f"{name}=={version}" not in locked] == []


def test_compiled_modules_do_what_their_sources_say_and_hold_no_docstrings(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    source = (
        '"""Of nothing."""\n\ndef twice(x):\n    """Two times."""\n    return x + x\n\ndef fails():\n    return 1 / 0\n'
    )
    with zipfile.ZipFile(tmp_path / "sources.zip", "w") as archive:
        archive.writestr("some_room/__init__.py", source)
        archive.writestr("some_room/plain.txt", "as it is")

    make(str(tmp_path / "library.zip"), str(tmp_path / "sources.zip"))

    body = (tmp_path / "library.zip").read_bytes()
    assert b"Two times" not in body
    assert zipfile.ZipFile(io.BytesIO(body)).read("some_room/plain.txt") == b"as it is"
    asked = (
        "import some_room, traceback\nprint(some_room.twice(2))\n"
        "try: some_room.fails()\nexcept ZeroDivisionError: print(traceback.format_exc())"
    )
    done = subprocess.run(
        [sys.executable, "-c", asked],
        env={"PYTHONPATH": str(tmp_path / "library.zip")},
        capture_output=True,
        text=True,
        check=False,
    )
    assert done.stdout.startswith("4\n")
    assert "division by zero" in done.stdout


def test_the_same_sources_make_the_same_bytes(tmp_path: Path) -> None:
    with zipfile.ZipFile(tmp_path / "sources.zip", "w") as archive:
        archive.writestr("b.py", "x = 1")
        archive.writestr("a.py", "y = 2")

    for name in ("one", "two"):
        make(str(tmp_path / name), str(tmp_path / "sources.zip"))

    one, two = (hashlib.sha256((tmp_path / name).read_bytes()).digest() for name in ("one", "two"))
    assert one == two
