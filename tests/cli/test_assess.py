"""``triage assess`` as a user meets it: what it prints, what it writes, what it answers to the shell."""

from __future__ import annotations

import errno
import json
import os
import sys
from pathlib import Path

import pexpect
import pytest
from click.testing import CliRunner, Result

from tests.conftest import ROOT
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


def test_a_report_never_takes_the_place_of_a_survey(surveys: Path) -> None:
    (surveys / "link.json").symlink_to("open.yaml")
    (surveys / "hard.html").hardlink_to(surveys / "fit.yaml")

    for files, output in (
        (["fit.yaml"], "fit.yaml"),
        (["open.yaml"], "link.json"),
        (["fit.yaml"], "hard.html"),
        (["open.yaml", "fit.yaml"], "fit.yaml"),
    ):
        result = run("assess", *(surveys / file for file in files), "-o", surveys / output)
        assert 2 <= result.exit_code <= 3

    assert (
        "its report would overwrite the survey"
        in run("assess", surveys / "fit.yaml", "-o", surveys / "fit.yaml").stderr
    )
    assert [FIT, OPEN] == [(surveys / f"{name}.yaml").read_text() for name in ("fit", "open")]


@pytest.mark.parametrize(
    "text", ['{"boat": {"name": "Other"}}', '{\n  "survey": 1,\n  "boat": {"name": "Other"}\n}', FIT]
)
def test_nor_that_of_a_survey_that_nobody_named(surveys: Path, text: str) -> None:
    (surveys / "fit.json").write_text(text)

    result = run("assess", surveys / "fit.yaml", "-f", "json", "-o", surveys)

    assert (2, text) == (result.exit_code, (surveys / "fit.json").read_text())


def test_an_older_report_is_replaced(surveys: Path) -> None:
    for _ in range(2):
        assert 0 == run("assess", surveys / "fit.yaml", "-f", "json", "-o", surveys).exit_code


def test_a_boat_that_nobody_looked_at_is_not_taken_for_fit(surveys: Path) -> None:
    (surveys / "none.yaml").write_text("boat: {name: Sanderling}")

    result = run("assess", surveys / "none.yaml")

    assert 1 == result.exit_code
    assert "Nothing was looked at" in result.stdout
    assert "Sailing  Not yet.\n" in result.stdout


def test_the_help_shows_no_marks_of_its_making() -> None:
    for name in main.commands:
        assert "\\b" not in run(name, "--help").stdout


def test_two_surveys_that_would_write_one_report_are_both_named(surveys: Path) -> None:
    (surveys / "other").mkdir()
    (surveys / "other/fit.json").write_text(FIT)

    result = run("assess", surveys / "fit.yaml", surveys / "other/fit.json", "-f", "html", "-o", surveys / "out")

    assert 2 == result.exit_code
    assert (
        f"{surveys / 'other/fit.json'}: its report would overwrite the one of {surveys / 'fit.yaml'}" in result.stderr
    )
    assert not (surveys / "out").exists()


def test_a_folder_that_is_missing_is_made_or_what_stands_in_its_way_is_told(surveys: Path) -> None:
    made = run("assess", surveys / "fit.yaml", "-o", surveys / "new/folder/fit.html")
    refused = run("assess", surveys / "fit.yaml", "-o", surveys / "open.yaml/fit.html")

    assert (0, 3) == (made.exit_code, refused.exit_code)
    assert (surveys / "new/folder/fit.html").exists()
    assert "Cannot make the folder" in refused.stderr


def test_a_report_that_cannot_be_written_leaves_the_older_one(surveys: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    run("assess", surveys / "fit.yaml", "-o", surveys / "fit.html")
    before = (surveys / "fit.html").read_text(encoding="utf-8")

    def full(_: int) -> None:
        raise OSError(errno.ENOSPC, "full")

    monkeypatch.setattr(os, "fsync", full)
    result = run("assess", surveys / "fit.yaml", "-o", surveys / "fit.html")

    assert 3 == result.exit_code
    assert f"Cannot write {surveys / 'fit.html'}: there is no room left." in result.stderr
    assert before == (surveys / "fit.html").read_text(encoding="utf-8")
    assert {"fit.yaml", "open.yaml", "wrong.yaml", "fit.html"} == set(os.listdir(surveys))


def test_no_more_than_the_first_problems_are_told(surveys: Path) -> None:
    rows = "\n".join(f"  - {{zone: nowhere{number}, sign: scuff}}" for number in range(90))
    (surveys / "many.yaml").write_text(f"boat: {{name: Ruff}}\nfindings:\n{rows}\n")

    result = run("assess", surveys / "many.yaml")

    assert 50 == result.stderr.count('no zone is called "nowhere')
    assert "… and 40 more problems. Mend these first." in result.stderr


@pytest.mark.parametrize(("names", "shown"), [(("fit", "open"), True), (("fit",), False)])
def test_somebody_who_waits_at_a_terminal_sees_how_far_it_is(
    surveys: Path, names: tuple[str, ...], shown: bool
) -> None:
    files = [str(surveys / f"{name}.yaml") for name in names]
    child = pexpect.spawn(
        "bash",
        ["-c", '"$0" -m triage assess "$@" -f json > /dev/null', sys.executable, *files],
        cwd=str(ROOT),
        encoding="utf-8",
        dimensions=(40, 300),
    )
    child.expect(pexpect.EOF)

    assert (f"1 of 2: {surveys / 'fit.yaml'}, 1 mark …" in str(child.before)) == shown
    assert (f"2 of 2: {surveys / 'open.yaml'}, 1 mark …" in str(child.before)) == shown


def test_nobody_at_a_terminal_sees_nothing_of_it(surveys: Path) -> None:
    assert "" == run("assess", surveys / "fit.yaml", surveys / "open.yaml").stderr
