"""What keeps boats, whatever its kind: what it has returned from outlives the program, and two people lose nothing."""

from __future__ import annotations

import datetime
from dataclasses import replace
from pathlib import Path

import pytest

from tests.log.keepers import DAY, DECK, KEEPERS, PLATE, Keeper, wagtail
from triage.errors import BadSurvey, NoSuch
from triage.knowledge.model import KnowledgeBase
from triage.log.boats import Entry
from triage.log.visits import entry_of
from triage.survey.merge import Clash
from triage.survey.model import Reading
from triage.survey.read import read_survey


@pytest.fixture(params=KEEPERS)
def keeper(request: pytest.FixtureRequest, kb: KnowledgeBase, tmp_path: Path) -> Keeper:
    return KEEPERS[request.param](kb, tmp_path)


def test_there_are_no_boats_at_first(keeper: Keeper) -> None:
    assert () == tuple(keeper.boats.boats()) == tuple(keeper.again().boats())


def test_what_was_kept_is_there_when_the_program_is_started_again(keeper: Keeper) -> None:
    begun = keeper.boats.begin(wagtail(PLATE))
    saved = keeper.boats.save(begun, wagtail(PLATE, DECK), ["Noted.", "The next question."])

    found = keeper.again().open(begun.visit)

    assert saved == found
    assert (begun.version + 1, ("Noted.", "The next question.")) == (found.version, found.said)
    assert {"plate", "deck"} == {one.id for one in found.survey.findings}


def test_every_example_comes_back_as_it_was(keeper: Keeper, kb: KnowledgeBase, root: Path) -> None:
    for file in sorted((root / "examples").glob("*.yaml")):
        if file.name.startswith(("club", "owner")):
            survey = replace(read_survey(file, kb), source="")
            begun = keeper.boats.begin(survey)

            assert survey == begun.survey == keeper.again().open(begun.visit).survey


def test_where_a_conversation_was_left_is_kept(keeper: Keeper) -> None:
    left = {"asking": {"what": "describe"}, "explained": ["plate"]}
    begun = keeper.boats.begin(wagtail(PLATE))

    keeper.boats.save(begun, replace(begun.survey, conversation=left))

    assert left == keeper.again().open(begun.visit).survey.conversation


def test_boats_and_their_visits_are_listed_newest_first(keeper: Keeper) -> None:
    boats, later = keeper.boats, DAY + datetime.timedelta(days=30)
    first = boats.begin(wagtail(PLATE, DECK))
    boats.begin(wagtail(name="Teal", on=DAY + datetime.timedelta(days=1)))
    again = boats.begin(wagtail(PLATE, on=later, name="Wagtail II"), first.boat)
    undated = boats.begin(wagtail(on=None), first.boat)

    her, other = keeper.again().boats()

    assert ("Wagtail II", "Teal") == (her.name, other.name)
    assert first.boat == her.id == again.boat
    assert [again.visit, first.visit, undated.visit] == [one.id for one in her.visits]
    assert [(later, 1), (DAY, 2), (None, 0)] == [(one.day, one.marks) for one in her.visits]


def test_two_people_at_one_boat_lose_nothing(keeper: Keeper) -> None:
    boats = keeper.boats
    visit = boats.begin(wagtail(PLATE)).visit
    one, other = boats.open(visit), boats.open(visit)
    boats.save(one, wagtail(PLATE, DECK))

    both = boats.save(other, wagtail(replace(PLATE, readings={**PLATE.readings, "backing": Reading.at(0, "0")})))

    assert () == both.clashes
    assert {"plate", "deck"} == {mark.id for mark in both.survey.findings}
    assert {"fitting_play", "backing"} == next(
        set(mark.readings) for mark in both.survey.findings if mark.id == "plate"
    )
    assert both == keeper.again().open(visit)


def test_of_two_answers_the_newer_one_stands_and_it_is_told_until_the_next_step(keeper: Keeper) -> None:
    boats = keeper.boats
    visit = boats.begin(wagtail(PLATE)).visit
    one, other = boats.open(visit), boats.open(visit)
    boats.save(one, wagtail(replace(PLATE, readings={"fitting_play": Reading.at(2, "2")})))

    told = boats.save(other, wagtail(replace(PLATE, readings={"fitting_play": Reading.at(1, "1")})))

    assert (Clash("plate", "fitting_play", "1", "2"),) == told.clashes == keeper.again().open(visit).clashes
    assert () == boats.save(told, told.survey).clashes


def test_what_cannot_be_joined_becomes_a_visit_of_its_own(keeper: Keeper) -> None:
    boats = keeper.boats
    visit = boats.begin(wagtail()).visit
    one, other = boats.open(visit), boats.open(visit)
    many = [[replace(PLATE, id=f"{name}{number}") for number in range(200)] for name in "ab"]
    boats.save(one, wagtail(*many[0]))

    beside = boats.save(other, wagtail(*many[1]))

    assert visit != beside.visit
    (boat,) = keeper.again().boats()
    assert {visit: 200, beside.visit: 200} == {entry.id: entry.marks for entry in boat.visits}


@pytest.mark.parametrize("name", ["x" * 201, "\x1b[2J", "\udcff"])
def test_what_could_not_be_read_again_is_refused_and_changes_nothing(keeper: Keeper, name: str) -> None:
    begun = keeper.boats.begin(wagtail(PLATE))

    with pytest.raises(BadSurvey):
        keeper.boats.save(begun, wagtail(name=name))
    with pytest.raises(BadSurvey):
        keeper.boats.begin(wagtail(name=name))

    assert [begun.survey] == [
        keeper.again().open(one.id).survey for boat in keeper.boats.boats() for one in boat.visits
    ]


def test_what_could_be_taken_back_goes_first_when_a_visit_gets_too_large(keeper: Keeper) -> None:
    asking = {"what": "describe"}
    entry = {"asking": asking, "edits": [{"do": "name boat", "said": "x" * 30_000}]}

    kept = keeper.boats.begin(replace(wagtail(), conversation={"asking": asking, "undo": [entry] * 100}))

    assert {"asking": asking, "undo": []} == kept.survey.conversation


def test_a_visit_that_was_taken_out_is_gone_and_its_boat_with_the_last_one(keeper: Keeper) -> None:
    boats = keeper.boats
    first = boats.begin(wagtail(PLATE))
    again = boats.begin(wagtail(PLATE), first.boat)
    name = boats.add_photo(first.visit, b"jpeg")

    boats.remove(first.visit)

    assert [again.visit] == [one.id for boat in keeper.again().boats() for one in boat.visits]
    for gone in (
        lambda: boats.open(first.visit),
        lambda: boats.photo(first.visit, name),
        lambda: boats.save(first, first.survey),
    ):
        with pytest.raises(NoSuch):
            gone()
    boats.remove(again.visit)
    assert () == tuple(keeper.again().boats())
    with pytest.raises(NoSuch):
        boats.begin(wagtail(), first.boat)


def test_photographs_are_kept_with_their_visit(keeper: Keeper) -> None:
    boats = keeper.boats
    visit, other = boats.begin(wagtail(PLATE)).visit, boats.begin(wagtail(name="Teal")).visit

    names = [boats.add_photo(visit, body) for body in (b"one", b"two")]
    boats.save(boats.open(visit), wagtail(replace(PLATE, photos=tuple(names))))

    again = keeper.again()
    assert 2 == len(set(names))
    assert [b"one", b"two"] == [again.photo(visit, name) for name in names]
    for where, name in ((other, names[0]), (visit, "../" + names[0]), ("nowhere", names[0])):
        with pytest.raises(NoSuch):
            again.photo(where, name)
    with pytest.raises(NoSuch):
        again.add_photo("nowhere", b"")


def test_ids_are_words_that_an_address_can_hold(keeper: Keeper) -> None:
    begun = keeper.boats.begin(wagtail())

    assert begun.visit.isalnum()
    assert begun.boat.isalnum()


def test_what_became_of_marks_is_written_down_line_by_line(keeper: Keeper) -> None:
    boats = keeper.boats
    her, other = boats.begin(wagtail(PLATE)), boats.begin(wagtail(name="Teal"))
    lines = [Entry("chainplate", side, "fastener_cracks", "mended", DAY, "Kim Ü.") for side in ("port", None) * 6]
    lines.append(Entry("chainplate", "port", "fastener_cracks", "closed", DAY + datetime.timedelta(days=9), "Sam", "a"))

    for line in lines:
        boats.write(her.boat, line)

    assert lines == list(keeper.again().diary(her.boat))
    assert [] == list(boats.diary(other.boat)) == list(boats.diary("nobody"))
    with pytest.raises(NoSuch):
        boats.write("nobody", lines[0])


def test_the_diary_goes_with_the_last_visit(keeper: Keeper) -> None:
    boats = keeper.boats
    first = boats.begin(wagtail(PLATE))
    again = boats.begin(wagtail(), first.boat)
    boats.write(first.boat, Entry("chainplate", "port", "fastener_cracks", "mended", DAY, "Kim"))

    boats.remove(first.visit)
    assert 1 == len(keeper.again().diary(first.boat))
    boats.remove(again.visit)
    assert [] == list(keeper.again().diary(first.boat))


def test_what_a_buyer_brings_along_is_kept_with_the_boat(keeper: Keeper) -> None:
    first = keeper.boats.begin(wagtail(PLATE))
    assert {} == dict(keeper.boats.offer(first.boat)) == dict(keeper.boats.offer("nobody"))

    keeper.boats.keep_offer(first.boat, {"currency": "EUR", "asking": 900})
    keeper.boats.keep_offer(first.boat, {"currency": "EUR", "asking": 850, "missing": ["cover"]})
    keeper.boats.begin(wagtail(), first.boat)

    kept = {"currency": "EUR", "asking": 850, "missing": ["cover"]}
    assert kept == dict(keeper.boats.offer(first.boat)) == dict(keeper.again().offer(first.boat))
    with pytest.raises(NoSuch):
        keeper.boats.keep_offer("nobody", {})


def test_an_offer_goes_with_the_last_visit(keeper: Keeper) -> None:
    her = keeper.boats.begin(wagtail(PLATE))
    keeper.boats.keep_offer(her.boat, {"currency": "EUR"})

    keeper.boats.remove(her.visit)

    assert {} == dict(keeper.boats.offer(her.boat)) == dict(keeper.again().offer(her.boat))


def test_a_line_that_was_written_before_marks_were_named_is_read_and_names_none() -> None:
    words = {"zone": "chainplate", "side": "port", "sign": "fastener_cracks", "what": "mended", "on": "2026-05-03"}

    assert entry_of({**words, "by": "Kim"}) == Entry("chainplate", "port", "fastener_cracks", "mended", DAY, "Kim")
