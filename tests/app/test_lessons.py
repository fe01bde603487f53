"""The lessons as screens: everything that is printed or projected is a link away."""

from __future__ import annotations

import re

import pytest
from starlette.testclient import TestClient

from tests.app.conftest import Person, plain
from triage.knowledge.model import KnowledgeBase
from triage.phrases import lessons as printed
from triage.phrases import teaching as says

LINK = re.compile(r'href="(?:\.\./)*(?:\./)?(teach/[a-z0-9-]+\.html)"')


def test_every_lesson_offers_what_is_handed_out_and_its_cases(person: Person, kb: KnowledgeBase) -> None:
    seen = person.go("/teach/lessons")
    for lesson in kb.teaching.lessons.values():
        assert lesson.title in seen
        for kind in ("handout", "answers", "notes", "large"):
            assert f'teach/lesson-{lesson.number}-{kind}.html"' in person.text
        assert f'teach?about=lesson:{lesson.id}"' in person.text


def test_every_page_that_is_offered_opens_without_anything_fetched(client: TestClient, person: Person) -> None:
    person.go("/teach/lessons")
    links = sorted(set(LINK.findall(person.text)))
    assert len(links) == 6 * 4 + 2 + 2 + 1
    for link in links[:3] + links[-5:]:
        answer = client.get(f"/{link}")
        assert (200, True) == (answer.status_code, "default-src 'none'" in answer.headers["content-security-policy"])


def test_answers_stand_on_the_answer_sheet_and_not_on_the_handout(client: TestClient, kb: KnowledgeBase) -> None:
    lesson = next(iter(kb.teaching.lessons.values()))
    said = lesson.questions[0].answer
    assert said in plain(client.get("/teach/lesson-1-answers.html").text)
    assert said not in plain(client.get("/teach/lesson-1-handout.html").text)


def test_another_number_is_another_quiz(client: TestClient, person: Person) -> None:
    person.go("/teach/lessons?seed=7")
    assert says.quiz(7) in person.read
    assert client.get("/teach/quiz-7.html").text == client.get("/teach/quiz-7.html").text
    assert client.get("/teach/quiz-7.html").text != client.get("/teach/quiz-8.html").text


@pytest.mark.parametrize("name", ["lesson-7-notes", "lesson-1-secret", "quiz-x", "sheet-large"])
def test_a_page_that_is_not_there_is_said_to_be_missing(person: Person, name: str) -> None:
    person.go(f"/teach/{name}.html")
    assert person.status == 404


def test_the_trainer_is_led_to_the_lessons(person: Person) -> None:
    assert says.LESSONS in person.go("/teach")
    assert printed.QUIZ in person.go("/teach/lessons")
