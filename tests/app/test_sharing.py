"""Who comes in over the network: whoever was given the link, and under the program's own address only."""

from __future__ import annotations

import re
from urllib.parse import urljoin

import pytest
from starlette.middleware import Middleware
from starlette.testclient import TestClient

from triage.app.application import create_app
from triage.app.sharing import COOKIE, KEY, Guests, Hosts, Keys, link, new_keys
from triage.knowledge.model import KnowledgeBase
from triage.log.held import HeldBoats

ADDRESS, SECRET, FOR_CLASS = "192.168.1.5", "a-key-that-was-told", "the-key-of-a-class"
KEYS = Keys(SECRET, FOR_CLASS)
CODE = "AUTUMN-3"
OWN = {"origin": f"http://{ADDRESS}:8017"}
LISTS = ("/boats", "/due.ics", "/boats/common", "/visit/x/", "/teach/cards.html", "/teach/lesson-1-answers.html")


@pytest.fixture
def guest(kb: KnowledgeBase) -> TestClient:
    guards = [Middleware(Hosts, allowed={ADDRESS}), Middleware(Guests, keys=KEYS)]
    opens = link(f"http://{ADDRESS}:8017/", FOR_CLASS)
    app = create_app(kb, HeldBoats(kb), guards=guards, class_link=opens)
    return TestClient(app, base_url=f"http://{ADDRESS}:8017", follow_redirects=False)


def test_the_key_is_swapped_for_a_cookie_and_leaves_the_address_bar(guest: TestClient) -> None:
    swapped = guest.get("/", params={KEY: SECRET})

    assert (303, "/") == (swapped.status_code, swapped.headers["location"])
    assert "httponly; path=/; samesite=lax" == swapped.headers["set-cookie"].partition("; ")[2].lower()
    assert SECRET not in swapped.headers["set-cookie"]
    assert "no-store" == swapped.headers["cache-control"]
    assert 200 == guest.get("/").status_code
    assert 303 == guest.post("/new", headers={"origin": f"http://{ADDRESS}:8017"}).status_code


@pytest.mark.parametrize("told", ["", "x", SECRET[:-1], SECRET + "x", "geheim-ü", "%00", "%ED%B3%BF", "%F0%9F%9A%A4"])
def test_without_the_key_nobody_sees_or_changes_anything(guest: TestClient, told: str) -> None:
    asked = guest.get(f"/boats?{KEY}={told}")

    assert 403 == asked.status_code
    assert "By its link alone" in asked.text
    assert 403 == guest.post("/new", headers={"origin": f"http://{ADDRESS}:8017"}).status_code
    assert "default-src 'none'" in asked.headers["content-security-policy"]


def test_a_key_is_no_way_elsewhere(guest: TestClient) -> None:
    for path in ("//elsewhere.example/", "/boats", "/visit/x/"):
        assert "/" == guest.get(f"http://{ADDRESS}:8017{path}", params={KEY: SECRET}).headers["location"]


def test_a_key_lets_nobody_send_by_itself(guest: TestClient) -> None:
    assert 403 == guest.post("/new", params={KEY: SECRET}).status_code


@pytest.mark.parametrize("made", ["", "guest", "guest.", "guest.AAAA", "\x80.x", "host." + "A" * 27])
def test_a_cookie_of_ones_own_making_opens_nothing(guest: TestClient, made: str) -> None:
    header = f"{COOKIE}={made}".encode("latin-1")

    assert 403 == guest.get("/", headers={b"cookie": header}).status_code


def test_another_start_of_the_program_knows_nothing_of_earlier_cookies(kb: KnowledgeBase, guest: TestClient) -> None:
    guest.get("/", params={KEY: SECRET})
    app = create_app(kb, HeldBoats(kb), guards=[Middleware(Guests, keys=KEYS)])
    other = TestClient(app, base_url=f"http://{ADDRESS}", cookies=dict(guest.cookies))

    assert 403 == other.get("/").status_code


def test_what_the_refusal_looks_like_is_shown_to_everybody(guest: TestClient) -> None:
    assert 200 == guest.get("/look/app.css").status_code


@pytest.mark.parametrize(
    "host", ["evil.example", "evil.example:8017", f"{ADDRESS}.evil.example", "", "[::1]:8017", "ü"]
)
def test_under_another_name_nothing_is_answered(guest: TestClient, host: str) -> None:
    asked = guest.get("/", params={KEY: SECRET}, headers={b"host": host.encode("utf-8")})

    assert 400 == asked.status_code
    assert "Not at this address" in asked.text
    assert "set-cookie" not in asked.headers


@pytest.fixture
def learner(guest: TestClient) -> TestClient:
    """Somebody who came by the link of a class."""
    swapped = guest.get("/", params={KEY: FOR_CLASS, "code": CODE})
    assert (303, f"/teach?code={CODE}") == (swapped.status_code, swapped.headers["location"])
    return guest


def test_a_learner_practises_and_finds_neither_boats_nor_answers(learner: TestClient) -> None:
    assert "teach" == learner.get("/").headers["location"]
    form = learner.get("/teach", params={"code": CODE}).text
    assert f'value="{CODE}"' in form
    begun = learner.post("/teach/begin", data={"name": "Tern", "code": CODE, "about": "easy"}, headers=OWN)
    assert "Name what you see" in learner.get(urljoin("/teach/begin", begun.headers["location"])).text
    assert 200 == learner.get(f"/teach/class/{CODE}/").status_code

    for path in (*LISTS, f"/teach/class/{CODE}/trainer", f"/teach/class/{CODE}/results.json", "/teach/lessons"):
        refused = learner.get(path)
        assert (403, True) == (refused.status_code, "For your trainer" in refused.text), path
    for path in ("/new", "/open", f"/teach/class/{CODE}/remove", f"/teach/class/{CODE}/cases"):
        assert 403 == learner.post(path, headers=OWN).status_code, path


def test_no_page_of_a_learner_leads_where_learners_may_not_go(learner: TestClient) -> None:
    for path in ("/teach", f"/teach/class/{CODE}/", "/boats"):
        for to in re.findall(r'href="([^"#]*)"', learner.get(path).text):
            assert learner.get(urljoin(path, to)).status_code in (200, 303), (path, to)


def test_the_page_of_a_class_shows_whoever_holds_everything_how_learners_come_in(guest: TestClient) -> None:
    guest.get("/", params={KEY: SECRET})
    shown = guest.get(f"/teach/class/{CODE}/").text

    assert "<svg" in shown
    (opens,) = re.findall(r'<a href="(http[^"]+)"', shown)
    assert f"http://{ADDRESS}:8017/?{KEY}={FOR_CLASS}&amp;code={CODE}" == opens


def test_the_link_of_a_class_takes_nothing_from_whoever_holds_everything(guest: TestClient) -> None:
    guest.get("/", params={KEY: SECRET})
    guest.get("/", params={KEY: FOR_CLASS, "code": CODE})

    assert 200 == guest.get("/boats").status_code


def test_keys_are_long_and_never_the_same() -> None:
    keys = {key for _ in range(50) for key in (new_keys().all, new_keys().learner)}

    assert 100 == len(keys)
    assert 24 == min(map(len, keys))
