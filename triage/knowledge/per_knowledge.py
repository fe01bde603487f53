"""What is worked out once for each knowledge base."""

from __future__ import annotations

from collections.abc import Callable
from functools import wraps
from typing import Concatenate, ParamSpec, TypeVar, cast

from triage.knowledge.model import KnowledgeBase

P = ParamSpec("P")
T = TypeVar("T")


def per_knowledge(function: Callable[Concatenate[KnowledgeBase, P], T]) -> Callable[Concatenate[KnowledgeBase, P], T]:
    """Have a function of a knowledge base, and of what else can be hashed, worked out once for each.

    The values stand in the knowledge base itself. A table elsewhere, even a weak one, would keep it for good as soon
    as a value refers to it; so they are freed together. Two threads may both work a value out; both get the same one.
    """

    @wraps(function)
    def known(kb: KnowledgeBase, /, *args: P.args, **kwargs: P.kwargs) -> T:
        key = (known, args, tuple(sorted(kwargs.items())))
        if key not in kb.worked_out:
            kb.worked_out.setdefault(key, function(kb, *args, **kwargs))
        return cast("T", kb.worked_out[key])

    return known


def bring_along(kb: KnowledgeBase, function: Callable[[KnowledgeBase], T], value: T) -> None:
    """Have such a function of ``kb`` alone answer with what it came to before, for the same knowledge."""
    kb.worked_out[function, (), ()] = value
