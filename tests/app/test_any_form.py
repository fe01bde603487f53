"""Whoever sends whatever to any screen gets a page: what was kept, or why it was not taken; never a mistake of ours.

Somebody goes from page to page at random, follows links and sends forms, in which now and then a field holds what no
browser would have put there.
"""

from __future__ import annotations

import html
import random
import re
from urllib.parse import urljoin

import pytest
from starlette.testclient import TestClient

from tests.strategies import WEIRD_WORDS
from triage.app.application import create_app
from triage.knowledge.model import KnowledgeBase
from triage.log.held import HeldBoats

HERE = "http://testserver"
WORDS = ("name", "value")
STEPS = 150
ODD = (*WEIRD_WORDS, "", "\0", "a" * 70_000, "-1", "9" * 30, "nan", "1e999", "²", "../..", "9999-12-31", "10000-01-01")
STORIES = ("hairline cracks in the deck, and we hit a rock. May I sail?", "soft floor at the mast", *ODD[-6:])
MISTAKE = 500

Form = tuple[str, str, dict[str, str], list[tuple[str, str]]]
"""Where it goes, how, its fields, and the buttons of which one is pressed."""


def forms(page: str) -> list[Form]:
    found: list[Form] = []
    for head, body in re.findall(r"<form([^>]*)>(.*?)</form>", page, re.DOTALL):
        named = [
            (kind, *(html.unescape(one[1]) if (one := re.search(rf'{word}="([^"]*)"', rest)) else "" for word in WORDS))
            for kind, rest in re.findall(r"<(input|button|textarea|select)([^>]*)>", body)
        ]
        where, how = (one[1] if (one := re.search(rf'{word}="([^"]*)"', head)) else "" for word in ("action", "method"))
        fields = {name: value for kind, name, value in named if name and kind != "button"}
        buttons = [(name, value) for kind, name, value in named if name and kind == "button"]
        found.append((html.unescape(where), how.lower(), fields, buttons))
    return found


@pytest.mark.slow
@pytest.mark.parametrize("seed", range(2))
def test_any_way_through_the_screens_is_answered(kb: KnowledgeBase, seed: int) -> None:
    chance, sent = random.Random(seed), 0
    client = TestClient(create_app(kb, HeldBoats(kb), class_link=HERE), headers={"origin": HERE})
    here = client.post("/new", data={"text": STORIES[0]})
    for _ in range(STEPS):
        links = re.findall(r'<a [^>]*href="([^"#:]+)', here.text)
        offered = forms(here.text)
        if offered and chance.random() < 0.75:
            where, how, fields, buttons = chance.choice(offered)
            fields |= dict([chance.choice(buttons)]) if buttons else {}
            told = {name: value if chance.random() < 0.6 else chance.choice(ODD) for name, value in fields.items()}
            address = urljoin(str(here.url), where)
            after = client.post(address, data=told) if how == "post" else client.get(address, params=told)
            sent += how == "post"
        elif links and chance.random() < 0.9:
            after = client.get(urljoin(str(here.url), html.unescape(chance.choice(links))))
        else:
            after = client.post("/new", data={"text": chance.choice(STORIES)})

        assert after.status_code < MISTAKE, after.url
        if after.headers["content-type"].startswith("text/html") and after.url.host == "testserver":
            here = after
    assert sent > STEPS / 10
