"""A boat goes to another keeper with her visits and her diary, whole or not at all."""

from __future__ import annotations

import datetime
import json
from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest

from tests.log.keepers import DAY, DECK, KEEPERS, PLATE, wagtail
from triage.errors import BadSurvey, CannotWork, NoSuch
from triage.knowledge.model import KnowledgeBase
from triage.log.boats import Boats, Entry
from triage.log.held import HeldBoats
from triage.log.travelling import arrive, boat_text, is_boat, read_boat
from triage.survey.write import survey_text

LATER = DAY + datetime.timedelta(days=90)
LINES = [
    Entry("chainplate", "port", "fastener_cracks", "mended", DAY, "Kim Ü.", "plate"),
    Entry("side_deck", "port", "hairline", "open", LATER, "Sam"),
]


def kept(boats: Boats) -> str:
    """A boat with two visits and a diary, beside another one."""
    boats.begin(wagtail(name="Teal"))
    first = boats.begin(wagtail(PLATE, DECK))
    boats.begin(wagtail(replace(DECK, id="seen again"), on=LATER), first.boat)
    for line in LINES:
        boats.write(first.boat, line)
    return first.boat


@pytest.mark.parametrize("there", KEEPERS)
def test_her_visits_and_her_diary_arrive_as_they_were(kb: KnowledgeBase, tmp_path: Path, there: str) -> None:
    here, other = HeldBoats(kb), KEEPERS[there](kb, tmp_path)
    boat = kept(here)
    text = boat_text(here, boat).encode()

    last = arrive(other.boats, read_boat(text, kb, "her file"))

    (entry,) = other.again().boats()
    came = [other.boats.open(one.id).survey for one in entry.visits]
    were = [here.open(one.id).survey for one in here.boats()[0].visits]
    assert [LATER, DAY] == [one.seen_on for one in came]
    assert were == came
    assert LINES == list(other.again().diary(entry.id))
    assert last.visit == entry.visits[0].id
    assert text == boat_text(other.again(), entry.id).encode()


def test_a_boat_is_told_from_a_survey(kb: KnowledgeBase) -> None:
    boats = HeldBoats(kb)

    assert is_boat(boat_text(boats, kept(boats)).encode())
    assert not is_boat(survey_text(wagtail(PLATE)).encode())
    assert not is_boat(b'{"boat": {"name": "Wagtail"}}')
    with pytest.raises(NoSuch):
        boat_text(boats, "nobody")


@pytest.mark.parametrize(
    ("spoilt", "told"),
    [
        ({"boat_over_time": 2}, "another version"),
        ({"visits": []}, "no visits"),
        ({"visits": {}}, "no visits"),
        ({"visits": ["Wagtail"]}, "visit 1"),
        ({"visits": [{"boat": {"name": "Wagtail"}, "findings": [{"zone": "moon", "sign": "hairline"}]}]}, "moon"),
        ({"diary": [7]}, "line 1 of the diary"),
        ({"diary": [{"zone": "side_deck"}]}, "line 1 of the diary"),
        ({"diary": [{**vars(LINES[0]), "on": "soon"}]}, "line 1 of the diary"),
        ({"diary": [{**vars(LINES[0]), "on": "2026-05-03", "zone": "moon"}]}, "know no such mark"),
        ({"diary": [{**vars(LINES[0]), "on": "2026-05-03", "by": "\u202eKim"}]}, "line 1 of the diary"),
        ({"diary": [{**vars(LINES[0]), "on": "2026-05-03", "what": "burnt"}]}, "line 1 of the diary"),
    ],
)
def test_what_is_no_such_file_is_refused_with_the_place(kb: KnowledgeBase, spoilt: dict[str, Any], told: str) -> None:
    boats = HeldBoats(kb)
    whole = json.loads(boat_text(boats, kept(boats)))

    with pytest.raises(BadSurvey, match=told):
        read_boat(json.dumps({**whole, **spoilt}).encode(), kb, "her file")


@pytest.mark.parametrize("text", [b'{"boat_over_time": 1', b'{"boat_over_time": ' + b"[" * 100_000, b"\xff{"])
def test_what_is_not_whole_is_refused(kb: KnowledgeBase, text: bytes) -> None:
    with pytest.raises(BadSurvey, match="not whole"):
        read_boat(text, kb, "her file")


def test_where_not_all_of_her_can_be_kept_nothing_of_her_stays(
    kb: KnowledgeBase, monkeypatch: pytest.MonkeyPatch
) -> None:
    here, other = HeldBoats(kb), HeldBoats(kb)
    travelled = read_boat(boat_text(here, kept(here)).encode(), kb, "her file")

    def full(*_: object) -> None:
        raise CannotWork("there is no room left")

    monkeypatch.setattr(other, "write", full)
    with pytest.raises(CannotWork, match="no room left"):
        arrive(other, travelled)
    assert () == other.boats()
