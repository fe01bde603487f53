"""What is kept from one run to the next: whole and ours, or not there."""

from __future__ import annotations

import os
from pathlib import Path

import pytest

from tests.bounded import bounded
from triage import resources
from triage.errors import CannotWork
from triage.resources import MOST, cache_dir, data_dir, keep, kept, kept_file

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


@pytest.mark.skipif(not hasattr(os, "mkfifo"), reason="this system has no named pipes")
def test_a_pipe_in_ones_own_cache_is_not_waited_for(folder: Path) -> None:
    folder.mkdir(parents=True, mode=0o700)
    os.mkfifo(folder / NAME, 0o600)

    with bounded(2):
        keep(NAME, BODY)

        assert (None, None) == (kept(NAME), kept_file(NAME))


def test_other_files_may_be_kept_there_unless_somebody_else_could_write_them(folder: Path) -> None:
    before = kept_file("proofs.sqlite")
    (folder / "proofs.sqlite").write_bytes(b"")
    (folder / "proofs.sqlite").chmod(0o666)

    assert (folder / "proofs.sqlite", None) == (before, kept_file("proofs.sqlite"))


def test_somebody_without_a_name_and_a_home_keeps_nothing(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    for variable in ("TRIAGE_CACHE_DIR", "XDG_CACHE_HOME", "HOME", "LOCALAPPDATA"):
        monkeypatch.delenv(variable, raising=False)
    monkeypatch.setattr(os.path, "expanduser", lambda path: path)  # what it does for a user nobody knows
    monkeypatch.chdir(tmp_path)

    keep(NAME, BODY)

    assert (None, None) == (cache_dir(), kept(NAME))
    assert [] == os.listdir(tmp_path)


def test_what_should_be_there_and_is_not_is_told_plainly(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    monkeypatch.setenv("TRIAGE_RULES_DIR", str(tmp_path / "none"))

    with pytest.raises(CannotWork, match=r"The rules are not where they should be, at .*none\. Mend TRIAGE_RULES_DIR"):
        data_dir("rules")


@pytest.mark.parametrize(("project", "expected"), [("dinghy-triage", "rules"), ("somebody-else", "triage/_data/rules")])
def test_a_project_of_somebody_else_beside_the_package_does_not_mislead(
    monkeypatch: pytest.MonkeyPatch, tmp_path: Path, project: str, expected: str
) -> None:
    (tmp_path / "pyproject.toml").write_text(f'[project]\nname = "{project}"\n')
    for folder in ("rules", "triage/_data/rules"):
        (tmp_path / folder).mkdir(parents=True)
    monkeypatch.setattr(resources, "_PACKAGE", tmp_path / "triage")

    assert tmp_path / expected == data_dir("rules")
