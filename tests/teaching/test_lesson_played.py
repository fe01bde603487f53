"""A whole lesson, from its sheet to what the class made of it."""

from __future__ import annotations

import re
import shlex
from pathlib import Path

import pytest
from click.testing import CliRunner

from tests.conftest import ROOT
from tests.teaching.lesson_played import FOLDER, kept_in, played
from triage.cli import main
from triage.knowledge.model import KnowledgeBase

COMMANDS = re.findall(r"^\$ triage (.+)$", (FOLDER / "README.md").read_text(encoding="utf-8"), re.MULTILINE)


def test_the_class_is_what_its_learners_answered(kb: KnowledgeBase, tmp_path: Path) -> None:
    kept_in(kb, tmp_path)

    name = f"class-{played()['class']}.json"
    assert (FOLDER / name).read_text(encoding="utf-8") == (tmp_path / name).read_text(encoding="utf-8")


def test_three_learners_judged_cases_of_the_lesson(kb: KnowledgeBase) -> None:
    lesson, cases = kb.teaching.lessons[played()["lesson"]], played()["cases"]
    practised = {
        one.sign for case in lesson.cases if case.confusion for one in kb.teaching.confusions[case.confusion].pair
    }

    assert all(3 == len(learners) for learners in cases.values())
    assert len([name for name in cases if name.split(":")[2] in practised]) >= 5


@pytest.mark.parametrize("command", COMMANDS)
def test_what_its_story_runs_can_be_run(command: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)
    (tmp_path / "examples").symlink_to(ROOT / "examples")

    result = CliRunner().invoke(main, shlex.split(command))

    assert 0 == result.exit_code, result.output


def test_marking_tells_of_what_was_missed_and_how_sure_they_were() -> None:
    result = CliRunner().invoke(main, ["teach", "class", played()["class"], "--folder", str(FOLDER)])

    assert 0 == result.exit_code, result.output
    for part in ("Tern", "Plover", "Knot", "Structural marks found", "Right verdicts", "kappa"):
        assert part in result.output
