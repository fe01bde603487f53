"""What is not taken, and what a browser is told about the rest."""

from __future__ import annotations

import pytest
from starlette.testclient import TestClient

from tests.app.conftest import HERE, Person, plain
from triage.app.guards import MAX_BODY
from triage.log.held import HeldBoats


@pytest.mark.parametrize(
    "headers",
    [
        {"origin": "http://elsewhere.example"},
        {"origin": "null"},
        {"origin": HERE, "sec-fetch-site": "cross-site"},
        {"origin": HERE, "sec-fetch-site": "same-site"},
        {"origin": ""},
    ],
)
def test_a_form_from_another_page_changes_nothing(
    client: TestClient, boats: HeldBoats, headers: dict[str, str]
) -> None:
    response = client.post("/new", data={"text": "chip on the stem edge"}, headers=headers)
    assert response.status_code == 403
    assert "sent from another page" in plain(response.text)
    assert not boats.boats()


def test_every_answer_carries_the_strict_policy(client: TestClient) -> None:
    for path in ("/", "/boats", "/nowhere", "/look/app.css"):
        policy = client.get(path).headers["content-security-policy"]
        assert "default-src 'none'" in policy
        assert "unsafe" not in policy


@pytest.mark.parametrize(
    "path", ["/nowhere", "/visit/none/", "/visit/none/answer", "/visit/..%2f..%2fetc/", "/look/..%2fbase.html"]
)
def test_what_is_not_there_is_said_on_a_page(client: TestClient, path: str) -> None:
    response = client.get(path)
    assert response.status_code == 404
    assert "<h1>" in response.text


def test_templates_are_not_handed_out_as_styles(client: TestClient) -> None:
    assert client.get("/look/base.html").status_code == 404
    assert client.get("/look/app.css").headers["content-type"].startswith("text/css")


def test_another_way_of_asking_is_said_on_a_page(client: TestClient) -> None:
    assert client.get("/new").status_code == 405
    assert "takes something else" in plain(client.get("/new").text)


@pytest.mark.parametrize("told", [True, False])
def test_too_much_is_not_taken_whether_it_says_so_or_not(client: TestClient, *, told: bool) -> None:
    def body() -> object:
        yield b"text="
        yield b"x" * (MAX_BODY + 1)

    headers = {"content-type": "application/x-www-form-urlencoded"}
    content = b"x" * (MAX_BODY + 1) if told else body()
    response = client.post("/new", content=content, headers=headers)  # type: ignore[arg-type]
    assert response.status_code == 413
    assert "larger than what is taken" in plain(response.text)


def test_a_form_that_makes_no_sense_is_said_so(person: Person) -> None:
    person.tell("chip on the stem edge")
    for what, form in (("choose", {"number": "²"}), ("choose", {"number": "x"}), ("do", {"act": "sink"})):
        assert person.client.post(f"{person.path}{what}", data=form).status_code == 400
    assert "There is no choice 99" in person.send(f"{person.path}choose", number="99", token=person.token)


def test_a_mistake_of_ours_is_a_page_too(client: TestClient, monkeypatch: pytest.MonkeyPatch, boats: HeldBoats) -> None:
    monkeypatch.setattr(boats, "boats", lambda: 1 / 0)
    response = client.get("/boats")
    assert response.status_code == 500
    assert "A mistake of ours" in response.text


HOSTILE = '<script>alert(1)</script>" onload=x {{ 7*7 }} ‮'


def test_hostile_words_and_names_stay_words(person: Person, boats: HeldBoats) -> None:
    person.tell(f"chip on the stem edge {HOSTILE}")
    visit = boats.boats()[0].visits[0].id
    person.send(f"/visit/{visit}/name", name=HOSTILE.replace("‮", ""))
    for path in ("/", "/boats", f"/visit/{visit}/", f"/visit/{visit}/answer"):
        page = person.client.get(path).text
        assert "<script>alert" not in page
        assert "49" not in plain(page).split()


def test_a_survey_comes_back_from_its_file(person: Person, boats: HeldBoats) -> None:
    person.tell("crack where the mast wires bolt on, about an inch, port side")
    person.choose("yes, that is right")
    person.choose("the base of the fitting stays still")
    file = person.client.get(f"{person.path}survey.yaml")
    assert file.headers["content-disposition"] == 'attachment; filename="my-boat.yaml"'
    heading = person.heading
    person._arrive(person.client.post("/open", files={"file": ("her.yaml", file.content)}))
    assert person.heading == heading
    assert len(boats.boats()) == 2


def test_a_file_that_is_no_survey_is_told_line_by_line(person: Person, boats: HeldBoats) -> None:
    person._arrive(person.client.post("/open", files={"file": ("<b>.yaml", b"boat: 3")}))
    assert person.status == 422
    assert "should be a block" in person.read
    assert "<b>" not in person.text
    assert not boats.boats()


def test_a_report_is_a_page_of_its_own(person: Person) -> None:
    person.tell("crack where the mast wires bolt on, about an inch, port side")
    person.choose("yes, that is right")
    report = person.client.get(f"{person.path}report.html")
    assert report.status_code == 200
    assert "unsafe-inline" in report.headers["content-security-policy"]
    assert "script-src" not in report.headers["content-security-policy"]


def test_the_program_may_live_below_any_folder(boats: HeldBoats, client: TestClient) -> None:
    from starlette.applications import Starlette
    from starlette.routing import Mount

    below = TestClient(Starlette(routes=[Mount("/club/boats", app=client.app)]), headers={"origin": HERE})
    page = below.post("/club/boats/new", data={"text": "chip on the stem edge"})
    assert page.url.path.startswith("/club/boats/visit/")
    assert 'href="../../look/app.css"' in page.text
