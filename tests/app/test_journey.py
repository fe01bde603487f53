"""An owner's first spring check (J1), walked on the screens without script."""

from __future__ import annotations

from tests.app.conftest import Person
from triage.log.held import HeldBoats
from triage.phrases.screens import SEND, SEND_ON, WHAT_IS_SHE_CALLED, WHAT_WAS_FOUND


def test_an_owner_finds_out_whether_she_can_go_to_the_water_on_sunday(person: Person, boats: HeldBoats) -> None:
    heard = person.tell("crack where the mast wires bolt on, about an inch, port side")
    assert "Shroud anchor on deck" in heard
    assert "taken as 25.4 mm" in heard
    person.choose("yes, that is right")
    assert "5 minutes" in person.read
    assert 'class="drawn check-drawn' in person.text, "the check is drawn"
    person.choose("the base of the fitting stays still")
    could_not = person.say("can't tell, cannot reach under there")
    assert "could not tell" in could_not.lower()
    while person.heading.endswith("?"):
        person.do("skip")
    assert person.heading == "Can't tell yet: between monitor and structural."

    person.go("/")  # an hour later
    assert "Go on with My boat, 1 mark" in person.read
    visit = boats.boats()[0].visits[0].id
    person.go(f"/visit/{visit}/answer")
    assert person.heading.startswith("Not cleared")
    assert "Mirror behind the fitting" in person.read

    person.send(f"/visit/{visit}/do", act="change", mark="chainplate.port.fastener_cracks", ask="backing")
    assert person.heading == "What spreads the load behind the fitting?"
    person.choose("only bare skin holds it")
    person.send(f"/visit/{visit}/do", act="finish")
    assert person.heading.startswith("Structural")
    assert "Mended by: repairer" in person.read

    assert "No: she stays ashore" in person.go(f"/visit/{visit}/answer?ask=afloat")
    person.go(f"/visit/{visit}/answer?to=repairer")
    assert "Judged: structural." in person.read
    assert "mailto:?subject=My%20boat" in person.text


def test_what_came_of_the_answer_is_also_asked_in_money_and_causes(person: Person) -> None:
    person.tell("crack where the mast wires bolt on, about an inch, port side")
    person.choose("yes, that is right")
    answer = person.path + "answer"
    assert "What mending may cost" in person.go(f"{answer}?ask=cost")
    assert "It may have been" in person.go(f"{answer}?ask=cause")
    person.go(f"{answer}?ask=weather")
    assert person.status == 404


def test_a_story_is_cards_and_each_can_be_changed_or_taken_out(person: Person, boats: HeldBoats) -> None:
    person.tell("chip on the stem edge. cracks in the foredeck. stood on the side decks, they do not give")
    visit = boats.boats()[0].visits[0].id
    assert person.heading == "This is what I understood"
    person.send(f"/visit/{visit}/do", act="decide", mark="1", ask="out", token=person.token)
    assert "Left out" in person.read
    person.send(f"/visit/{visit}/do", act="decide", mark="1", ask="-", token=person.token)
    assert "Left out" not in person.read
    person.send(f"/visit/{visit}/do", act="decide", mark="1", ask="foredeck no_such_mark", token=person.token)
    assert "nothing to choose from here" in person.read


def test_another_mark_is_chosen_by_its_drawing_beside_what_it_is_taken_for(person: Person) -> None:
    person.tell("chip on the stem edge")
    person.choose("no, it is another mark")
    assert "What does it look like?" in person.heading
    person.choose("show me all that there may be")
    assert person.text.count('class="drawn mark-drawn') > 20
    assert "not: " in person.read


def test_an_answer_leads_on_to_the_next_look_and_where_none_is_left_to_whom_it_is_sent(person: Person) -> None:
    person.tell("crack where the mast wires bolt on, about an inch, port side")
    person.choose("that is right")
    visit = person.path
    assert person.go(f"{visit}answer").endswith("look")

    person.go("/")
    person.tell("web of fine lines in the gelcoat of the cockpit floor")
    while person.choices and 'data-screen="ended"' not in person.text:
        person.choose(next(iter(person.choices.values())))
    assert person.go(f"{person.path}answer").endswith(SEND_ON)
    assert 'href="?to=anyone#send"' in person.text


def test_her_name_is_asked_for_after_what_was_found(person: Person) -> None:
    person.tell("crack where the mast wires bolt on, about an inch, port side")
    person.choose("that is right")
    read = person.go(f"{person.path}answer")
    assert read.index(WHAT_WAS_FOUND) < read.index(WHAT_IS_SHE_CALLED) < read.index(SEND)
