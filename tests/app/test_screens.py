"""The screens without script: forms sent, pages read."""

from __future__ import annotations

from tests.app.conftest import Person

STORY = "crack where the mast wires bolt on, about an inch, port side"


def test_a_story_is_shown_before_it_is_kept_then_asked_about_one_question_at_a_time(person: Person) -> None:
    assert "an inch, taken as 25.4 mm" in person.tell(STORY)
    person.choose("yes, that is right")
    assert person.heading.startswith("Does the fitting move")
    assert "Noted: the fitting is still" in person.choose("the fitting is still")
    assert person.heading == "What spreads the load behind the fitting?"


def test_going_back_why_and_could_not_tell_are_a_press_each(person: Person) -> None:
    person.tell(STORY)
    person.choose("yes, that is right")
    assert "What it could be, at worst" in person.do("why")
    assert "It is not asked again" in person.do("skip")
    assert "The last step is taken back" in person.do("undo")
    assert person.heading.startswith("Does the fitting move")


def test_the_same_answer_sent_twice_answers_its_own_question_and_no_other(person: Person) -> None:
    person.tell(STORY)
    person.choose("yes, that is right")
    form = {"number": "1", "token": person.token}
    person.send(f"{person.path}choose", **form)
    once = person.heading
    person.send(f"{person.path}choose", **form)
    assert person.heading == once
    assert "fitting_play: still" in person.client.get(f"{person.path}survey.yaml").text


def test_a_page_that_is_read_again_says_the_same_and_changes_nothing(person: Person) -> None:
    person.tell(STORY)
    person.choose("yes, that is right")
    before = person.text
    person.go(person.path)
    assert person.text == before
