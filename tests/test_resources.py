"""What is kept from one run to the next: whole and ours, or not there."""

from __future__ import annotations

import os
from pathlib import Path

import pytest

from triage.resources import MOST, keep, kept

NAME, BODY = "something.kind", b"some\nlines"

owned = pytest.mark.skipif(not hasattr(os, "getuid"), reason="this system does not tell who may write a file")


@pytest.fixture(autouse=True)
def folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    folder = tmp_path / "some" / "cache"
    monkeypatch.setenv("TRIAGE_CACHE_DIR", str(folder))
    return folder


@pytest.mark.parametrize("body", [b"", BODY, bytes(range(256))])
def test_what_was_kept_comes_back_under_its_name_alone(body: bytes) -> None:
    before = kept(NAME)
    keep(NAME, body)

    assert (None, body, None) == (before, kept(NAME), kept("something.else"))


def test_the_later_one_takes_the_place_of_the_earlier(folder: Path) -> None:
    keep(NAME, b"earlier")
    keep(NAME, BODY)

    assert BODY == kept(NAME)
    assert [NAME] == os.listdir(folder)


@pytest.mark.parametrize("cut", [0, 1, 64, 65, 70])
def test_a_file_that_was_cut_short_counts_as_not_there(folder: Path, cut: int) -> None:
    keep(NAME, BODY)
    whole = (folder / NAME).read_bytes()

    (folder / NAME).write_bytes(whole[:cut])

    assert kept(NAME) is None


def test_another_body_behind_the_digest_counts_as_not_there(folder: Path) -> None:
    keep(NAME, BODY)

    (folder / NAME).write_bytes((folder / NAME).read_bytes().replace(b"some", b"same"))

    assert kept(NAME) is None


@owned
@pytest.mark.parametrize("writable", [NAME, ""], ids=["the file", "the folder"])
@pytest.mark.parametrize("mode", [0o720, 0o702])
def test_what_others_may_write_is_not_believed(folder: Path, writable: str, mode: int) -> None:
    keep(NAME, BODY)

    (folder / writable).chmod(mode)

    assert kept(NAME) is None


@owned
def test_nothing_is_put_where_others_may_write(folder: Path) -> None:
    folder.mkdir(parents=True)
    folder.chmod(0o777)

    keep(NAME, BODY)

    assert [] == os.listdir(folder)


@owned
def test_what_somebody_else_owns_is_not_believed(monkeypatch: pytest.MonkeyPatch) -> None:
    keep(NAME, BODY)
    me = os.getuid()

    monkeypatch.setattr(os, "getuid", lambda: me + 1)

    assert kept(NAME) is None


def test_keeping_can_be_turned_off(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    monkeypatch.setenv("TRIAGE_CACHE_DIR", "")
    monkeypatch.setenv("XDG_CACHE_HOME", str(tmp_path))

    keep(NAME, BODY)

    assert kept(NAME) is None
    assert [] == os.listdir(tmp_path)


def test_a_folder_that_cannot_be_made_is_no_misfortune(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    (tmp_path / "file").write_text("in the way")
    monkeypatch.setenv("TRIAGE_CACHE_DIR", str(tmp_path / "file" / "below"))

    keep(NAME, BODY)

    assert kept(NAME) is None


def test_it_is_in_the_folder_of_the_user_for_such_things(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    monkeypatch.delenv("TRIAGE_CACHE_DIR")
    monkeypatch.setenv("XDG_CACHE_HOME", str(tmp_path))

    keep(NAME, BODY)

    assert [tmp_path / "dinghy-triage" / NAME] == list(tmp_path.rglob("*.kind"))


def test_only_the_newest_of_a_kind_are_kept(folder: Path) -> None:
    keep("first.else", BODY)
    for number in range(MOST + 3):
        keep(f"{number}.kind", BODY)
        os.utime(folder / f"{number}.kind", (number, number))
    keep("last.kind", BODY)

    assert {"last", *(str(number) for number in range(4, MOST + 3))} == {file.stem for file in folder.glob("*.kind")}
    assert BODY == kept("first.else")
