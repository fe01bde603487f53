"""Who may come in when the program is reached over the network: whoever was given its link, under its own address."""

from __future__ import annotations

import hmac
import secrets
from collections.abc import Collection

from itsdangerous import BadSignature, Signer
from starlette.requests import Request
from starlette.responses import RedirectResponse
from starlette.types import ASGIApp, Receive, Scope, Send

from triage.app.addresses import LOOK
from triage.app.screen import own_path, page
from triage.phrases import guests as words

KEY = "k"
"""What carries the key in the link."""

COOKIE = "triage-guest"


def new_key() -> str:
    """A key that nobody guesses, however often they may try."""
    return secrets.token_urlsafe(18)


class Hosts:
    """Only the program's own addresses are answered. A page from elsewhere could otherwise give this machine a name of
    its own and read here what it likes.
    """

    def __init__(self, app: ASGIApp, allowed: Collection[str]) -> None:
        """``allowed``: names and numbers, without a port."""
        self.app, self.allowed = app, frozenset(allowed)

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Answer or refuse."""
        if scope["type"] == "lifespan" or _host(scope) in self.allowed:
            await self.app(scope, receive, send)
        else:
            await _refuse(scope, receive, send, 400, words.OTHER_ADDRESS)


def _host(scope: Scope) -> str:
    host = next((value for name, value in scope["headers"] if name == b"host"), b"").decode("latin-1").lower()
    name, _, port = host.rpartition(":")
    return name if name and port.isdecimal() else host


class Guests:
    """Only who was given the link comes in. Its key is taken out of the address bar and kept as a signed cookie."""

    def __init__(self, app: ASGIApp, key: str) -> None:
        self.app, self.key = app, key.encode("utf-8")
        self.signer = Signer(secrets.token_bytes(32), salt=COOKIE)

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Answer, swap the key, or refuse."""
        if scope["type"] == "lifespan":
            await self.app(scope, receive, send)
            return
        request = Request(scope)
        if self._has_key(request):
            await self._let_in(scope, receive, send)
        elif self._was_let_in(request) or own_path(request).startswith(f"/{LOOK}/"):
            await self.app(scope, receive, send)
        else:
            await _refuse(scope, receive, send, 403, words.ONLY_GUESTS)

    def _has_key(self, request: Request) -> bool:
        told = request.query_params.get(KEY, "").encode("utf-8", "replace")
        return request.method == "GET" and hmac.compare_digest(told, self.key)

    def _was_let_in(self, request: Request) -> bool:
        try:
            return self.signer.unsign(request.cookies.get(COOKIE, "")) == b"guest"
        except BadSignature:
            return False

    async def _let_in(self, scope: Scope, receive: Receive, send: Send) -> None:
        first = f"{scope.get('root_path', '')}/"  # never where the request says: it could lead elsewhere
        answer = RedirectResponse(first, 303, {"cache-control": "no-store"})
        answer.set_cookie(COOKIE, self.signer.sign("guest").decode("ascii"), path=first, httponly=True, samesite="lax")
        await answer(scope, receive, send)


async def _refuse(scope: Scope, receive: Receive, send: Send, status: int, why: tuple[str, str]) -> None:
    if scope["type"] != "http":
        await send({"type": "websocket.close", "code": 1008})
        return
    title, text = why
    values = {"visit": None, "title": title, "text": text, "lines": ()}
    await page(Request(scope), "problem.html", values, status)(scope, receive, send)
