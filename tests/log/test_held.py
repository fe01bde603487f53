"""What a phone keeps of boats that are held in memory: a plain record of each visit and each photograph."""

from __future__ import annotations

import json

import pytest

from tests.log.keepers import PLATE, wagtail
from triage.errors import CannotWork
from triage.knowledge.model import KnowledgeBase
from triage.log.held import HeldBoats


def test_what_changed_is_told_record_by_record(kb: KnowledgeBase) -> None:
    held = HeldBoats(kb)
    begun = held.begin(wagtail(PLATE))
    assert [f"visit/{begun.visit}"] == list(held.changed)
    held.changed.clear()

    name = held.add_photo(begun.visit, b"jpeg")
    assert {f"photo/{begun.visit}/{name}": b"jpeg"} == held.changed

    held.remove(begun.visit)
    assert {f"photo/{begun.visit}/{name}": None, f"visit/{begun.visit}": None} == held.changed


def test_opening_and_listing_change_nothing(kb: KnowledgeBase) -> None:
    held = HeldBoats(kb)
    begun = held.begin(wagtail(PLATE))
    held.changed.clear()

    held.open(begun.visit)
    held.boats()

    assert {} == held.changed


@pytest.mark.parametrize("record", [b"", b"{", b"[]", b"\xff", b'{"form": 1}', b'{"form": "x"}'])
def test_what_is_no_record_is_refused_in_plain_words(kb: KnowledgeBase, record: bytes) -> None:
    with pytest.raises(CannotWork, match="cannot be read"):
        HeldBoats(kb, {"visit/a": record})


def test_a_record_of_a_newer_version_is_refused(kb: KnowledgeBase) -> None:
    held = HeldBoats(kb)
    begun = held.begin(wagtail(PLATE))
    newer = json.loads(held.changed[f"visit/{begun.visit}"] or b"") | {"form": 99, "more": 1}

    with pytest.raises(CannotWork, match="newer version"):
        HeldBoats(kb, {f"visit/{begun.visit}": json.dumps(newer).encode()})
