"""Knowledge is known by the digest of the files it was read from."""

from __future__ import annotations

import hashlib
from pathlib import Path

import pytest

from tests.conftest import ROOT
from triage.knowledge.digest import digest_of
from triage.knowledge.model import KnowledgeBase
from triage.knowledge.store.load import knowledge_from_texts, load_knowledge

SMALL = ROOT / "tests/knowledge/small"
TEXTS = {file.name: file.read_bytes() for file in sorted(SMALL.glob("*.yaml"))}


def test_it_is_a_sha256_over_every_name_and_text() -> None:
    expected = hashlib.sha256(b"1 a 3 one1 b 3 two").hexdigest()

    assert expected == digest_of({"b": b"two", "a": b"one"}) == digest_of({"a": "one", "b": "two"})


@pytest.mark.parametrize(
    "other", [{"a": b"one2 b 3 two"}, {"a": b"one"}, {"ab": b"one", "b": b"two"}, {"a": b"on", "b": b"etwo"}]
)
def test_other_names_or_texts_have_another(other: dict[str, bytes]) -> None:
    assert digest_of(other) != digest_of({"a": b"one", "b": b"two"})


def test_knowledge_carries_it_however_it_was_read(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("TRIAGE_CACHE_DIR", str(tmp_path))
    texts = {name: text.decode() for name, text in TEXTS.items()}

    read = [load_knowledge(SMALL), knowledge_from_texts(TEXTS), knowledge_from_texts(texts)]

    assert {digest_of(TEXTS)} == {kb.digest for kb in read}


def test_the_shipped_knowledge_has_one_too(kb: KnowledgeBase) -> None:
    assert 64 == len(kb.digest)
