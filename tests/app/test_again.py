"""A boat that is looked at again: what has changed, what is due, and what was mended and closed."""

from __future__ import annotations

import datetime
import re
from dataclasses import replace

import pytest
from starlette.testclient import TestClient

from tests.app.conftest import Person
from tests.log.keepers import wagtail
from triage.concluding.assess import assess_survey
from triage.knowledge.model import KnowledgeBase
from triage.log.boats import Kept
from triage.log.held import HeldBoats
from triage.survey.model import Finding, Happened, Reading
from triage.survey.readings import reading_of

TODAY = datetime.date.today()
LINE = {"mark": "0", "id": "line", "zone": "side_deck", "side": "port", "sign": "hairline"}


def ago(days: int) -> datetime.date:
    return TODAY - datetime.timedelta(days=days)


@pytest.fixture
def line(kb: KnowledgeBase) -> dict[str, Finding]:
    """The same line, as it was measured."""

    def measured(length: str) -> Finding:
        readings = {"crack_length": reading_of(kb.scales["crack_length"], length), "panel_give": Reading.at(0)}
        return Finding("line", "side_deck", "hairline", "port", readings)

    return {length: measured(length) for length in ("30 mm", "45 mm")}


@pytest.fixture
def spring(boats: HeldBoats, line: dict[str, Finding]) -> Kept:
    return boats.begin(wagtail(line["30 mm"], on=ago(365)))


@pytest.fixture
def now(boats: HeldBoats, spring: Kept, line: dict[str, Finding]) -> Kept:
    return boats.begin(wagtail(line["45 mm"], on=TODAY), spring.boat)


def test_two_lengths_are_compared_and_the_growth_is_proposed_and_not_given(
    person: Person, boats: HeldBoats, now: Kept
) -> None:
    read = person.go(f"/visit/{now.visit}/again")

    assert f'aria-label="{ago(365)}: 30 mm, give or take 2 mm; {TODAY}: 45 mm' in person.text
    assert "15 mm more in 52 weeks." in read
    assert "It grows by 12.2 to 17.8 mm in a season: more than measuring can explain" in read
    assert "At this pace it is 50 mm long between" in read
    assert "growth" not in boats.open(now.visit).survey.findings[0].readings

    read = person.send(f"/visit/{now.visit}/again", act="grown", **LINE)

    assert 3 == boats.open(now.visit).survey.findings[0].readings["growth"].high
    assert person.path.endswith("/again")
    assert "Noted" in read
    assert "to its growth" not in read
    person.send(f"/visit/{now.visit}/do", act="undo")
    assert "growth" not in boats.open(now.visit).survey.findings[0].readings


def test_a_mark_of_last_time_stands_until_it_is_looked_at_again(person: Person, boats: HeldBoats, spring: Kept) -> None:
    person.send("/new", boat=spring.boat)
    visit = person.path.split("/")[2]
    assert "Wagtail" == boats.open(visit).survey.boat.name
    read = person.go(f"/visit/{visit}/again")
    assert "Found before, not looked at this time" in read

    person.send(f"/visit/{visit}/again", act="here", **LINE)

    (mark,) = boats.open(visit).survey.findings
    assert (ago(365), "30 mm") == (mark.seen_on, mark.readings["crack_length"].said)
    assert person.path.endswith(f"/visit/{visit}/")

    person.send(f"/visit/{visit}/do", act="change", mark="line", ask="crack_length")
    person.say("45 mm")

    (mark,) = boats.open(visit).survey.findings
    assert (TODAY, "45 mm") == (mark.seen_on, mark.readings["crack_length"].said)
    read = person.go(f"/visit/{visit}/again")
    assert "not looked at this time" not in read
    assert "It grows by 12.2 to 17.8 mm in a season" in read

    person.send(f"/visit/{visit}/do", act="undo")
    assert (ago(365),) == tuple(one.seen_on for one in boats.open(visit).survey.findings)


def test_a_length_of_last_time_is_never_compared_as_one_of_today(
    person: Person, boats: HeldBoats, spring: Kept
) -> None:
    person.send("/new", boat=spring.boat)
    visit = person.path.split("/")[2]
    assert "This stands from last time" in person.read
    assert f"seen on {ago(365)}" in person.read

    person.do("same", mark="line")

    (mark,) = boats.open(visit).survey.findings
    length = mark.readings["crack_length"]
    assert (TODAY, None, 1, 1) == (mark.seen_on, length.measured, length.low, length.high)
    assert "This stands" not in person.read
    assert "grow" not in person.go(f"/visit/{visit}/again").replace("Answer", "")


PLATE = {"mark": "0", "id": "plate", "zone": "chainplate", "side": "port", "sign": "fastener_cracks"}


@pytest.fixture
def ashore(boats: HeldBoats) -> Kept:
    """The fitting lifts: she stays ashore."""
    lifts = Finding("plate", "chainplate", "fastener_cracks", "port", {"fitting_play": Reading.at(3)})
    return boats.begin(wagtail(lifts, on=ago(30)))


@pytest.fixture
def chalky(person: Person, boats: HeldBoats, ashore: Kept) -> str:
    """Another visit, at which somebody speaks of nothing but a chalky deck."""
    person.go(f"/visit/{ashore.visit}/answer")
    assert "Nothing that was found speaks against it. Nobody" not in person.read
    person.send("/new", boat=ashore.boat)
    person.tell("the front deck is faded and chalky")
    while person.choices and "answer" not in person.token and "ended" not in person.token:
        person.choose("Yes" if any("Yes" in one for one in person.choices.values()) else "")
    return person.path.split("/")[2]


def test_what_kept_her_ashore_last_time_keeps_her_ashore_until_it_was_mended(
    person: Person, boats: HeldBoats, ashore: Kept, chalky: str
) -> None:
    marks = {one.zone for one in boats.open(chalky).survey.marks}
    assert {"chainplate", "foredeck"} == marks
    barred = re.search(r"Sailing (.*?) Towing", person.go(f"/visit/{ashore.visit}/answer"))

    read = person.go(f"/visit/{chalky}/answer")

    assert barred
    assert barred[1] in read
    assert "Nothing that was found speaks against it. Nobody" not in read
    assert f"seen on {ago(30)}" in read
    for to in ("anyone", "repairer", "seller"):
        person.go(f"/visit/{chalky}/answer?to={to}")
        assert f"seen on {ago(30)}" in person.text.split('id="note"')[1].split("</p>")[0]

    read = person.send(f"/visit/{chalky}/again", act="mended", by="Kim", on=TODAY.isoformat(), **PLATE)

    assert "Look at the mend of" in read
    assert {"foredeck"} == {one.zone for one in boats.open(chalky).survey.marks}
    assert "Nothing that was found speaks against it. Nobody" in person.go(f"/visit/{chalky}/answer")

    person.send(f"/visit/{chalky}/again", act="open", by="Kim", on=TODAY.isoformat(), **PLATE)

    assert "Nothing that was found speaks against it. Nobody" not in person.go(f"/visit/{chalky}/answer")


def test_she_is_asked_for_her_name_beside_the_answer_until_she_has_one(person: Person, boats: HeldBoats) -> None:
    visit = boats.begin(wagtail(Finding("a", "foredeck", "chalky_fade"), name="My boat")).visit
    assert "What is she called?" in person.go(f"/visit/{visit}/answer")

    person.send(f"/visit/{visit}/name", name="Teasel", then="answer")

    assert person.path.endswith(f"/visit/{visit}/answer")
    assert "What is she called?" not in person.read
    assert ["Teasel"] == [one.name for one in boats.boats()]


def test_what_happened_and_was_not_looked_at_since_still_waits(
    person: Person, boats: HeldBoats, kb: KnowledgeBase
) -> None:
    hit = replace(wagtail(on=ago(9)), events=(Happened("hit_bottom", "hard", "today"),))
    first = boats.begin(hit)
    sent = assess_survey(hit, kb).suspicions
    assert sent

    person.send("/new", boat=first.boat)

    later = boats.open(person.path.split("/")[2]).survey
    assert [(ago(9), "")] == [(one.on, one.when) for one in later.events]
    assert assess_survey(later, kb).suspicions == sent


def test_what_was_mended_stands_at_no_later_visit(person: Person, boats: HeldBoats, ashore: Kept) -> None:
    person.send("/new", boat=ashore.boat)
    later = person.path.split("/")[2]

    person.send(f"/visit/{ashore.visit}/again", act="mended", by="Kim", on=TODAY.isoformat(), **PLATE)

    assert () == boats.open(later).survey.findings
    assert boats.open(ashore.visit).survey.findings
    person.send("/new", boat=ashore.boat)
    assert () == boats.open(person.path.split("/")[2]).survey.findings


def test_mended_looked_at_again_closed_with_day_and_name(person: Person, boats: HeldBoats, now: Kept) -> None:
    path = f"/visit/{now.visit}/again"

    read = person.send(path, act="mended", by="Kim", on=TODAY.isoformat(), **LINE)
    assert f"Mended on {TODAY}, by Kim." in read
    assert f"{TODAY + datetime.timedelta(weeks=1)} Look at the mend of side deck where people sit out, port" in read
    assert "Looked at again: it holds" in read

    read = person.send(path, act="closed", by="Sam", on=TODAY.isoformat(), **LINE)
    assert f"Looked at again and closed on {TODAY}, by Sam." in read
    assert "Nothing is due." in read
    assert ["mended", "closed"] == [one.what for one in boats.diary(now.boat)]


def test_what_was_written_by_mistake_is_open_again_and_stays_in_the_diary(
    person: Person, boats: HeldBoats, now: Kept
) -> None:
    for act in ("mended", "open", "mended", "closed", "open"):
        read = person.send(f"/visit/{now.visit}/again", act=act, by="Kim", on=TODAY.isoformat(), **LINE)
        assert 200 == person.status

    assert "it is open. What was written before stays" in read
    assert ["mended", "open", "mended", "closed", "open"] == [one.what for one in boats.diary(now.boat)]
    assert "Measure again: side deck" in read


def test_what_is_mended_and_closed_makes_no_answer_milder(person: Person, now: Kept) -> None:
    before = person.go(f"/visit/{now.visit}/answer")
    for act in ("mended", "closed"):
        person.send(f"/visit/{now.visit}/again", act=act, by="Kim", on=TODAY.isoformat(), **LINE)

    assert before == person.go(f"/visit/{now.visit}/answer")


@pytest.mark.parametrize(
    ("form", "status", "told"),
    [
        ({"act": "mended", "by": " ", "on": TODAY.isoformat()}, 400, "with a name"),
        ({"act": "mended", "by": "K" * 81, "on": TODAY.isoformat()}, 400, "with a name"),
        ({"act": "mended", "by": "\u202eKim", "on": TODAY.isoformat()}, 400, "with a name"),
        ({"act": "mended", "by": "Kim", "on": "soon"}, 400, "The day must be"),
        (
            {"act": "mended", "by": "Kim", "on": (TODAY + datetime.timedelta(days=1)).isoformat()},
            400,
            "The day must be",
        ),
        ({"act": "mended", "by": "Kim", "on": ago(1).isoformat()}, 400, "The day must be"),
        ({"act": "closed", "by": "Kim", "on": TODAY.isoformat()}, 400, "Only what was mended"),
        ({"act": "open", "by": "Kim", "on": TODAY.isoformat()}, 400, "Only what was mended"),
        ({"act": "here"}, 400, "did not arrive whole"),
        ({"act": "burnt"}, 400, "did not arrive whole"),
        ({"act": "mended", "mark": "7"}, 404, "No such mark"),
        ({"act": "mended", "zone": "bottom"}, 404, "No such mark"),
        ({"act": "mended", "id": "another"}, 404, "No such mark"),
    ],
)
def test_what_cannot_be_written_down_is_refused_and_changes_nothing(
    person: Person, boats: HeldBoats, now: Kept, form: dict[str, str], status: int, told: str
) -> None:
    read = person.send(f"/visit/{now.visit}/again", **{**LINE, **form})

    assert status == person.status
    assert told in read
    assert [] == list(boats.diary(now.boat))


def test_what_is_due_is_a_calendar(client: TestClient, boats: HeldBoats, spring: Kept) -> None:
    asked = client.get(f"/visit/{spring.visit}/due.ics")

    assert "text/calendar; charset=utf-8" == asked.headers["content-type"]
    assert "SUMMARY:Wagtail: Look again at side deck" in asked.text
    assert f"DTSTART;VALUE=DATE:{TODAY:%Y%m%d}" in asked.text  # it is long overdue
    assert 'attachment; filename="due.ics"' == asked.headers["content-disposition"]


def test_what_is_due_on_every_boat_is_one_calendar(
    client: TestClient, person: Person, boats: HeldBoats, now: Kept, line: dict[str, Finding]
) -> None:
    boats.begin(wagtail(line["30 mm"], on=TODAY, name="Plover"))
    first = set(re.findall("UID:.*", client.get(f"/visit/{now.visit}/due.ics").text))

    asked = client.get("/due.ics")

    keys = re.findall("UID:.*", asked.text)
    assert first < set(keys)
    assert len(set(keys)) == len(keys)
    assert {"Wagtail", "Plover"} == set(re.findall("SUMMARY:([A-Za-z]+): ", asked.text))
    assert 1 == asked.text.count("BEGIN:VCALENDAR")
    person.go("/boats")
    assert 'href="./due.ics"' in person.text


def test_without_a_boat_no_calendar_is_offered(person: Person) -> None:
    person.go("/boats")

    assert "due.ics" not in person.text


def test_an_earlier_visit_knows_nothing_of_a_later_one(person: Person, spring: Kept, now: Kept) -> None:
    read = person.go(f"/visit/{spring.visit}/again")

    assert "45 mm" not in read
    assert "This is her first visit with marks" in read


def test_a_visit_without_marks_has_nothing_to_compare(person: Person, boats: HeldBoats) -> None:
    visit = boats.begin(wagtail(on=None)).visit

    assert "Nothing is due." in person.go(f"/visit/{visit}/again")
    assert 200 == person.status


def test_the_list_of_boats_leads_there(person: Person, now: Kept) -> None:
    person.go("/boats")

    assert f"visit/{now.visit}/again" in person.text


def test_a_boat_goes_to_another_machine_and_stands_there_as_she_stood_here(
    person: Person, boats: HeldBoats, now: Kept
) -> None:
    person.send(f"/visit/{now.visit}/again", act="mended", by="Kim", on=TODAY.isoformat(), **LINE)
    sent = person.client.get(f"/visit/{now.visit}/boat.json")
    assert "-over-time.json" in sent.headers["content-disposition"]

    person._arrive(person.client.post("/open", files={"file": ("wagtail.json", sent.content)}))

    arrived, stayed = sorted(boats.boats(), key=lambda one: one.id == now.boat)
    assert [one.day for one in stayed.visits] == [one.day for one in arrived.visits]
    assert boats.diary(stayed.id) == boats.diary(arrived.id)
    assert person.go(f"/visit/{arrived.visits[0].id}/again") == person.go(f"/visit/{now.visit}/again")


def test_a_boat_that_was_spoilt_on_the_way_is_refused_and_nothing_of_her_is_kept(
    person: Person, boats: HeldBoats, now: Kept
) -> None:
    sent = person.client.get(f"/visit/{now.visit}/boat.json").content

    person._arrive(person.client.post("/open", files={"file": ("wagtail.json", sent[:-9])}))

    assert (422, True) == (person.status, "this file is not whole" in person.read)
    assert [now.boat] == [one.id for one in boats.boats()]
