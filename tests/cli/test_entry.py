"""Whatever stands in the way, the command line answers with a plain sentence and a code, never with a traceback."""

from __future__ import annotations

import os
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path
from typing import Any

import click
import pytest
from click.testing import CliRunner

from tests.cli.streams import left_with, printed_on, printer
from tests.conftest import ROOT
from triage.__main__ import run
from triage.cli import codes, main
from triage.cli.entry import Entry
from triage.errors import BadInput, CannotWork, MissingExtra, Place, Problem

EXAMPLE = ROOT / "examples/club-boat.yaml"
needs_full_device = pytest.mark.skipif(not Path("/dev/full").exists(), reason="this system has no full device")


def shell(command: str, **more: Any) -> subprocess.CompletedProcess[str]:
    """Run a command of the shell in which ``triage`` is the one that is tested."""
    given = f'triage() {{ "{sys.executable}" -m triage "$@"; }}; set -o pipefail; cd "{ROOT}"; {command}'
    return subprocess.run(["bash", "-c", given], capture_output=True, text=True, check=False, **more)


def raising(error: BaseException) -> Entry:
    @click.group(cls=Entry)
    def group() -> None:
        """A group."""

    @group.command()
    def fail() -> None:
        raise error

    return group


@pytest.mark.parametrize(
    ("error", "code", "said"),
    [
        (BadInput([Problem(Place("here", 3), "wrong")]), 2, "here:3:0: wrong\n"),
        (CannotWork("The disk is full. Make room."), 3, "The disk is full. Make room.\n"),
        (MissingExtra("Proving", "prove"), 3, "Proving needs an extra: pip install 'dinghy-triage[prove]'\n"),
        (click.UsageError("Not so."), 2, "Error: Not so.\n"),
        (click.ClickException("No."), 3, "No.\n"),
        (KeyboardInterrupt(), 130, "Stopped.\n"),
        (click.Abort(), 130, "Stopped.\n"),
        (BrokenPipeError(32, "gone"), 3, ""),
        (
            OSError(28, "full", "a.txt"),
            3,
            "Cannot use a.txt: there is no room left. Make room, or name another place.\n",
        ),
        (MemoryError(), 3, "There is not enough memory for this. Close other programs, or give it less at once.\n"),
        (SystemExit(1), 1, ""),
    ],
    ids=lambda given: type(given).__name__,
)
def test_every_error_has_its_code_and_its_words(error: BaseException, code: int, said: str) -> None:
    result = CliRunner().invoke(raising(error), ["fail"])

    assert code == result.exit_code
    assert result.stderr.endswith(said)
    assert "Traceback" not in result.output


@pytest.mark.parametrize("error", [ZeroDivisionError("by\nnothing"), RecursionError(), KeyError("x"), AssertionError()])
def test_a_mistake_of_ours_is_told_in_one_sentence_with_what_to_send(error: Exception) -> None:
    result = CliRunner().invoke(raising(error), ["fail"])

    assert 3 == result.exit_code
    assert result.stderr.startswith("This is a mistake of ours and not of yours; so that it can be mended, please send")
    assert f"this line: {type(error).__name__}" in result.stderr
    assert 1 == result.stderr.count("\n")


def test_in_development_mode_a_mistake_of_ours_shows_where_it_was_made() -> None:
    code = "from tests.cli.test_entry import raising; raising(ZeroDivisionError())(['fail'])"

    done = subprocess.run(
        [sys.executable, "-X", "dev", "-c", code], cwd=ROOT, capture_output=True, text=True, check=False
    )

    assert "Traceback" in done.stderr


FULL = "Cannot use the output: there is no room left. Make room, or name another place.\n"


@needs_full_device
@pytest.mark.parametrize(
    "command",
    ["assess examples/club-boat.yaml", "schema", "--help", "assess --help", "causes graph", "completion bash"],
)
def test_an_output_that_takes_nothing_is_told(command: str, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(ROOT)
    err = printer()
    with Path("/dev/full").open("w", encoding="utf-8") as full:
        assert 3 == left_with(full, err, *command.split())

    assert FULL == printed_on(err)


@needs_full_device
@pytest.mark.parametrize(("command", "code"), [("assess nowhere.yaml", 3), ("causes graph --around nowhere", 2)])
def test_it_makes_no_difference_that_nobody_can_be_told(command: str, code: int) -> None:
    with Path("/dev/full").open("w", encoding="utf-8") as full:
        assert code == left_with(printer(), full, *command.split())


@needs_full_device
def test_python_itself_says_no_more_when_it_ends() -> None:
    told, untold = shell("triage schema > /dev/full"), shell("triage schema > /dev/full 2> /dev/full")

    assert (3, FULL) == (told.returncode, told.stderr)
    assert (3, "") == (untold.returncode, untold.stderr)


@needs_full_device
def test_a_file_that_takes_nothing_is_told() -> None:
    result = CliRunner().invoke(main, ["assess", str(EXAMPLE), "-o", "/dev/full"])

    assert (3, "") == (result.exit_code, result.stdout)
    assert "Cannot write /dev/full: there is no room left." in result.stderr


@pytest.mark.parametrize(("out", "err", "code"), [(False, True, 3), (False, False, 3), (True, False, 1)])
def test_a_closed_output_is_no_surprise(out: bool, err: bool, code: int) -> None:
    told = printer()

    assert code == left_with(printer() if out else None, told if err else None, "assess", str(EXAMPLE))
    assert ("the output is closed" in printed_on(told)) == err


def test_an_output_that_the_shell_closed_is_no_surprise() -> None:
    done = shell("triage schema >&-")

    assert 3 == done.returncode
    assert "the output is closed" in done.stderr
    assert "Traceback" not in done.stderr


@pytest.mark.parametrize("command", ["assess examples/club-boat.yaml", "schema", "causes graph -f json"])
def test_whoever_stops_listening_is_left_in_peace(command: str, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(ROOT)
    heard, spoken = os.pipe()
    os.close(heard)
    err = printer()
    with os.fdopen(spoken, "w", encoding="utf-8") as pipe:
        assert 3 == left_with(pipe, err, *command.split())

    assert "" == printed_on(err)


def test_a_shell_that_stops_listening_sees_no_complaint() -> None:
    done = shell("triage schema | head -1; echo ${PIPESTATUS[0]}")

    assert "" == done.stderr
    assert done.stdout.splitlines()[-1] in ("3", "0")  # 3 unless all of it was printed before head had gone


def test_somebody_without_a_name_and_a_home_is_served(tmp_path: Path) -> None:
    code = (
        "import os, pwd, sys\n"
        "def nobody(_): raise KeyError\n"
        "pwd.getpwuid = nobody\n"
        "from triage.cli import main\n"
        f"main(['assess', {str(EXAMPLE)!r}])"
    )
    env = {name: value for name, value in os.environ.items() if name not in ("HOME", "XDG_CACHE_HOME")}

    done = subprocess.run(
        [sys.executable, "-c", code],
        cwd=tmp_path,
        env={**env, "PYTHONPATH": str(ROOT)},
        capture_output=True,
        text=True,
        check=False,
    )

    assert (1, "") == (done.returncode, done.stderr)
    assert [] == os.listdir(tmp_path)


def test_stopping_it_before_it_has_begun_is_no_traceback(monkeypatch: pytest.MonkeyPatch) -> None:
    def stopped(**_: object) -> None:
        raise KeyboardInterrupt

    monkeypatch.setattr("triage.cli.main", stopped)

    with pytest.raises(SystemExit) as left:
        run()

    assert codes.STOPPED == left.value.code


def test_a_usage_that_is_not_understood_is_answered_with_the_right_one() -> None:
    result = CliRunner().invoke(main, ["assess"])

    assert 2 == result.exit_code
    assert result.stderr.startswith("Usage: ")
    assert "Missing argument 'FILE…'" in result.stderr


def test_the_codes_are_those_that_the_help_and_the_readme_tell() -> None:
    numbers = {value for name, value in vars(codes).items() if name.isupper()}
    told: Callable[[str], bool] = lambda text: all(str(number) in text for number in numbers)  # noqa: E731

    assert {0, 1, 2, 3, 130} == numbers
    assert told(CliRunner().invoke(main, ["assess", "--help"]).stdout)
    assert told((ROOT / "README.md").read_text(encoding="utf-8").split("exit code", 1)[1][:900])
