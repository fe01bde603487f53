"""The knowledge as the page keeps it: as it is, and with what hearing makes of it, so that no start works it out.

It runs in the very Python that is to read it, which is the page's own.
"""

from __future__ import annotations

import pickle
import sys
from pathlib import Path
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from triage.knowledge.model import KnowledgeBase

_CARRIED = ("triage.knowledge.", "triage.listening.", "triage.survey.")
"""Of the functions in these, what they came to is brought along; what others make belongs to one run of the program."""


def make(target: str, plain: str, library: str, core: str) -> None:
    """Write what `triage.page.phone.knowledge` reads, from plain knowledge, with the library that is to read it."""
    sys.path.insert(0, library)
    from triage.page import starting

    starting.prepare(core)
    from triage.knowledge.store.cache import from_plain

    Path(target).write_bytes(kept(from_plain(Path(plain).read_bytes())))


def kept(kb: KnowledgeBase) -> bytes:
    """The knowledge, the orders that its graphs come to, and all that hearing somebody tell of a mark makes of it."""
    from triage.knowledge.compiled.orders import orders_of
    from triage.listening.story import hear
    from triage.page.warming import a_mark

    hear(a_mark(kb), kb)
    carried = {key: value for key, value in kb.worked_out.items() if _module(key).startswith(_CARRIED)}
    return pickle.dumps((kb, orders_of(kb), carried), pickle.HIGHEST_PROTOCOL)


def _module(key: object) -> str:
    """Of the function that came to something."""
    assert isinstance(key, tuple)
    return str(key[0].__module__)
