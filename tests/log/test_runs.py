"""What keeps learners' runs, whatever its kind."""

from __future__ import annotations

import sqlite3
from dataclasses import replace
from pathlib import Path

import pytest

from tests.log.keepers import KEEPERS, Keeper, wagtail
from triage.errors import CannotWork, NoSuch
from triage.knowledge.model import KnowledgeBase
from triage.log.held import HeldBoats
from triage.log.runs import OwnCase, Run
from triage.log.sqlite import SqliteBoats
from triage.log.sqlite_file import MIGRATIONS

RUN = Run("a1", "Wren", "AUTUMN-3", "any", 7, "7", "0123456789ab")
OWN = OwnCase("c1", "AUTUMN-3", "v1", "mark-1", "boat: {name: Wagtail}")


@pytest.fixture(params=KEEPERS)
def keeper(request: pytest.FixtureRequest, kb: KnowledgeBase, tmp_path: Path) -> Keeper:
    return KEEPERS[request.param](kb, tmp_path)


def test_a_run_is_there_when_the_program_is_started_again(keeper: Keeper) -> None:
    keeper.boats.keep_run(RUN)
    later = replace(RUN, made=("mark-1 coin_tap",), answers={"mark": "crazing"}, result={"right": True, "minutes": 3.5})
    keeper.boats.keep_run(later)

    assert later == keeper.again().run("a1") == keeper.boats.run("a1")


def test_a_class_has_its_runs_in_the_order_in_which_they_were_begun_and_no_others(keeper: Keeper) -> None:
    ids = ["z", "b", "y"]
    for id_ in ids:
        keeper.boats.keep_run(replace(RUN, id=id_))
    keeper.boats.keep_run(replace(RUN, id="other", code=""))
    keeper.boats.keep_run(replace(RUN, id="z", number=8))

    assert (
        ids == [one.id for one in keeper.boats.runs("AUTUMN-3")] == [one.id for one in keeper.again().runs("AUTUMN-3")]
    )


def test_a_class_that_is_taken_out_takes_nothing_else_along(keeper: Keeper) -> None:
    begun = keeper.boats.begin(wagtail())
    keeper.boats.keep_run(RUN)
    keeper.boats.keep_run(replace(RUN, id="other", code="SPRING"))

    keeper.boats.remove_runs("AUTUMN-3")

    with pytest.raises(NoSuch):
        keeper.again().run("a1")
    assert not keeper.again().runs("AUTUMN-3")
    assert keeper.again().run("other")
    assert keeper.again().open(begun.visit)


def test_a_file_from_before_there_were_runs_is_brought_up_to_date(kb: KnowledgeBase, tmp_path: Path) -> None:
    file = tmp_path / "boats.sqlite"
    with sqlite3.connect(file) as db:
        for statement in MIGRATIONS[0]:
            db.execute(statement)
        db.execute("PRAGMA user_version = 1")
    db.close()

    boats = SqliteBoats(file, kb)
    boats.keep_run(RUN)

    assert boats.run("a1") == RUN
    boats.close()


def test_what_was_said_against_a_key_is_kept_with_the_run(keeper: Keeper) -> None:
    against = ({"verdict": "monitor", "because": "It rings.", "by": "Ines"},)
    keeper.boats.keep_run(replace(RUN, otherwise=against))

    assert against == keeper.again().run("a1").otherwise


def test_a_class_has_the_cases_that_were_made_for_it_until_they_are_taken_out(keeper: Keeper) -> None:
    ids = ["z", "b", "y"]
    for id_ in ids:
        keeper.boats.keep_own_case(replace(OWN, id=id_))
    keeper.boats.keep_own_case(replace(OWN, id="other", code="SPRING"))
    assert ids == [one.id for one in keeper.again().own_cases("AUTUMN-3")]
    assert replace(OWN, id="b") == keeper.again().own_case("b")

    keeper.boats.remove_own_case("b")

    assert ["z", "y"] == [one.id for one in keeper.again().own_cases("AUTUMN-3")]
    with pytest.raises(NoSuch):
        keeper.again().own_case("b")
    with pytest.raises(NoSuch):
        keeper.boats.remove_own_case("b")


def test_a_record_that_is_no_run_is_refused(kb: KnowledgeBase) -> None:
    with pytest.raises(CannotWork):
        HeldBoats(kb, {"run/a1": b'{"form": 1, "order": 1, "name": "Wren"}'})
