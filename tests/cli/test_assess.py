"""``triage assess`` as a user meets it: what it prints, what it writes, what it answers to the shell."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from triage.cli import main

FIT = """
boat: {name: Wagtail, facts: {deck: single}}
findings:
  - {zone: topside, side: port, sign: scuff}
"""
OPEN = """
boat: {name: Dunlin}
findings:
  - {zone: chainplate, side: port, sign: fastener_cracks}
"""
WRONG = """
boat: {name: Sanderling}
findings:
  - {zone: chainplat, sign: hairlin}
"""


@pytest.fixture
def surveys(tmp_path: Path) -> Path:
    for name, text in (("fit", FIT), ("open", OPEN), ("wrong", WRONG)):
        (tmp_path / f"{name}.yaml").write_text(text)
    return tmp_path


def run(*arguments: str | Path) -> Result:
    return CliRunner().invoke(main, [str(argument) for argument in arguments])


@pytest.mark.parametrize(("name", "code"), [("fit", 0), ("open", 1), ("wrong", 2)])
def test_the_exit_code_tells_the_shell_what_came_of_it(surveys: Path, name: str, code: int) -> None:
    assert code == run("assess", surveys / f"{name}.yaml").exit_code


def test_bad_input_is_told_together_with_where_and_did_you_mean_and_without_a_traceback(surveys: Path) -> None:
    result = run("assess", surveys / "wrong.yaml")

    assert 'wrong.yaml:4:6: no zone is called "chainplat"' in result.stderr
    assert 'no sign is called "hairlin"' in result.stderr
    assert 'Did you mean "chainplate"' in result.stderr
    assert "Traceback" not in result.output


def test_one_bad_survey_does_not_keep_the_others_from_being_assessed(surveys: Path) -> None:
    result = run("assess", surveys / "wrong.yaml", surveys / "fit.yaml")

    assert result.exit_code == 2
    assert "WAGTAIL" in result.stdout


def test_a_missing_file_is_told_plainly(surveys: Path) -> None:
    result = run("assess", surveys / "nowhere.yaml")

    assert result.exit_code == 2
    assert "cannot be opened" in result.stderr


def test_several_reports_go_into_a_folder(surveys: Path) -> None:
    result = run("assess", surveys / "fit.yaml", surveys / "open.yaml", "-f", "html", "-o", surveys / "out")

    assert result.exit_code == 1
    assert {"fit.html", "open.html"} == {file.name for file in (surveys / "out").iterdir()}


def test_the_ending_of_the_output_chooses_the_format(surveys: Path) -> None:
    run("assess", surveys / "fit.yaml", "-o", surveys / "fit.json")

    assert json.loads((surveys / "fit.json").read_text())["boat"] == "Wagtail"


def test_rules_of_ones_own_are_used_or_refused(surveys: Path) -> None:
    (surveys / "rules").mkdir()

    result = run("assess", surveys / "fit.yaml", "--rules", surveys / "rules")

    assert result.exit_code == 2
    assert "no *.yaml files here" in result.stderr


@pytest.mark.parametrize("what", ["assessment", "survey"])
def test_the_schemas_are_printed(what: str) -> None:
    shape = json.loads(run("schema", what).stdout)

    assert shape["$schema"].startswith("https://json-schema.org/")
    assert "properties" in shape


@pytest.mark.parametrize("shell", ["bash", "zsh", "fish"])
def test_shells_can_complete_our_commands(shell: str) -> None:
    assert "_TRIAGE_COMPLETE" in run("completion", shell).stdout


def test_every_command_explains_itself() -> None:
    for name, command in main.commands.items():
        assert command.help, name
