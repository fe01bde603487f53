"""What stands before every screen: who may send, how much, and what a browser may do with the answer."""

from __future__ import annotations

from collections.abc import MutableMapping
from typing import Any
from urllib.parse import urlsplit

from starlette.datastructures import Headers, MutableHeaders
from starlette.exceptions import HTTPException
from starlette.requests import Request
from starlette.types import ASGIApp, Message, Receive, Scope, Send

from triage.app.screen import problem

MAX_BODY = 12 * 1024 * 1024
"""Bytes that are taken at once: a photograph as a telephone takes it."""

READS = frozenset({"GET", "HEAD", "OPTIONS"})

POLICY = (
    "default-src 'none'; script-src 'self'; worker-src 'self'; connect-src 'self'; form-action 'self'; "
    "manifest-src 'self'; style-src 'self'; img-src 'self' data: blob:; base-uri 'none'; frame-ancestors 'none'"
)
OPENER = "cross-origin-opener-policy"
"""Browsers complain of it on plain http from another machine, where it is worth nothing."""

HEADERS = {
    "content-security-policy": POLICY,
    "x-content-type-options": "nosniff",
    "referrer-policy": "same-origin",  # with none, browsers would send forms from nowhere
    OPENER: "same-origin",
    "cross-origin-resource-policy": "same-origin",
}


class SecurityHeaders:
    """Every answer carries the strict policy, unless it has one of its own."""

    def __init__(self, app: ASGIApp) -> None:
        self.app = app

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """The answer, with the headers."""

        async def with_headers(message: Message) -> None:
            if message["type"] == "http.response.start":
                headers = MutableHeaders(scope=message)
                for name, value in HEADERS.items():
                    if name != OPENER or _is_trusted(scope):
                        headers.setdefault(name, value)
            await send(message)

        await self.app(scope, receive, with_headers)


def _is_trusted(scope: Scope) -> bool:
    """Whether a browser takes where this is served for trustworthy: https, or this very machine."""
    host = Headers(scope=scope).get("host", "") if scope["type"] == "http" else ""
    return scope.get("scheme") == "https" or host.rpartition(":")[0] in ("127.0.0.1", "localhost", "[::1]")


class OriginCheck:
    """Only the program's own pages may send anything. A browser says where a form was sent from; others say nothing."""

    def __init__(self, app: ASGIApp) -> None:
        self.app = app

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """The answer, or that it was not taken."""
        if scope["type"] == "http" and scope["method"] not in READS and not _own(scope):
            await problem(Request(scope), 403)(scope, receive, send)
        else:
            await self.app(scope, receive, send)


def _own(scope: MutableMapping[str, Any]) -> bool:
    """Whether it was sent from one of the program's own pages. Over plain http to another machine only the origin
    tells, for browsers leave the rest out there.
    """
    headers = Headers(scope=dict(scope))
    site, origin = headers.get("sec-fetch-site"), headers.get("origin")
    if site is not None:
        return site == "same-origin"
    return origin is not None and urlsplit(origin).netloc == headers.get("host")


class BodyLimit:
    """What is sent may be so large and no larger, whether it says so beforehand or not."""

    def __init__(self, app: ASGIApp, most: int = MAX_BODY) -> None:
        self.app, self.most = app, most

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """The answer, or that it was too much."""
        told = Headers(scope=scope).get("content-length", "") if scope["type"] == "http" else ""
        if told.isdecimal() and int(told) > self.most:
            await problem(Request(scope), 413)(scope, receive, send)
            return
        taken = 0

        async def limited() -> Message:
            nonlocal taken
            message = await receive()
            taken += len(message.get("body", b""))
            if taken > self.most:
                raise HTTPException(413)
            return message

        await self.app(scope, limited, send)
