"""The file a survey is kept in: on the disk before it is said so, joined with what others wrote, never half."""

from __future__ import annotations

import multiprocessing
import os
import signal
import subprocess
import sys
import time
from dataclasses import replace
from pathlib import Path

import pytest

from tests.conftest import ROOT
from triage.errors import BadSurvey
from triage.knowledge.model import KnowledgeBase
from triage.survey import store as stores
from triage.survey.lock import held
from triage.survey.merge import Clash
from triage.survey.model import Boat, Finding, Reading, Survey
from triage.survey.read import read_survey
from triage.survey.store import NotSaved, Saved, Store
from triage.survey.write import survey_text

NEW = Survey(Boat("My boat"), ())
PLATE = Finding("plate", "chainplate", "fastener_cracks", "port", {"fitting_play": Reading.at(0, "still")})
DECK = Finding("deck", "side_deck", "hairline", "port")


@pytest.fixture
def file(tmp_path: Path) -> Path:
    return tmp_path / "boat.yaml"


def saved(store: Store, survey: Survey) -> Saved:
    done = store.save(survey)
    assert isinstance(done, Saved), done
    return done


def with_marks(*marks: Finding, name: str = "My boat") -> Survey:
    return Survey(Boat(name), marks)


def test_what_was_saved_is_there_for_the_next_one(kb: KnowledgeBase, file: Path) -> None:
    saved(Store(kb, file, NEW), with_marks(PLATE))

    assert with_marks(PLATE) == Store(kb, file, NEW).survey
    assert [file] == list(file.parent.iterdir())


def test_nothing_is_written_before_something_is_saved(kb: KnowledgeBase, file: Path) -> None:
    assert not Store(kb, file, NEW).exists
    assert not file.exists()


def test_two_that_began_together_lose_nothing(kb: KnowledgeBase, file: Path) -> None:
    first, second = Store(kb, file, NEW), Store(kb, file, NEW)
    saved(first, with_marks(PLATE))

    done = saved(second, with_marks(DECK))
    again = saved(first, with_marks(replace(PLATE, readings={})))

    assert done.joined
    assert ["deck", "plate"] == sorted(one.id for one in done.survey.findings)
    assert {"deck": {}, "plate": {}} == {one.id: one.readings for one in again.survey.findings}
    assert again.survey == Store(kb, file, NEW).survey


def test_of_two_answers_the_newer_one_stands_and_it_is_told(kb: KnowledgeBase, file: Path) -> None:
    saved(Store(kb, file, NEW), with_marks(PLATE))
    first, second = Store(kb, file, NEW), Store(kb, file, NEW)
    saved(first, with_marks(replace(PLATE, readings={"fitting_play": Reading.at(2, "2")})))

    done = saved(second, with_marks(replace(PLATE, readings={"fitting_play": Reading.at(1, "1")})))

    assert (Clash("plate", "fitting_play", "1", "2"),) == done.clashes
    assert 1 == done.survey.findings[0].readings["fitting_play"].high


@pytest.mark.parametrize(
    "there",
    ["shopping: [bread]\n", "", survey_text(with_marks(PLATE, name="Teal"))],
    ids=["something else", "nothing", "another boat"],
)
def test_what_cannot_be_joined_is_left_alone_and_ours_goes_beside_it(kb: KnowledgeBase, file: Path, there: str) -> None:
    store = Store(kb, file, NEW)
    file.write_text(there, encoding="utf-8")

    done = saved(store, with_marks(DECK, name="Wagtail"))
    again = saved(store, with_marks(DECK, PLATE, name="Wagtail"))

    assert (file, file.with_stem("boat-2")) == (done.beside, done.file)
    assert there == file.read_text(encoding="utf-8")
    assert (None, file.with_stem("boat-2")) == (again.beside, again.file)


def test_marks_that_are_too_many_together_go_beside(kb: KnowledgeBase, file: Path) -> None:
    first, second = Store(kb, file, NEW), Store(kb, file, NEW)
    saved(first, with_marks(*(replace(PLATE, id=f"a{number}") for number in range(200))))

    done = saved(second, with_marks(*(replace(PLATE, id=f"b{number}") for number in range(200))))

    assert file == done.beside


def test_what_could_not_be_read_back_is_not_written(kb: KnowledgeBase, file: Path) -> None:
    store = Store(kb, file, NEW)
    saved(store, with_marks(PLATE))
    before = file.read_bytes()

    for name in ("x" * 201, "\x1b[2J", "\udcff"):
        assert isinstance(store.save(with_marks(PLATE, name=name)), NotSaved)
        assert before == file.read_bytes()
    with pytest.raises(BadSurvey):
        Store(kb, file.with_stem("new"), with_marks(name="x" * 201))


def test_a_file_that_must_not_be_written_stays_and_the_reason_is_given(kb: KnowledgeBase, file: Path) -> None:
    store = Store(kb, file, NEW)
    saved(store, with_marks(PLATE))
    file.chmod(0o444)

    done = store.save(with_marks(PLATE, DECK))

    assert isinstance(done, NotSaved)
    assert "read-only" in done.why
    assert with_marks(PLATE) == Store(kb, file, NEW).survey


def test_a_folder_that_has_gone_is_not_made_anew_elsewhere(kb: KnowledgeBase, tmp_path: Path) -> None:
    stick = tmp_path / "stick"
    stick.mkdir()
    store = Store(kb, stick / "boat.yaml", NEW)
    stick.rmdir()

    done = store.save(with_marks(PLATE))

    assert isinstance(done, NotSaved)
    assert "not there any more" in done.why
    assert not stick.exists()


def test_a_full_disk_is_told_and_leaves_what_was_there(
    kb: KnowledgeBase, file: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    store = Store(kb, file, NEW)
    saved(store, with_marks(PLATE))
    monkeypatch.setattr(os, "fsync", full)

    done = store.save(with_marks(PLATE, DECK))

    assert isinstance(done, NotSaved)
    assert done.why
    assert [file] == list(file.parent.iterdir())
    monkeypatch.undo()
    assert ["deck", "plate"] == sorted(one.id for one in saved(store, with_marks(PLATE, DECK)).survey.findings)


def full(_: int) -> None:
    raise OSError(28, os.strerror(28))


def test_a_disk_that_gives_back_something_else_is_told(
    kb: KnowledgeBase, file: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(stores, "write_whole", lambda path, text: path.write_text(text[:-9], encoding="utf-8"))

    assert NotSaved("the disk does not give back what was written to it.") == Store(kb, file, NEW).save(NEW)


def test_a_file_that_was_deleted_meanwhile_is_written_again(kb: KnowledgeBase, file: Path) -> None:
    store = Store(kb, file, NEW)
    saved(store, with_marks(PLATE))
    file.unlink()

    assert with_marks(PLATE, DECK).in_walk_order(kb) == saved(store, with_marks(PLATE, DECK)).survey
    assert file.exists()


def test_what_could_be_taken_back_goes_first_when_the_file_gets_too_large(kb: KnowledgeBase, file: Path) -> None:
    asking = {"what": "describe"}
    entry = {"asking": asking, "edits": [{"do": "name boat", "said": "x" * 30_000}]}
    survey = replace(NEW, conversation={"asking": asking, "undo": [entry] * 100})

    assert {"asking": asking, "undo": []} == saved(Store(kb, file, NEW), survey).survey.conversation


def add_marks(file: Path, name: str, count: int) -> None:
    """What one of several processes does: one mark after the other, each saved."""
    from triage.knowledge.store.load import load_knowledge

    store = Store(load_knowledge(ROOT / "rules"), file, NEW)
    survey = store.survey
    for number in range(count):
        marks = (*survey.findings, replace(PLATE, id=f"{name}{number}"))
        survey = saved(store, replace(survey, findings=marks)).survey


def test_three_processes_at_once_lose_nothing(kb: KnowledgeBase, file: Path) -> None:
    spawn = multiprocessing.get_context("spawn")
    workers = [spawn.Process(target=add_marks, args=(file, name, 12)) for name in "abc"]

    for worker in workers:
        worker.start()
    for worker in workers:
        worker.join(100)

    wanted = sorted(f"{name}{number}" for name in "abc" for number in range(12))
    assert wanted == sorted(one.id for one in read_survey(file, kb).findings)
    assert [file] == list(file.parent.iterdir())


def test_a_lock_that_is_held_is_waited_for_and_not_for_ever(file: Path) -> None:
    with held(file):
        begun = time.monotonic()
        with pytest.raises(TimeoutError, match="busy writing"), held(file, patience=0.1):
            pass
        assert 0.1 <= time.monotonic() - begun < 5
    with held(file):
        pass


HOLDING = """
import sys, time
from pathlib import Path
from triage.survey.lock import held
with held(Path(sys.argv[1])):
    print("held", flush=True)
    time.sleep(60)
"""


@pytest.mark.skipif(sys.platform == "win32", reason="nobody is killed like this there")
def test_a_lock_whose_holder_was_killed_holds_nobody_up(file: Path) -> None:
    with subprocess.Popen([sys.executable, "-c", HOLDING, str(file)], cwd=ROOT, stdout=subprocess.PIPE) as holder:
        assert holder.stdout is not None
        assert b"held\n" == holder.stdout.readline()
        os.kill(holder.pid, signal.SIGKILL)
        holder.wait()

    with held(file, patience=1):
        assert file.with_name(".boat.yaml.lock").exists()
    assert [] == list(file.parent.iterdir())
