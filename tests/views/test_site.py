"""A folder of pages goes from one whole state to another, and nothing that is not ours is touched."""

from __future__ import annotations

import contextlib
import errno
import os
from collections.abc import Callable
from pathlib import Path

import pytest

from triage.errors import BadInput, CannotWork
from triage.views.site import replace_all

OLD = {"index.html": "old", "gone.html": "old"}
NEW = {"index.html": "new", "more.html": "new"}
MARKER = ".marker"


def write(folder: Path, files: dict[str, str]) -> None:
    replace_all(folder, files, MARKER, what="a book")


def held(folder: Path) -> dict[str, str]:
    return {file.name: file.read_text() for file in sorted(folder.iterdir()) if file.name != MARKER}


def fail_after(number: int, kept: Callable[..., None], error: BaseException) -> Callable[..., None]:
    left = [number]

    def fail(*given: object) -> None:
        left[0] -= 1
        if left[0] < 0:
            raise error
        kept(*given)

    return fail


@pytest.fixture
def book(tmp_path: Path) -> Path:
    write(tmp_path / "book", OLD)
    return tmp_path / "book"


def test_the_new_takes_the_place_of_the_old(book: Path) -> None:
    before = held(book)

    write(book, NEW)

    assert (OLD, NEW) == (before, held(book))


def test_a_folder_that_holds_something_else_is_refused_and_stays(tmp_path: Path) -> None:
    (tmp_path / "handbook.css").write_text("mine")
    (tmp_path / "index.html").write_text("mine")

    with pytest.raises(BadInput, match=f"{tmp_path}: already holds something that is not a book of ours"):
        write(tmp_path, NEW)

    assert {"handbook.css": "mine", "index.html": "mine"} == held(tmp_path)


def test_a_link_is_replaced_and_not_written_through(book: Path, tmp_path: Path) -> None:
    (tmp_path / "letter").write_text("Dear all")
    (book / "index.html").unlink()
    (book / "index.html").symlink_to(tmp_path / "letter")

    write(book, NEW)

    assert "Dear all" == (tmp_path / "letter").read_text()
    assert NEW == held(book)


def test_a_marker_that_is_a_link_marks_nothing(book: Path, tmp_path: Path) -> None:
    (book / MARKER).rename(tmp_path / "elsewhere")
    (book / MARKER).symlink_to(tmp_path / "elsewhere")

    with pytest.raises(BadInput):
        write(book, NEW)


@pytest.mark.parametrize("name", ["../outside", "/etc/nothing", ".hidden", ""])
def test_a_marker_cannot_have_other_files_taken_away(book: Path, tmp_path: Path, name: str) -> None:
    (tmp_path / "outside").write_text("stays")
    (book / ".hidden").write_text("stays")
    (book / MARKER).write_text(f"first line\n{name}\n")

    write(book, NEW)

    assert "stays" == (tmp_path / "outside").read_text() == (book / ".hidden").read_text()


@pytest.mark.parametrize("number", range(6))
def test_a_full_disk_leaves_the_old_one_or_the_whole_new_one(
    book: Path, monkeypatch: pytest.MonkeyPatch, number: int
) -> None:
    with monkeypatch.context() as patch:
        patch.setattr(os, "fsync", fail_after(number, os.fsync, OSError(errno.ENOSPC, "full")))
        with pytest.raises(CannotWork, match="no room left"):
            write(book, NEW)

    assert held(book) in (OLD, NEW)

    write(book, NEW)

    assert NEW == held(book)


@pytest.mark.parametrize("number", range(20))
def test_wherever_it_is_stopped_the_next_time_mends_it(
    book: Path, monkeypatch: pytest.MonkeyPatch, number: int
) -> None:
    for name in ("replace", "fsync"):
        with monkeypatch.context() as patch:
            patch.setattr(os, name, fail_after(number, getattr(os, name), KeyboardInterrupt()))
            with contextlib.suppress(KeyboardInterrupt):
                write(book, NEW)

    write(book, NEW)

    assert NEW == held(book)


def test_of_a_folder_that_was_made_in_vain_nothing_is_left(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(os, "fsync", fail_after(2, os.fsync, OSError(errno.ENOSPC, "full")))

    with pytest.raises(CannotWork):
        write(tmp_path / "book", NEW)

    assert [] == os.listdir(tmp_path)
