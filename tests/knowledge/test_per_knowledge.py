"""What is worked out once for each knowledge base, and freed with it."""

from __future__ import annotations

import gc
import pickle
import weakref
from dataclasses import replace

import pytest

from tests.mistakes import small_base
from triage.knowledge.model import KnowledgeBase
from triage.knowledge.per_knowledge import per_knowledge


class Value:
    """Something that holds on to the knowledge base it was made from."""

    def __init__(self, kb: KnowledgeBase, *parts: object) -> None:
        self.kb, self.parts = kb, parts


@per_knowledge
def value(kb: KnowledgeBase, *parts: object, named: str = "") -> Value:
    """A value."""
    return Value(kb, *parts, named)


@per_knowledge
def other(kb: KnowledgeBase) -> Value:
    return Value(kb)


@per_knowledge
def nothing(kb: KnowledgeBase) -> None:
    calls.append(kb)


calls: list[KnowledgeBase] = []


def test_it_is_worked_out_once_for_each_knowledge_base_function_and_argument() -> None:
    one, two = small_base(), small_base()

    assert value(one, 1) is value(one, 1)
    assert value(one, named="so") is value(one, named="so")
    assert len({id(each) for each in (value(one), value(one, 1), value(one, named="so"), value(two), other(one))}) == 5
    assert value(two).kb is two


def test_none_is_a_value_too() -> None:
    kb = small_base()

    nothing(kb)
    nothing(kb)

    assert [kb] == calls
    calls.clear()


def test_the_value_is_freed_with_the_knowledge_base_although_it_holds_on_to_it() -> None:
    kb = small_base()
    gone = weakref.ref(value(kb))

    del kb
    gc.collect()

    assert gone() is None


@pytest.mark.parametrize("same", [lambda kb: replace(kb), lambda kb: pickle.loads(pickle.dumps(kb))])
def test_a_copy_works_its_own_out(same: type) -> None:
    kb = small_base()
    value(kb)

    copied = same(kb)

    assert {} == copied.worked_out
    assert value(copied).kb is copied


def test_the_function_keeps_its_name_and_words() -> None:
    assert ("value", "A value.") == (value.__name__, value.__doc__)
