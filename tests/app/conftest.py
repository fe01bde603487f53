"""The program with a few boats in memory, asked by a client that keeps to its own pages."""

from __future__ import annotations

import re
from collections.abc import Iterator

import pytest
from starlette.testclient import TestClient

from triage.app.application import create_app
from triage.knowledge.model import KnowledgeBase
from triage.log.held import HeldBoats

HERE = "http://testserver"


class Person:
    """Somebody with a browser: where they are, what they read, and what they press; nothing is opened yet."""

    def __init__(self, client: TestClient) -> None:
        self.client, self.path, self.text = client, "/", ""

    def go(self, path: str) -> str:
        """Open an address."""
        return self._arrive(self.client.get(path))

    def send(self, path: str, **form: str) -> str:
        """Send a form of the page that is shown."""
        return self._arrive(self.client.post(path, data=form))

    def tell(self, story: str) -> str:
        """Type a story on the first screen."""
        return self.send("/new", text=story) if self.path == "/" else self.send(f"{self.path}say", text=story, new="1")

    def say(self, text: str) -> str:
        """Say something to what is asked."""
        return self.send(f"{self.path}say", text=text, token=self.token)

    def choose(self, words: str) -> str:
        """Press the choice that holds these words."""
        number = next(number for number, says in self.choices.items() if words in says)
        return self.send(f"{self.path}choose", number=number, token=self.token)

    def do(self, act: str, **more: str) -> str:
        """Press a button of the bar."""
        return self.send(f"{self.path}do", act=act, token=self.token, **more)

    @property
    def token(self) -> str:
        found = re.search(r'name="token" value="([^"]*)"', self.text)
        return found[1] if found else ""

    @property
    def choices(self) -> dict[str, str]:
        found = re.findall(
            r'<button class="[^"]*\bchoice\b[^"]*" name="number" value="(\d+)">(.*?)</button>', self.text, re.DOTALL
        )
        return {number: plain(says) for number, says in found}

    @property
    def read(self) -> str:
        """What the page says, without its pictures."""
        return plain(self.text)

    @property
    def heading(self) -> str:
        return plain(re.findall(r"<h1[^>]*>(.*?)</h1>", self.text, re.DOTALL)[0])

    def _arrive(self, response: object) -> str:
        self.path = response.url.path  # type: ignore[attr-defined]
        self.text = response.text  # type: ignore[attr-defined]
        self.status = response.status_code  # type: ignore[attr-defined]
        return self.read


def plain(html: str) -> str:
    """The words of a page."""
    import html as entities

    drawn_out = re.sub(r"<svg.*?</svg>|<head>.*?</head>", " ", html, flags=re.DOTALL)
    return " ".join(entities.unescape(re.sub(r"<[^>]*>", " ", drawn_out)).split())


@pytest.fixture
def boats(kb: KnowledgeBase) -> HeldBoats:
    return HeldBoats(kb)


@pytest.fixture
def client(kb: KnowledgeBase, boats: HeldBoats) -> Iterator[TestClient]:
    app = create_app(kb, boats)
    with TestClient(app, headers={"origin": HERE}, raise_server_exceptions=False) as client:
        yield client


@pytest.fixture
def person(client: TestClient) -> Person:
    return Person(client)
