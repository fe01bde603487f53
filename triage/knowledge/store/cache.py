"""What a folder of rules came to the last time, so that an unchanged one need not be read again.

It is kept under the digest of all that it depends on: the rules and the code that reads them. It is plain JSON, and
nothing but our frozen dataclasses is made from it: the knowledge, and the orders that its graphs come to. What does
not fit counts as not there. Every distinct value stands in it once, after its parts: a string or number as itself,
else as its kind and the places of its parts. Kinds have their full names, so that two classes may be called alike.
"""

from __future__ import annotations

import dataclasses
import hashlib
import json
from collections.abc import Callable, Hashable, Iterable, Mapping
from functools import cache
from pathlib import Path
from typing import Any

from triage import errors
from triage.knowledge.compiled import orders
from triage.knowledge.compiled.orders import Orders, bring_orders, orders_of
from triage.knowledge.model import (
    KnowledgeBase,
    base,
    cause,
    conditions,
    event,
    everyday,
    frequencies,
    lexicon,
    ontology,
    promise,
    purchase,
    repair,
    rule,
    scale,
    speech,
    sums,
    teaching,
    ways,
)
from triage.resources import cache_dir, keep, kept
from triage.version import __version__

_MADE_OF = (
    base,
    cause,
    conditions,
    errors,
    event,
    everyday,
    frequencies,
    lexicon,
    ontology,
    orders,
    promise,
    purchase,
    repair,
    rule,
    scale,
    speech,
    sums,
    teaching,
    ways,
)


def _name_of(kind: type) -> str:
    """What no other class is called."""
    return f"{kind.__module__}.{kind.__qualname__}"


_CLASSES = {
    _name_of(thing): thing
    for module in _MADE_OF
    for thing in vars(module).values()
    if isinstance(thing, type) and dataclasses.is_dataclass(thing) and thing.__module__ == module.__name__
}


def remembered(digest: str) -> KnowledgeBase | None:
    """The knowledge that the texts with this digest came to, if it can be had without reading them."""
    body = kept(_name(digest))
    if body is None:
        return None
    try:
        kb = from_plain(body)
    except (ValueError, TypeError, KeyError, IndexError, RecursionError):
        return None
    return kb if kb.digest == digest else None


def remember(kb: KnowledgeBase) -> None:
    """Write down what was read, unless keeping is turned off."""
    if cache_dir() is not None:
        keep(_name(kb.digest), as_plain(kb))


def as_plain(kb: KnowledgeBase) -> bytes:
    """The knowledge, and the orders that its graphs come to, as plain JSON."""
    return json.dumps(_encoded((kb, orders_of(kb))), ensure_ascii=False, separators=(",", ":")).encode("utf-8")


def from_plain(body: bytes) -> KnowledgeBase:
    """What `as_plain` wrote. What it cannot have written raises ValueError, or what else trying to read it raises."""
    kb, known = _decoded(json.loads(body))
    if not (isinstance(kb, KnowledgeBase) and isinstance(known, Orders)):
        raise ValueError("this is no knowledge")
    bring_orders(kb, known)
    return kb


def _name(digest: str) -> str:
    """After every name and text, and the code that makes knowledge of them."""
    return f"{hashlib.sha256(_code() + digest.encode('ascii')).hexdigest()}.json"


@cache
def _code() -> bytes:
    package = Path(__file__).parents[2]
    sources = sorted((*package.glob("*.py"), *package.glob("parsing/*.py"), *package.glob("knowledge/**/*.py")))
    return hashlib.sha256(__version__.encode() + b"".join(source.read_bytes() for source in sources)).digest()


def _encoded(kb: Any) -> list[Any]:
    table: list[Any] = []
    places: dict[Hashable, int] = {}

    def place(value: Any) -> int:
        node: Any = value
        key: tuple[Any, ...] = (type(value), value)
        if not isinstance(value, (str, int, float, type(None))):
            kind, parts = _taken_apart(value)
            key = (kind, *map(place, parts))
            node = list(key)
        if key not in places:
            places[key] = len(table)
            table.append(node)
        return places[key]

    place(kb)
    return table


def _taken_apart(value: Any) -> tuple[str, Iterable[Any]]:
    if isinstance(value, tuple):
        return "tuple", value
    if isinstance(value, frozenset):
        return "set", sorted(value)
    if isinstance(value, Mapping):
        return "mapping", (part for pair in value.items() for part in pair)
    name = _name_of(type(value))
    assert name in _CLASSES, f"{name} has no place in a knowledge base"
    return name, (getattr(value, field.name) for field in dataclasses.fields(value))


_MAKERS: Mapping[str, Callable[..., Any]] = {
    **_CLASSES,
    "tuple": lambda *parts: parts,
    "set": lambda *parts: frozenset(parts),
    "mapping": lambda *parts: dict(zip(parts[::2], parts[1::2], strict=True)),
}


def _decoded(table: Iterable[Any]) -> Any:
    """The last value of the table, which holds all the others."""
    made: list[Any] = []
    for node in table:
        made.append(_MAKERS[node[0]](*[made[part] for part in node[1:]]) if isinstance(node, list) else node)
    return made[-1]
