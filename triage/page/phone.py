"""The program in a browser: a request in, the answer and what is to be kept out. Nothing here waits for anything."""

from __future__ import annotations

import pickle
from collections.abc import Mapping
from dataclasses import dataclass, field
from urllib.parse import quote

from starlette.formparsers import MultiPartParser
from starlette.types import Message

from triage.app.application import create_app
from triage.app.guards import MAX_BODY
from triage.knowledge.compiled.orders import bring_orders
from triage.knowledge.model import KnowledgeBase
from triage.log.held import HeldBoats

Changed = Mapping[str, bytes | None]
"""Records to keep before an answer is shown; None for one that is to be taken out."""

MultiPartParser.spool_max_size = MAX_BODY  # what is larger would be written by another thread, and there is none


@dataclass
class _Answer:
    """What an app has sent so far."""

    status: int = 500
    headers: dict[str, str] = field(default_factory=dict)
    body: bytes = b""

    async def send(self, message: Message) -> None:
        if message["type"] == "http.response.start":
            self.status = message["status"]
            self.headers = {name.decode("latin-1"): value.decode("latin-1") for name, value in message["headers"]}
        else:
            self.body += message.get("body", b"")


class Phone:
    """The program over these records, which somebody else keeps."""

    def __init__(self, kb: KnowledgeBase, records: Mapping[str, bytes]) -> None:
        """Raises CannotWork when a record is none of ours."""
        self._boats = HeldBoats(kb, records)
        self._app = create_app(kb, self._boats)

    def answer(
        self, method: str, path: str, query: str = "", kind: str = "", body: bytes = b""
    ) -> tuple[int, dict[str, str], bytes, Changed]:
        """The status, the headers and the body of the answer, and the records that changed with it.

        ``path`` has no stroke in front; ``kind`` is the content type of the ``body``.
        """
        sent = _Answer()

        async def receive() -> Message:
            return {"type": "http.request", "body": body, "more_body": False}

        try:
            self._app(_scope(method, f"/{path}", query, kind), receive, sent.send).__await__().__next__()
        except StopIteration:
            pass
        except Exception:  # what went wrong was told in the answer
            if not sent.body:
                raise
        changed, self._boats.changed = self._boats.changed, {}
        return sent.status, sent.headers, sent.body, changed


def knowledge(file: str) -> KnowledgeBase:
    """The knowledge that came with the page, and what was worked out of it when the page was made."""
    with open(file, "rb") as kept:
        kb, orders, worked_out = pickle.load(kept)
    assert isinstance(kb, KnowledgeBase)
    bring_orders(kb, orders)
    kb.worked_out.update(worked_out)
    return kb


def _scope(method: str, path: str, query: str, kind: str) -> dict[str, object]:
    """A request as the page's own form or link would send it."""
    headers = [(b"host", b"page"), (b"sec-fetch-site", b"same-origin")]
    return {
        "type": "http",
        "asgi": {"version": "3.0"},
        "http_version": "1.1",
        "method": method,
        "scheme": "https",
        "path": path,
        "raw_path": quote(path).encode(),
        "query_string": query.encode(),
        "root_path": "",
        "headers": [*headers, (b"content-type", kind.encode())] if kind else headers,
        "client": None,
        "server": ("page", 443),
    }
