"""The knowledge as the page keeps it: as it is, and with what hearing makes of it, so that no start works it out.

It runs in the very Python that is to read it, which is the page's own.
"""

from __future__ import annotations

import io
import pickle
import sys
from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING, Any

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
    made = io.BytesIO()
    _Keeping(made, pickle.HIGHEST_PROTOCOL).dump((kb, orders_of(kb), carried))
    return made.getvalue()


class _Keeping(pickle.Pickler):
    """Keeps everything but the words that only made what is kept beside them."""

    def reducer_override(self, one: object) -> Any:
        """How something is kept that is no plain value."""
        from triage.knowledge.model.speech import Speech
        from triage.page.spent import Spent

        if not isinstance(one, Speech):
            return NotImplemented
        return replace(one, events=Spent(), complaints=Spent()).__reduce_ex__(pickle.HIGHEST_PROTOCOL)


def _module(key: object) -> str:
    """Of the function that came to something."""
    assert isinstance(key, tuple)
    return str(key[0].__module__)
