"""What lies in a folder of rules is read, or told; nothing is passed over, waited for or read without end."""

from __future__ import annotations

import os
import shutil
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

import pytest

from tests.bounded import bounded
from tests.conftest import ROOT
from triage.errors import BadRules, CannotWork
from triage.knowledge.store.load import load_knowledge


@pytest.fixture
def rules(tmp_path: Path) -> Path:
    """A folder of the small rules that may be changed."""
    folder = tmp_path / "rules"
    shutil.copytree(ROOT / "tests/knowledge/small", folder)
    return folder


def test_an_edited_rule_is_seen_by_a_process_that_read_it_before(rules: Path) -> None:
    before = load_knowledge(rules)
    text = (rules / "rules.yaml").read_text(encoding="utf-8")
    known = os.stat(rules / "rules.yaml")

    (rules / "rules.yaml").write_text(text.replace("because: ", "because: Look, "), encoding="utf-8")
    os.utime(rules / "rules.yaml", ns=(known.st_atime_ns, known.st_mtime_ns))
    edited = load_knowledge(rules)
    (rules / "rules.yaml").write_text(text, encoding="utf-8")

    assert edited.digest != before.digest
    assert edited.rules[0].because.startswith("Look, ")
    assert load_knowledge(rules) is before


def test_a_file_of_rules_whose_name_is_no_text_is_told(rules: Path) -> None:
    (rules / os.fsdecode(b"caf\xe9.yaml")).write_text("")

    with pytest.raises(BadRules, match=r"caf\?\.yaml: the name of this file is not plain text"):
        load_knowledge(rules)


@pytest.mark.parametrize("target", ["/dev/zero", "nowhere"])
def test_a_device_or_a_link_to_nothing_among_the_rules_is_told_and_not_passed_over(rules: Path, target: str) -> None:
    (rules / "more.yaml").symlink_to(target)

    with pytest.raises(BadRules, match=r"more\.yaml: is a device, a pipe or a link to nothing"):
        load_knowledge(rules)


def test_a_file_without_a_bound_is_told_in_bounded_time_and_memory(rules: Path) -> None:
    with (rules / "more.yaml").open("wb") as file:
        file.truncate(8_000_000_000)

    with bounded(), pytest.raises(BadRules, match=r"more\.yaml: this file is too large"):
        load_knowledge(rules)


@pytest.mark.parametrize("refused", ["folder", "file"])
def test_what_may_not_be_read_is_told_and_not_passed_over(rules: Path, refused: str) -> None:
    (rules / "inner").mkdir()
    shutil.copy(rules / "rules.yaml", rules / "inner/more.yaml")
    (rules / "inner" if refused == "folder" else rules / "inner/more.yaml").chmod(0)

    with as_anybody(rules), pytest.raises(CannotWork, match=r"Cannot read .*inner.*: you are not allowed to\. Change"):
        load_knowledge(rules)


@contextmanager
def as_anybody(folder: Path) -> Iterator[None]:
    """Without the rights of a superuser, who may read everything; a folder and those above it are open to all."""
    if os.geteuid() != 0:
        yield
        return
    above = [folder, *(one for one in folder.parents if one.owner() == "root" and not one.stat().st_mode & 0o1)]
    modes = [one.stat().st_mode for one in above]
    for one, mode in zip(above, modes, strict=True):
        one.chmod(mode | 0o055)
    os.seteuid(65534)
    try:
        yield
    finally:
        os.seteuid(0)
        for one, mode in zip(above, modes, strict=True):
            one.chmod(mode)
