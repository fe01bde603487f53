"""Every message of a conversation has a screen, or is said on the next one."""

from __future__ import annotations

import typing

import pytest

from tests.app.conftest import Person
from triage.app.said import sentences
from triage.dialogue import messages as told
from triage.log.held import HeldBoats

SHOWN_BY_A_SCREEN = {told.Understood, told.Choices, told.Asked, told.Ended, told.Report, told.Left, told.SoFar}

STORY = "crack where the mast wires bolt on, about an inch, port side"


def screen(person: Person) -> str:
    return person.text.split('data-screen="')[1].split('"')[0]


def test_every_message_is_shown_or_said() -> None:
    said = {told.Line, told.Points, told.Noted, told.HowTo, told.Refused}
    assert set(typing.get_args(told.Message)) == said | SHOWN_BY_A_SCREEN


@pytest.mark.parametrize(
    ("message", "sentence"),
    [
        (told.Line("so it is"), "so it is"),
        (told.Points("they are:", ("one", "two")), "two"),
        (told.Noted("noted", "that moved it"), "noted that moved it"),
        (told.Refused("what?", "say it so", ("a", "b")), "what? say it so"),
    ],
)
def test_what_asks_nothing_is_said(message: told.Message, sentence: str) -> None:
    assert sentence in sentences([message, message])
    assert len(set(sentences([message, message]))) == len(sentences([message, message]))


def test_a_conversation_leads_through_all_its_screens(person: Person, boats: HeldBoats) -> None:
    person.go("/")
    assert screen(person) == "start"
    person.tell(STORY)
    assert screen(person) == "understood"
    person.choose("no, it is another place")
    assert screen(person) == "choices"
    person.do("undo")
    person.choose("yes, that is right")
    assert screen(person) == "asked"
    assert "Take care: " in person.do("how")
    assert "I do not know what" in person.say("the moon") or "cannot be" in person.read
    here = person.path
    person.go(f"{here}?why")
    assert "What it could be, at worst" in person.read
    person.path = here
    while screen(person) == "asked":
        person.do("skip")
    assert screen(person) == "ended"
    person.choose("answer something else")
    assert person.heading == "Which one?"
    person.do("marks")
    assert person.heading == "Which mark?"
    person.do("finish")
    assert screen(person) == "answer"
    person.go(here)
    person.do("new")
    assert screen(person) == "start"
    person.tell("chip on the stem edge. cracks in the foredeck. star on the port topside")
    assert screen(person) == "story"


def test_nothing_said_begins_no_visit_and_an_empty_one_has_no_answer_yet(person: Person, boats: HeldBoats) -> None:
    person.send("/new", text="  ")
    assert (person.path, len(boats.boats())) == ("/", 0)
    person.send("/new", then="boat")
    person.go(f"/visit/{boats.boats()[0].visits[0].id}/answer")
    assert screen(person) == "nothing"


def test_a_boat_is_looked_at_again_by_the_name_and_with_what_is_known_of_her(person: Person, boats: HeldBoats) -> None:
    person.tell("chip on the stem edge")
    visit = boats.boats()[0].visits[0].id
    person.send(f"/visit/{visit}/name", name="Wagtail")
    assert "Wagtail" in person.read
    person.send("/new", boat=boats.boats()[0].id)
    assert "Wagtail" in person.read
    assert len(boats.boats()[0].visits) == 2
    person.send(f"/visit/{visit}/remove")
    assert len(boats.boats()[0].visits) == 1
    person.send("/new", boat="no such boat")
    assert person.status == 404
