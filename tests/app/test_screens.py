"""The screens without script: forms sent, pages read."""

from __future__ import annotations

import re

from tests.app.conftest import Person
from tests.conftest import ROOT

STORY = "crack where the mast wires bolt on, about an inch, port side"


def test_a_story_is_shown_before_it_is_kept_then_asked_about_one_question_at_a_time(person: Person) -> None:
    assert "an inch, taken as 25.4 mm" in person.tell(STORY)
    person.choose("yes, that is right")
    assert person.heading.startswith("Does the fitting move")
    assert "Noted: the base of the fitting stays still" in person.choose("the base of the fitting stays still")
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


def test_an_answer_between_two_is_pressed(person: Person) -> None:
    person.tell(STORY)
    person.choose("yes, that is right")
    assert "It lies between two of these" in person.read
    person.send(f"{person.path}choose", number="1", to="2", token=person.token)
    said = person.client.get(f"{person.path}survey.yaml").text
    assert re.search(r"fitting_play: still to \S", said)


def test_what_a_repairer_found_is_answered_out_of_turn_and_not_told_twice(person: Person) -> None:
    person.tell(STORY)
    person.choose("yes, that is right")
    assert "Answer something else about it" in person.read
    person.do("answers")
    person.choose("Sound under a coin")
    person.say("dull to 120 mm")
    assert person.heading == "Structural."
    assert person.read.count("Nobody can say where a dull patch ends") == 1


def test_a_mark_has_one_number_on_the_boat_and_in_the_answer(person: Person) -> None:
    boat = ROOT / "examples/club-boat.yaml"
    person._arrive(person.client.post("/open", files={"file": (boat.name, boat.read_bytes(), "text/yaml")}))
    visit = person.path
    person.go(f"{visit}boat")
    tapped = numbered(person.text)
    person.go(f"{visit}answer")
    answered = numbered(person.text)
    assert len(answered) > 3
    assert all(tapped[place] == number for place, number in answered.items() if place in tapped)
    assert len(set(answered) & set(tapped)) > 3


def numbered(page: str) -> dict[str, str]:
    """The number on the marker of each place."""
    return {place: number for number, place in re.findall(r'<g class="marker[^>]*><title>(\d+): ([^:]*): ', page)}


def test_what_was_tried_on_both_sides_is_answered_once_and_taken_back_once(person: Person) -> None:
    person.send("/new", text="", then="walk")
    visit = person.path.removesuffix("walk")
    person.send(f"{visit}place", zone="side_deck", side="both", leg="", do="mark/hairline")
    assert "the same on the other" in person.read
    number = next(number for number, says in person.choices.items() if "as firm as a good place" in says)
    told = person.send(f"{visit}choose", number=number, both="yes", token=person.token)
    assert "The same is noted for side deck where people sit out, starboard" in told
    assert person.client.get(f"{visit}survey.yaml").text.count("panel_give:") == 2
    person.do("undo")
    assert "panel_give:" not in person.client.get(f"{visit}survey.yaml").text


def test_where_no_twin_is_nothing_is_offered_for_the_other_side(person: Person) -> None:
    person.tell(STORY)
    person.choose("yes, that is right")
    assert "the same on the other" not in person.read
