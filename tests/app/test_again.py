"""A boat that is looked at again: what has changed, what is due, and what was mended and closed."""

from __future__ import annotations

import datetime

import pytest
from starlette.testclient import TestClient

from tests.app.conftest import Person
from tests.log.keepers import wagtail
from triage.knowledge.model import KnowledgeBase
from triage.log.boats import Kept
from triage.log.held import HeldBoats
from triage.survey.model import Finding, Reading
from triage.survey.readings import reading_of

TODAY = datetime.date.today()
LINE = {"mark": "0", "zone": "side_deck", "side": "port", "sign": "hairline"}


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


def test_a_mark_of_last_time_is_offered_again_and_answers_nothing(
    person: Person, boats: HeldBoats, spring: Kept
) -> None:
    person.send("/new", boat=spring.boat)
    visit = person.path.split("/")[2]
    assert "Wagtail" == boats.open(visit).survey.boat.name
    read = person.go(f"/visit/{visit}/again")
    assert "Found before, not looked at this time" in read

    person.send(f"/visit/{visit}/again", act="here", **LINE)

    (mark,) = boats.open(visit).survey.findings
    assert ("line", "side_deck", "hairline", "port", {}) == (mark.id, mark.zone, mark.sign, mark.side, mark.readings)
    assert person.path.endswith(f"/visit/{visit}/")


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
