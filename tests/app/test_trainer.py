"""A trainer's own cases, answers to talk about, and what is said against them, as screens."""

from __future__ import annotations

import io
import re
from urllib.parse import urljoin

import pytest
import yaml
from PIL import Image
from starlette.testclient import TestClient

from tests.app.conftest import Person
from tests.app.test_teaching import begin, make, name_it, play
from triage.app.own_cases import MOST_WORDS
from triage.knowledge.model import KnowledgeBase
from triage.log.boats import Kept
from triage.log.held import HeldBoats
from triage.phrases import classroom as room
from triage.phrases import teaching as says
from triage.phrases.learning import NO_STORY
from triage.survey.read import survey_from_text

PAGE = "/teach/class/AUTUMN-3/trainer"
OWN = {"about": "own", "number": ""}
BECAUSE = "The patch is foam behind the coat"


@pytest.fixture
def visit(boats: HeldBoats, kb: KnowledgeBase) -> Kept:
    """A boat that the trainer has told of, with a photograph of her mark."""
    empty = boats.begin(survey_from_text("boat: {name: Wagtail}", kb))
    body = io.BytesIO()
    Image.new("RGB", (40, 30), "white").save(body, "JPEG")
    name = boats.add_photo(empty.visit, body.getvalue())
    readings = {"tap_dull": 2, "panel_give": 1, "crack_opening": 0, "depth": 1}
    told = {
        "boat": {"name": "Wagtail"},
        "visit": {"note": "it looks gone to me", "by": "Ines"},
        "findings": [
            {
                "zone": "bottom",
                "side": "port",
                "sign": "hairline",
                "note": "I think it is grave",
                "photos": [name],
                "readings": readings,
            }
        ],
    }
    return boats.save(empty, survey_from_text(yaml.safe_dump(told), kb))


def make_case(person: Person, told: str = "She was dropped from her trolley.") -> str:
    person.go(PAGE)
    value = re.findall(r'<option value="([^"]+/[^"]+)"', person.text)[0]
    return person.send("/teach/class/AUTUMN-3/cases", mark=value, told=told)


def test_a_mark_of_a_kept_boat_becomes_a_case_with_its_photograph(
    person: Person, client: TestClient, boats: HeldBoats, visit: Kept
) -> None:
    assert "Case 1: Wagtail" in make_case(person)

    begin(person, **OWN)
    assert "She was dropped from her trolley." in person.read
    assert NO_STORY not in person.read
    for secret in ("it looks gone", "I think it is grave", "Ines", visit.visit):
        assert secret not in person.text
    (photo,) = re.findall(r'<img src="([^"]+)"', person.text)
    answer = client.get(f"{person.path}photos/{photo.rpartition('/')[2]}")
    assert (200, "image/jpeg") == (answer.status_code, answer.headers["content-type"])
    assert 404 == client.get(f"{person.path}photos/other.jpg").status_code


def test_what_the_trainer_found_is_what_each_check_tells(person: Person, visit: Kept) -> None:
    make_case(person)
    begin(person, **OWN)
    name_it(person)
    tap = next(one for one in re.findall(r'name="check" value="([^"]+)"', person.text) if one.endswith("coin_tap"))
    assert "A patch 30 to 100 mm across sounds dull." in make(person, tap)
    make(person, "")
    assert says.REASONS in name_it(person, verdict="structural")


def test_a_case_stays_as_it_was_when_the_visit_goes_on_or_goes(
    person: Person, boats: HeldBoats, kb: KnowledgeBase, visit: Kept
) -> None:
    make_case(person)
    run = begin(person, **OWN)
    boats.remove(visit.visit)
    person.go(run)
    assert person.status == 200
    assert "<img" not in person.text
    assert "She was dropped from her trolley." in person.read


def test_a_class_has_no_own_cases_of_another(person: Person, visit: Kept) -> None:
    make_case(person)
    person.send("/teach/begin", name="Rook", code="SPRING", **OWN)
    assert person.status == 422
    assert says.NO_OWN_CASES in person.read.lower()


def test_a_case_that_was_taken_out_says_so(person: Person, boats: HeldBoats, visit: Kept) -> None:
    make_case(person)
    run = begin(person, **OWN)
    (own,) = boats.own_cases("AUTUMN-3")
    person.send("/teach/class/AUTUMN-3/cases/remove", case=own.id)
    assert not boats.own_cases("AUTUMN-3")
    assert "taken out by whoever made it" in person.go(run)


def test_a_class_that_is_taken_out_takes_its_own_cases_along(person: Person, boats: HeldBoats, visit: Kept) -> None:
    make_case(person)
    person.send("/teach/class/AUTUMN-3/remove", sure="yes")
    assert not boats.own_cases("AUTUMN-3")


@pytest.mark.parametrize("wrong", [{"mark": ""}, {"mark": "VISIT/none"}, {"told": "x" * (MOST_WORDS + 1)}])
def test_what_is_no_case_is_said_and_nothing_is_kept(
    person: Person, boats: HeldBoats, visit: Kept, wrong: dict[str, str]
) -> None:
    mark = wrong.get("mark", f"{visit.visit}/mark-1").replace("VISIT", visit.visit)
    person.send("/teach/class/AUTUMN-3/cases", mark=mark, told=wrong.get("told", ""))
    assert person.status == 422
    assert not boats.own_cases("AUTUMN-3")


def test_a_disagreement_is_kept_with_its_reason_and_changes_no_answer(person: Person, boats: HeldBoats) -> None:
    play(person, verdict="cosmetic")
    run, before = person.path, boats.runs("AUTUMN-3")[0]

    told = person.send(f"{run}otherwise", verdict="cosmetic", because=BECAUSE, by="Ines")

    assert says.against("Ines", says.case(177), "cosmetic", "monitor") in told
    assert f"{BECAUSE}." in told
    (after,) = boats.runs("AUTUMN-3")
    assert before.result == after.result
    assert ({"verdict": "cosmetic", "because": f"{BECAUSE}.", "by": "Ines"},) == after.otherwise
    person.send(f"{run}otherwise", verdict="cosmetic", because=BECAUSE, by="Ines")
    assert after == boats.runs("AUTUMN-3")[0], "sent twice is said once"


def test_disagreements_are_handed_out_as_proposals_for_the_rules(person: Person, client: TestClient) -> None:
    assert 404 == client.get("/teach/class/AUTUMN-3/proposals.yaml").status_code
    play(person, verdict="cosmetic")
    run = person.path
    person.send(f"{run}otherwise", verdict="cosmetic", because=BECAUSE)
    person.send(f"{run}otherwise", verdict="structural", because="It has parted behind.", by="Ines")

    of_run, of_class = client.get(f"{run}proposals.yaml"), client.get("/teach/class/AUTUMN-3/proposals.yaml")

    assert of_run.text == of_class.text
    milder, graver = yaml.safe_load_all(of_class.text)
    assert "silent" == milder[0]["expect"]
    assert ["verdict"] == list(graver["rules"][0]["raises"])
    assert f"Because: {BECAUSE}." in of_class.text
    assert BECAUSE in person.go(PAGE)


@pytest.mark.parametrize(
    "wrong", [{"because": " "}, {"verdict": "monitor"}, {"verdict": "fine"}, {"by": "<b>"}, {"because": "x" * 501}]
)
def test_what_says_nothing_against_the_answer_is_refused(
    person: Person, boats: HeldBoats, wrong: dict[str, str]
) -> None:
    play(person)
    person.send(f"{person.path}otherwise", **{"verdict": "cosmetic", "because": BECAUSE, "by": "Ines", **wrong})
    assert person.status == 422
    assert 'role="alert"' in person.text
    assert not boats.runs("AUTUMN-3")[0].otherwise


def test_nobody_can_say_anything_against_an_answer_that_they_have_not_seen(person: Person, boats: HeldBoats) -> None:
    begin(person)
    person.send(f"{person.path}otherwise", verdict="cosmetic", because=BECAUSE)
    assert person.status == 404
    assert says.NOT_YET_JUDGED in person.read
    assert not boats.runs("AUTUMN-3")[0].otherwise


def test_the_trainer_finds_one_run_of_each_case_and_who_is_still_at_it(person: Person) -> None:
    assert room.NONE_DONE in person.go(PAGE)
    play(person)
    begin(person, name="Rook")
    seen = person.go(PAGE)
    assert room.see_case(says.case(177), "Wren") in seen
    assert room.still_at_it(1) in seen
    assert room.ANSWERS_HERE in seen
    assert "% sure; it is monitor" in seen
    assert room.wrong_of(1, 1) in seen
    assert room.verdict_said("cosmetic", 80, right=False) in seen
    rows = re.findall(r'<tr><th scope="row">(\w+)</th>(.*?)</tr>', person.text, re.DOTALL)
    assert ["Wren", "Rook"] == [name for name, _ in rows]
    assert room.NOT_DONE in rows[1][1]
    (run,) = re.findall(r'<a href="([^"]*teach/run/[^"]+)"><b>', person.text)
    assert "You said: " in person.go(urljoin(PAGE, run))
