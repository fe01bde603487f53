"""What is remembered of an unchanged folder of rules: the same knowledge, or nothing at all."""

from __future__ import annotations

import json
import os
import sys
from dataclasses import dataclass, replace
from pathlib import Path

import pytest

from tests.conftest import ROOT
from tests.settling import BOAT
from triage.errors import Place
from triage.inference.evaluate import evaluate
from triage.knowledge import model
from triage.knowledge.compiled import orders
from triage.knowledge.digest import digest_of
from triage.knowledge.model import KnowledgeBase
from triage.knowledge.store import cache as module
from triage.knowledge.store.cache import remember, remembered
from triage.knowledge.store.load import knowledge_from_texts
from triage.resources import MOST, keep, kept
from triage.survey.model import Finding, Reading

TEXTS = {file.name: file.read_bytes() for file in sorted((ROOT / "tests/knowledge/small").glob("*.yaml"))}
DIGEST = digest_of(TEXTS)


@pytest.fixture
def small() -> KnowledgeBase:
    return knowledge_from_texts(TEXTS)


@pytest.fixture(autouse=True)
def folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    folder = tmp_path / "cache"
    monkeypatch.setenv("TRIAGE_CACHE_DIR", str(folder))
    return folder


def the_file(folder: Path) -> Path:
    (file,) = folder.glob("*.json")
    return file


def test_the_shipped_knowledge_comes_back_whole_and_judges_alike(kb: KnowledgeBase) -> None:
    remember(kb)

    back = remembered(kb.digest)

    assert back is not None
    assert module._encoded(kb) == module._encoded(back)
    finding = Finding("one", "joint_stern", "joint_crack", None, {"joint_gap": Reading.at(2, "2")})
    (expected,), (actual,) = evaluate(kb, BOAT, [finding]), evaluate(back, BOAT, [finding])
    assert (expected.lower.levels, expected.upper.levels) == (actual.lower.levels, actual.upper.levels)


def test_the_orders_of_its_graphs_come_back_with_it_and_are_not_worked_out_again(
    kb: KnowledgeBase, monkeypatch: pytest.MonkeyPatch
) -> None:
    expected = orders.orders_of(kb)
    remember(kb)
    back = remembered(kb.digest)

    monkeypatch.setitem(sys.modules, "networkx", None)

    assert back is not None
    assert expected == orders.orders_of(back)
    assert {"decision"} <= set(expected.of_buying)
    assert len(expected.marks) > 100
    assert len(kb.causation.causes) == len(expected.elimination.order)


def test_what_was_kept_without_orders_counts_as_not_there(small: KnowledgeBase, folder: Path) -> None:
    remember(small)
    keep(the_file(folder).name, json.dumps(module._encoded(small)).encode())

    assert remembered(DIGEST) is None


def test_a_changed_text_or_name_is_not_mistaken_for_the_old_one(small: KnowledgeBase) -> None:
    remember(small)
    name = next(iter(TEXTS))

    assert remembered(DIGEST) is not None
    assert remembered(digest_of({**TEXTS, name: TEXTS[name] + b"\n"})) is None
    assert remembered(digest_of({**TEXTS, "more.yaml": b""})) is None


def test_what_is_kept_under_the_name_of_other_texts_is_not_believed(small: KnowledgeBase, folder: Path) -> None:
    remember(small)
    body = kept(the_file(folder).name)
    assert body is not None

    keep(module._name("0" * 64), body)

    assert remembered("0" * 64) is None


@pytest.mark.parametrize(
    "spoilt",
    [b"", b"nonsense", b"0" * 64 + b'\n{"KnowledgeBase":[]}', b"\xff\xfe"],
    ids=["empty", "nonsense", "wrong digest", "not text"],
)
def test_a_spoilt_file_counts_as_not_there(small: KnowledgeBase, folder: Path, spoilt: bytes) -> None:
    remember(small)
    the_file(folder).write_bytes(spoilt)

    assert remembered(DIGEST) is None


@pytest.mark.parametrize(
    "body",
    [
        '["/",["pathlib.Path",0]]',
        '["true",["posix.system",0]]',
        '[["triage.errors.Place"]]',
        '["a",["tuple",0],["mapping",1]]',
        '[["tuple"],["set",2]]',
        '[["tuple",1],"what comes later"]',
        '[[["tuple"]]]',
        '["not a base"]',
        "[]",
        "7",
        "[" * 100_000,
    ],
)
def test_nothing_but_our_own_data_is_made_from_a_file(small: KnowledgeBase, folder: Path, body: str) -> None:
    remember(small)
    keep(the_file(folder).name, body.encode())

    assert remembered(DIGEST) is None


def test_a_value_that_is_met_again_is_kept_once(kb: KnowledgeBase) -> None:
    table = module._encoded(kb)

    assert len(table) == len({json.dumps(node) for node in table})
    assert module._encoded(module._decoded(table)) == table


@pytest.mark.skipif(not hasattr(os, "getuid"), reason="this system does not tell who may write a file")
def test_a_file_that_others_may_write_is_not_believed(small: KnowledgeBase, folder: Path) -> None:
    remember(small)

    the_file(folder).chmod(0o666)

    assert remembered(DIGEST) is None


def test_it_can_be_turned_off_and_a_folder_that_cannot_be_made_is_no_misfortune(
    small: KnowledgeBase, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("TRIAGE_CACHE_DIR", "")
    remember(small)
    turned_off = remembered(DIGEST)
    (tmp_path / "file").write_text("in the way")
    monkeypatch.setenv("TRIAGE_CACHE_DIR", str(tmp_path / "file/below"))
    remember(small)

    assert turned_off is None
    assert remembered(DIGEST) is None


def test_only_the_newest_are_kept(small: KnowledgeBase, folder: Path) -> None:
    for number in range(MOST + 3):
        remember(replace(small, digest=str(number)))

    assert MOST == len(list(folder.glob("*.json")))
    assert remembered(str(MOST + 2)) is not None


def test_two_kinds_of_data_may_be_called_alike(monkeypatch: pytest.MonkeyPatch) -> None:
    @dataclass(frozen=True)
    class Rule:
        said: str

    monkeypatch.setitem(module._CLASSES, module._name_of(Rule), Rule)
    monkeypatch.setattr(module, "_MAKERS", {**module._MAKERS, module._name_of(Rule): Rule})

    there_and_back = module._decoded(module._encoded((Rule("one"), Place("two"))))

    assert (Rule("one"), Place("two")) == there_and_back
    assert model.Rule.__name__ == Rule.__name__
    assert module._name_of(model.Rule) in module._CLASSES
