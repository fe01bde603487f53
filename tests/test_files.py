"""Files are written whole or not at all, and read without waiting or end."""

from __future__ import annotations

import errno
import os
import stat
from collections.abc import Callable
from pathlib import Path

import pytest

from tests.bounded import bounded
from triage import files
from triage.errors import CannotWork
from triage.files import cannot, identity, read_bounded, write_whole

OLD, NEW = "as it was\n", "○ anew, and longer than it was\n"


@pytest.fixture
def file(tmp_path: Path) -> Path:
    file = tmp_path / "file.yaml"
    file.write_text(OLD)
    return file


def refusing(number: int) -> Callable[..., None]:
    def refuse(*_: object, **__: object) -> None:
        raise OSError(number, os.strerror(number))

    return refuse


def test_a_new_file_has_the_mode_that_new_files_have(tmp_path: Path) -> None:
    before = os.umask(0o027)
    try:
        write_whole(tmp_path / "some" / "folder" / "new", NEW)
    finally:
        os.umask(before)

    assert NEW == (tmp_path / "some/folder/new").read_text(encoding="utf-8")
    assert 0o640 == stat.S_IMODE((tmp_path / "some/folder/new").stat().st_mode)
    assert ["new"] == os.listdir(tmp_path / "some/folder")


@pytest.mark.parametrize("mode", [0o664, 0o600, 0o644])
def test_an_older_file_keeps_its_mode(file: Path, mode: int) -> None:
    file.chmod(mode)

    write_whole(file, NEW.encode())

    assert (NEW, mode) == (file.read_text(encoding="utf-8"), stat.S_IMODE(file.stat().st_mode))


def test_what_is_read_only_stays_as_it_was(file: Path) -> None:
    file.chmod(0o444)

    with pytest.raises(CannotWork, match=r"file.yaml: it is read-only\. Make it writable"):
        write_whole(file, NEW)

    assert OLD == file.read_text()


@pytest.mark.parametrize("there", [True, False])
def test_a_link_is_followed_and_stays_a_link(tmp_path: Path, there: bool) -> None:
    target, link = tmp_path / "far" / "target", tmp_path / "link"
    target.parent.mkdir()
    if there:
        target.write_text(OLD)
    link.symlink_to(Path("far/target"))

    write_whole(link, NEW)

    assert link.is_symlink()
    assert NEW == target.read_text(encoding="utf-8")


def test_every_name_of_a_file_sees_what_is_written(file: Path, tmp_path: Path) -> None:
    other = tmp_path / "other"
    other.hardlink_to(file)

    write_whole(file, NEW)
    write_whole(file, "short")

    assert "short" == other.read_text()
    assert {"file.yaml", "other"} == set(os.listdir(tmp_path))


def test_a_file_of_several_names_that_is_spoilt_half_way_leaves_a_whole_copy(
    file: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    (tmp_path / "other").hardlink_to(file)
    kept = os.fsync
    calls: list[int] = []

    def fail_the_second_time(handle: int) -> None:
        calls.append(handle)
        if len(calls) == 2:
            raise OSError(errno.ENOSPC, "full")
        kept(handle)

    monkeypatch.setattr(os, "fsync", fail_the_second_time)
    with pytest.raises(CannotWork, match=r"no room left.*All of it is in") as caught:
        write_whole(file, NEW)

    (copy,) = tmp_path.glob(".*.new")
    assert str(copy) in str(caught.value)
    assert NEW == copy.read_text(encoding="utf-8")


@pytest.mark.parametrize("fails", ["fsync", "replace", "chmod"])
def test_whatever_fails_the_old_stays_and_nothing_else_is_left(
    file: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, fails: str
) -> None:
    monkeypatch.setattr(os, fails, refusing(errno.ENOSPC))

    with pytest.raises(CannotWork, match=r"^Cannot write .*file.yaml: there is no room left\. Make room"):
        write_whole(file, NEW)

    assert ["file.yaml"] == os.listdir(tmp_path)
    assert OLD == file.read_text()


def test_the_file_is_on_the_disk_before_it_takes_its_place_and_then_the_folder(
    file: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    done: list[str] = []

    def noted(name: str, kept: Callable[..., None]) -> Callable[..., None]:
        def note(*given: object) -> None:
            done.append(name)
            kept(*given)

        return note

    for name in ("fsync", "replace"):
        monkeypatch.setattr(os, name, noted(name, getattr(os, name)))

    write_whole(file, NEW)
    durable, done[:] = done[:], []
    write_whole(file, OLD, durable=False)

    assert ["fsync", "replace", "fsync"] == durable
    assert ["replace"] == done


def test_stopping_in_the_middle_leaves_nothing_behind(
    file: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def stop(_: int) -> None:
        raise KeyboardInterrupt

    monkeypatch.setattr(os, "fsync", stop)
    with pytest.raises(KeyboardInterrupt):
        write_whole(file, NEW)

    assert ["file.yaml"] == os.listdir(tmp_path)


@pytest.mark.parametrize("number", [*files._WHY, errno.EMFILE])
def test_every_refusal_is_told_in_plain_words(file: Path, monkeypatch: pytest.MonkeyPatch, number: int) -> None:
    monkeypatch.setattr(os, "replace", refusing(number))

    with pytest.raises(CannotWork, match=r"^Cannot write .*file.yaml: [^:]+\. [A-Z][^:]+\.$"):
        write_whole(file, NEW)


def test_a_folder_and_a_place_below_a_file_are_refused(file: Path, tmp_path: Path) -> None:
    with pytest.raises(CannotWork, match="it is a folder"):
        write_whole(tmp_path, NEW)
    with pytest.raises(CannotWork, match="Cannot make the folder"):
        write_whole(file / "below" / "it", NEW)


def test_what_is_no_text_is_refused_before_anything_is_touched(file: Path) -> None:
    with pytest.raises(CannotWork, match="what is no text"):
        write_whole(file, "a lone \udcff")

    assert OLD == file.read_text()


def test_a_device_is_written_to_and_stays_a_device() -> None:
    write_whole(Path(os.devnull), NEW)

    assert stat.S_ISCHR(Path(os.devnull).stat().st_mode)


@pytest.mark.skipif(not Path("/dev/full").exists(), reason="this system has no full device")
def test_a_full_device_is_told() -> None:
    with pytest.raises(CannotWork, match="no room left"):
        write_whole(Path("/dev/full"), NEW)


def test_no_more_is_read_than_was_asked_for(file: Path) -> None:
    assert (b"as it", OLD.encode()) == (read_bounded(file, 5), read_bounded(file, 5000))


def test_neither_a_pipe_nor_a_device_nor_a_folder_is_waited_for(tmp_path: Path) -> None:
    os.mkfifo(tmp_path / "pipe")

    with bounded(2):
        for path in (tmp_path / "pipe", Path("/dev/zero"), tmp_path):
            with pytest.raises(CannotWork, match="Cannot read"):
                read_bounded(path, 10)


def test_one_file_is_known_by_all_its_names(file: Path, tmp_path: Path) -> None:
    (tmp_path / "link").symlink_to(file)
    (tmp_path / "hard").hardlink_to(file)

    assert identity(file) == identity(tmp_path / "link")
    assert identity(file) == identity(tmp_path / "hard")
    assert identity(tmp_path / "none") == identity(tmp_path / "." / "none")
    assert identity(file) != identity(tmp_path / "none")


@pytest.mark.parametrize("code", [32, 33])
def test_a_report_that_another_program_has_open_is_no_matter_of_leave(code: int) -> None:
    error = PermissionError(errno.EACCES, "The process cannot access the file")
    error.winerror = code  # type: ignore[attr-defined]  # as Windows sets it

    assert "Cannot write it: another program has it open. Close it there, or name another place." == str(
        cannot("Cannot write it", error)
    )
