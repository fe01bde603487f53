"""The boat as a form, the walk round her and photographs, without script."""

from __future__ import annotations

import datetime
import io
import re
from dataclasses import replace

import pytest
from PIL import Image, ImageDraw

from tests.app.conftest import HERE, Person
from triage.knowledge.model import KnowledgeBase
from triage.log.held import HeldBoats
from triage.survey.read import survey_from_text

CARD = ((300, 250), (1120, 250), (1120, 767), (300, 767))
LINE = ((300, 950), (875, 950))
"""A card of 820 × 517 pixels, and a line of 60 mm beside it."""


@pytest.fixture
def visit(person: Person) -> str:
    """Somebody who begins at the boat; the address of the visit."""
    person.send("/new", then="boat")
    return person.path.removesuffix("boat")


def survey(person: Person, visit: str, kb: KnowledgeBase):  # type: ignore[no-untyped-def]
    return survey_from_text(person.client.get(f"{visit}survey.yaml").text, kb)


def jpeg(**info: object) -> bytes:
    picture = Image.new("RGB", (1600, 1200), (230, 225, 210))
    ImageDraw.Draw(picture).polygon([*CARD], fill=(60, 90, 140))
    made = io.BytesIO()
    picture.save(made, "JPEG", **info)
    return made.getvalue()


def with_photo(person: Person, visit: str, data: bytes) -> None:
    person.send(f"{visit}place", zone="side_deck", side="port", do="mark/hairline")
    file = {"photo": ("a.jpg", data, "image/jpeg")}
    person._arrive(person.client.post(f"{visit}photos", data={"mark": "side_deck.port.hairline"}, files=file))


def test_every_place_is_a_link_that_says_what_it_is_and_how_it_stands(person: Person, visit: str) -> None:
    person.go(f"{visit}boat")
    links = dict(re.findall(r'<a href="near\?([^"]+)" aria-label="([^"]+)"', person.text))

    assert links["view=deck&amp;zone=side_deck&amp;side=port"].endswith("port: not looked at")
    assert len({re.sub("view=[a-z]+&amp;", "", link) for link in links}) > 80


def test_any_tap_offers_four_places_of_which_one_is_chosen(person: Person, visit: str) -> None:
    person.go(f"{visit}near?view=deck&zone=stem&side=")
    found = re.findall(r'href="place\?([^"]+)"', person.text)

    assert len(found) == 4
    assert found[0].startswith("zone=stem")
    assert person.text.count("drawn boat crop") == 4


def test_all_places_are_a_plain_list_by_the_parts_of_the_walk(person: Person, visit: str, kb: KnowledgeBase) -> None:
    person.go(f"{visit}places")

    assert re.findall(r'href="place\?zone=([a-z_]+)"', person.text) == [zone for leg in kb.walk for zone in leg.zones]


def test_a_mark_is_chosen_by_its_drawing_beside_what_it_is_taken_for(person: Person, visit: str) -> None:
    person.go(f"{visit}place?zone=side_deck&side=port")
    assert 'value="mark/crazing"' in person.text
    assert 'value="mark/nothing_seen"' not in person.text
    assert "not:" in person.read

    person.send(f"{visit}place", zone="side_deck", side="port", do="mark/crazing")

    assert person.path == visit
    assert "Side deck where people sit out, port" in person.read


def test_both_sides_are_one_tap(person: Person, visit: str, kb: KnowledgeBase) -> None:
    person.send(f"{visit}place", zone="side_deck", side="both", do="mark/scuff")

    assert [one.side for one in survey(person, visit, kb).marks] == ["port", "starboard"]


def test_looks_fine_passes_nothing_and_what_passes_names_its_test(
    person: Person, visit: str, kb: KnowledgeBase
) -> None:
    assert "nail and torch, 3 min" in person.go(f"{visit}place?zone=stem")
    assert "drawn check-drawn" in person.text

    assert "looked at, not tried" in person.send(f"{visit}place", zone="stem", do="looks")
    assert "tried, and passed" in person.send(f"{visit}place", zone="stem", do="tried")
    (look,) = survey(person, visit, kb).findings
    assert {name: reading.high for name, reading in look.readings.items()} == {"depth": 0}


def test_the_minutes_are_asked_once_and_what_decides_most_comes_first(
    person: Person, visit: str, kb: KnowledgeBase
) -> None:
    assert person.go(f"{visit}walk").count("minutes") == 3
    person.send(f"{visit}walk", minutes="30")
    person.go(f"{visit}walk")
    assert f"0 of {len(kb.zones)} looked at; 30 minutes" in person.read

    person.go(f"{visit}walk?leg=inside")
    names = re.findall(r'<h2 id="name-([a-z_]+)"', person.text)
    assert names[:3] == ["case_wall", "case_root", "mast_gate"]


def test_a_leg_is_gone_in_any_order_and_each_step_is_taken_back(person: Person, visit: str, kb: KnowledgeBase) -> None:
    person.send(f"{visit}walk", minutes="1440")
    assert "Noted" in person.send(f"{visit}walk", leg="inside", zone="case_wall", do="tried")
    assert "5 places looked at" in person.send(f"{visit}walk", leg="bow", do="rest").replace("6 places", "5 places")
    assert len(survey(person, visit, kb).findings) == 7

    person.send(f"{visit}do", act="undo")

    assert [one.zone for one in survey(person, visit, kb).findings] == ["case_wall"]


def test_what_a_boat_nobody_knows_still_needs_is_asked(person: Person, visit: str) -> None:
    person.send(f"{visit}walk", minutes="1440")
    said = person.send(f"{visit}walk", leg="sides", zone="foredeck", do="tried")
    assert "To pass it, also: How is the deck built?" in said

    person.send(f"{visit}do", act="change", mark="foredeck.nothing_seen", ask="deck")
    person.choose("one skin of glass")

    assert "passed" in person.go(f"{visit}walk?leg=sides")


def test_the_same_as_last_time_is_the_mark_with_what_was_answered_then(
    person: Person, visit: str, boats: HeldBoats, kb: KnowledgeBase
) -> None:
    person.send(f"{visit}place", zone="side_deck", side="port", do="mark/crazing")
    person.send(f"{visit}do", act="change", mark="side_deck.port.crazing", ask="panel_give")
    person.choose("as firm as")
    was = survey(person, visit, kb)
    boats.save(boats.open(visit.split("/")[2]), replace(was, seen_on=datetime.date(2026, 4, 2)))
    person.send("/new", boat=boats.boats()[0].id, then="walk")
    again = person.path.removesuffix("walk")
    person.send(f"{again}walk", minutes="1440")
    assert "Last time" in person.go(f"{again}walk?leg=sides")

    read = person.send(f"{again}walk", leg="sides", zone="side_deck", do="same/side_deck.port.crazing")

    (mark,) = survey(person, again, kb).findings
    assert (mark.zone, mark.sign, mark.side, 0) == ("side_deck", "crazing", "port", mark.readings["panel_give"].high)
    assert mark.seen_on == datetime.date.today()
    assert "The same as on 2026-04-02" in read
    assert "Last time" not in read


def test_a_photograph_is_kept_without_where_it_was_taken_and_stands_in_the_report(person: Person, visit: str) -> None:
    exif = Image.Exif()
    exif[0x010F] = "Lantern Cameras"
    with_photo(person, visit, jpeg(exif=exif))

    kept = person.client.get(f"{visit}photos/photo-1.jpg")

    assert kept.headers["content-type"] == "image/jpeg"
    assert b"Exif" not in kept.content
    assert b"Lantern" not in kept.content
    assert "data:image/jpeg;base64," in person.client.get(f"{visit}report.html").text


def test_what_is_no_photograph_is_refused_and_one_that_shows_something_else_is_taken_out(
    person: Person, visit: str, kb: KnowledgeBase
) -> None:
    with_photo(person, visit, b"<svg onload=alert(1)>")
    assert person.status == 422
    with_photo(person, visit, jpeg())
    assert survey(person, visit, kb).findings[0].photos == ("photo-1.jpg",)

    person.send(f"{visit}photos", mark="side_deck.port.hairline", remove="photo-1.jpg")

    assert survey(person, visit, kb).findings[0].photos == ()


def test_a_length_from_a_photograph_is_proposed_and_answers_only_when_it_is_taken(
    person: Person, visit: str, kb: KnowledgeBase
) -> None:
    with_photo(person, visit, jpeg())
    corners = {f"corner{n}": f"{x}, {y}" for n, (x, y) in enumerate(CARD, start=1)}
    form = {"mark": "side_deck.port.hairline", "name": "photo-1.jpg", **corners}
    assert "read it there" in person.go(f"{visit}measure?mark=side_deck.port.hairline&name=photo-1.jpg")

    told = person.send(f"{visit}measure", **form, line=" ".join(f"{x},{y}" for x, y in LINE))

    found = re.search(r"The line is (\d+) to (\d+) mm long", told)
    assert found
    assert int(found[1]) < 60 < int(found[2])
    assert "crack_length" not in survey(person, visit, kb).findings[0].readings
    person.send(f"{visit}measure", mark="side_deck.port.hairline", use=f"{found[1]} to {found[2]} mm")
    assert survey(person, visit, kb).findings[0].readings["crack_length"].measured == (int(found[1]), int(found[2]))


def test_taps_that_are_no_card_are_told_so(person: Person, visit: str) -> None:
    with_photo(person, visit, jpeg())
    same = {f"corner{n}": "10,10" for n in (1, 2, 3, 4)}
    form = {"mark": "side_deck.port.hairline", "name": "photo-1.jpg", "line": "1,1 2,2"}

    assert "not the corners of a card" in person.send(f"{visit}measure", **form, **same)
    assert "four corners and two points" in person.send(f"{visit}measure", **form)


@pytest.mark.parametrize(
    "path",
    ["near?view=deck&zone=nowhere", "near?view=sky&zone=stem", "near?view=deck&zone=board&side=x", "place?zone=x",
     "walk?leg=moon", "photos/../survey.yaml%00", "photos/none.jpg", "measure?mark=x&name=y"],
)  # fmt: skip
def test_what_is_not_there_is_a_plain_page(person: Person, visit: str, path: str) -> None:
    person.send(f"{visit}walk", minutes="1440")
    person.go(f"{visit}{path}")

    assert person.status in (404, 422)


def test_another_page_may_not_send_a_photograph(person: Person, visit: str) -> None:
    sent = person.client.post(f"{visit}photos", data={"mark": "m"}, headers={"origin": f"{HERE}.evil"})

    assert sent.status_code == 403
