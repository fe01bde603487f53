"""Who may come in when the program is reached over the network: whoever was given its link, under its own address."""

from __future__ import annotations

import secrets
from collections.abc import Collection
from dataclasses import dataclass
from hmac import compare_digest
from urllib.parse import urlencode

from itsdangerous import BadSignature, Signer
from starlette.requests import Request
from starlette.responses import RedirectResponse, Response
from starlette.types import ASGIApp, Receive, Scope, Send

from triage.app.addresses import LOOK, TEACH, for_learners
from triage.app.screen import FOR_LEARNER, own_path, page
from triage.phrases import guests as words

KEY = "k"
"""What carries the key in the link."""

COOKIE = "triage-guest"


ALL, LEARNER = "all", "learner"
"""As whom somebody comes in."""


@dataclass(frozen=True)
class Keys:
    """What the two links carry: the one to everything, and the one for the learners of a class."""

    all: str
    learner: str


def new_keys() -> Keys:
    """Keys that nobody guesses, however often they may try."""
    return Keys(secrets.token_urlsafe(18), secrets.token_urlsafe(18))


def link(address: str, key: str) -> str:
    """The link that carries a key to the program at this address."""
    return f"{address}?{urlencode({KEY: key})}"


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
    """Only who was given a link comes in. Its key is taken out of the address bar and kept as a signed cookie.

    One link opens everything; that of a class opens what its learners need, and neither boats nor answers.
    """

    def __init__(self, app: ASGIApp, keys: Keys) -> None:
        self.app = app
        self.keys = {ALL: keys.all.encode("utf-8"), LEARNER: keys.learner.encode("utf-8")}
        self.signer = Signer(secrets.token_bytes(32), salt=COOKIE)

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Answer, swap the key, or refuse."""
        if scope["type"] == "lifespan":
            await self.app(scope, receive, send)
            return
        request = Request(scope)
        path, let_in, given = own_path(request), self._let_in(request), self._given(request)
        if given:
            await self._swap(request, ALL if ALL in (given, let_in) else given)(scope, receive, send)
        elif let_in == ALL or path.startswith(f"/{LOOK}/"):
            await self.app(scope, receive, send)
        elif let_in == LEARNER:
            await self._answer_learner(path, scope, receive, send)
        else:
            await _refuse(scope, receive, send, 403, words.ONLY_GUESTS)

    def _given(self, request: Request) -> str:
        """Whose key the address carries; empty for none."""
        told = request.query_params.get(KEY, "").encode("utf-8", "replace") if request.method == "GET" else b""
        return next((who for who, key in self.keys.items() if compare_digest(told, key)), "")

    def _let_in(self, request: Request) -> str:
        """As whom somebody was let in; empty for a stranger."""
        try:
            return self.signer.unsign(request.cookies.get(COOKIE, "")).decode("ascii")
        except BadSignature:
            return ""

    def _swap(self, request: Request, who: str) -> Response:
        first = f"{request.scope.get('root_path', '')}/"  # never where the request says: it could lead elsewhere
        code = {"code": request.query_params["code"]} if "code" in request.query_params else {}
        to = f"{first}{TEACH}?{urlencode(code)}" if code else first
        answer = RedirectResponse(to, 303, {"cache-control": "no-store"})
        answer.set_cookie(COOKIE, self.signer.sign(who).decode("ascii"), path=first, httponly=True, samesite="lax")
        return answer

    async def _answer_learner(self, path: str, scope: Scope, receive: Receive, send: Send) -> None:
        if path == "/":
            await RedirectResponse(TEACH, 303)(scope, receive, send)
        elif for_learners(path):
            await self.app({**scope, FOR_LEARNER: True}, receive, send)
        else:
            await _refuse({**scope, FOR_LEARNER: True}, receive, send, 403, words.FOR_TRAINERS)


async def _refuse(scope: Scope, receive: Receive, send: Send, status: int, why: tuple[str, str]) -> None:
    if scope["type"] != "http":
        await send({"type": "websocket.close", "code": 1008})
        return
    title, text = why
    values = {"visit": None, "title": title, "text": text, "lines": ()}
    await page(Request(scope), "problem.html", values, status)(scope, receive, send)
