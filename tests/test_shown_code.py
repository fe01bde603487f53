"""What is shown as an example runs."""

from __future__ import annotations

import inspect
import re
import shlex
import shutil
from pathlib import Path
from typing import Any

import pytest
from click.testing import CliRunner

import triage
from tests.conftest import ROOT
from triage.cli import main
from triage.dialogue import edits, events, interview, step
from triage.dialogue.messages import Asked
from triage.knowledge.model import KnowledgeBase
from triage.survey import model
from triage.survey.model import Boat, Finding, Survey


def shown(text: str | None) -> str:
    """The indented lines of a docstring, as one program."""
    assert text
    return "\n".join(line[4:] for line in inspect.cleandoc(text).splitlines() if line.startswith("    "))


@pytest.fixture
def folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A folder with a survey in it, where the shipped rules are found."""
    shutil.copy(ROOT / "examples" / "owner-one-crack.yaml", tmp_path / "survey.yaml")
    shutil.copy(ROOT / "examples" / "offers" / "sanderling.yaml", tmp_path / "offer.yaml")
    monkeypatch.chdir(tmp_path)
    monkeypatch.setenv("TRIAGE_RULES_DIR", str(ROOT / "rules"))
    return tmp_path


def test_the_package_shows_how_to_assess_and_how_to_talk(folder: Path, capsys: pytest.CaptureFixture[str]) -> None:
    names: dict[str, object] = {}

    exec(shown(triage.__doc__), names)

    assert isinstance(names["state"], triage.State)
    assert ["chainplate"] == [one.zone for one in names["state"].survey.findings]
    assert isinstance(names["messages"][-1], Asked)  # type: ignore[index]
    assert "sign: fastener_cracks" in capsys.readouterr().out


def test_the_rooms_of_the_conversation_show_how_they_are_used(kb: KnowledgeBase) -> None:
    plate = Finding("plate", "chainplate", "fastener_cracks", "port")
    for module in (step, edits, interview):
        survey = Survey(Boat("Wagtail"), (plate,) if module is edits else ())
        names: dict[str, Any] = {**vars(model), **vars(events), **vars(module), "kb": kb, "survey": survey}
        names |= {"mark": "plate", "input": lambda _: "could not tell"}

        exec(shown(module.__doc__), names)

        after = names["state"].survey if module is step else names["survey"]
        assert ["chainplate"] == [one.zone for one in after.findings]


def test_the_conversation_in_the_readme_begins(folder: Path) -> None:
    text = (ROOT / "README.md").read_text(encoding="utf-8")
    (command,) = re.findall(r"^\$ triage (ask .+)$", text, re.MULTILINE)

    result = CliRunner().invoke(main, shlex.split(command), input="2\n1\n1\n1\nback\nquit\n")

    assert 0 == result.exit_code, result.output
    assert "This is how I understand it" in result.output
    assert "The last step is taken back." in result.output
    assert "Everything is kept in survey-2.yaml" in result.output
    for word in re.findall(r"`(\w+)`", text.split("triage ask", 1)[1].split("## What")[0]):
        assert word in CliRunner().invoke(main, ["ask"], input="1\nhelp\nquit\n").output
