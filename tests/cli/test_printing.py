"""What is printed is plain, and can be printed in any encoding."""

from __future__ import annotations

import json
import os
import re
import subprocess
import sys
import unicodedata
from pathlib import Path

import pytest
from click.testing import CliRunner

from tests.cli.streams import left_with, printed_bytes, printed_on, printer
from tests.conftest import ROOT
from triage.cli import main
from triage.cli.printing import LETTERS, plain_lines

NASTY = "\x1b]0;gone\x07\x1b[31m\u202eeht\u2066\x9b2J\r"
SURVEY = """
boat: {name: "Wag\u202etail"}
findings:
  - {zone: topside, side: port, sign: scuff, note: "5 × 3 mm → “fine”, naïve café ○"}
"""


def not_plain(text: str) -> set[str]:
    return {character for character in text if not character.isprintable()} - {"\n"}


@pytest.fixture
def survey(tmp_path: Path) -> Path:
    file = tmp_path / "boat.yaml"
    file.write_text(SURVEY, encoding="utf-8")
    return file


def run(*arguments: object) -> str:
    result = CliRunner().invoke(main, [str(argument) for argument in arguments])
    return result.stdout + result.stderr


@pytest.mark.parametrize("form", ["text", "html", "json"])
@pytest.mark.parametrize("colour", ["--colour", "--no-colour"])
def test_a_boats_name_cannot_drive_the_terminal(survey: Path, form: str, colour: str) -> None:
    printed = run("assess", survey, "-f", form, colour)

    assert set() == not_plain(re.sub(r"\033\[[0-9;]*m", "", printed))
    assert ("\033" in printed) == (form == "text" and colour == "--colour")


def test_json_keeps_what_does_not_print_as_an_escape(survey: Path) -> None:
    printed = run("assess", survey, "-f", "json")

    assert r"Wag\u202etail" in printed
    assert "Wag\u202etail" == json.loads(printed)["boat"]


@pytest.mark.parametrize(
    "arguments",
    [
        ("assess", f"{NASTY}.yaml"),
        ("causes", "graph", "--around", NASTY),
        ("causes", "graph", f"--{NASTY}"),
        ("rules", "check", NASTY),
        ("rules", "handbook", f"/dev/null/{NASTY}"),
        ("completion", NASTY),
        (NASTY,),
    ],
    ids=lambda given: " ".join(given[:2]).encode("ascii", "ignore").decode()[:20],
)
def test_a_name_that_is_refused_cannot_either(arguments: tuple[str, ...]) -> None:
    printed = run(*arguments)

    assert "eht" in printed
    assert set() == not_plain(printed)


def test_a_name_that_is_no_text_is_told_all_the_same(tmp_path: Path) -> None:
    done = subprocess.run(
        [sys.executable, "-m", "triage", "assess", os.fsencode(tmp_path) + b"/caf\xe9.yaml"],
        cwd=ROOT,
        capture_output=True,
        check=False,
    )

    assert (2, b"") == (done.returncode, done.stdout)
    assert b"cannot be opened" in done.stderr


@pytest.mark.parametrize("encoding", ["ascii", "latin-1", "cp1252", "utf-8"])
@pytest.mark.parametrize("form", ["text", "json", "html"])
def test_a_report_can_be_printed_in_any_encoding(survey: Path, encoding: str, form: str) -> None:
    out, err = printer(encoding), printer()

    assert 0 == left_with(out, err, "assess", str(survey), "-f", form, *(["--full"] if form == "text" else []))
    assert "" == printed_on(err)
    said = printed_on(out) if form != "html" else printed_bytes(out).decode("utf-8")
    if form == "json":
        said = json.loads(said)["findings"][0]["note"]
    if form == "text" and encoding == "ascii":
        assert '5 x 3 mm -> "fine", naive cafe o' in " ".join(said.split())
    elif form != "text" or encoding == "utf-8":
        assert "5 × 3 mm → “fine”, naïve café ○" in " ".join(said.split())


def test_what_the_environment_says_of_the_encoding_is_kept_to(survey: Path) -> None:
    done = subprocess.run(
        [sys.executable, "-m", "triage", "assess", survey, "--full"],
        cwd=ROOT,
        capture_output=True,
        env={**os.environ, "PYTHONIOENCODING": "ascii", "PYTHONUTF8": "0"},
        check=False,
    )

    assert (0, b"") == (done.returncode, done.stderr)
    assert '5 x 3 mm -> "fine", naive cafe o' in " ".join(done.stdout.decode("ascii").split())


def test_every_letter_has_a_readable_one_in_its_place() -> None:
    assert {} == {letter: put for letter, put in LETTERS.items() if not (put.isascii() and put.isprintable())}


def test_every_sign_in_rules_and_reports_is_readable_in_the_poorest_encoding() -> None:
    files = [*(ROOT / "rules").rglob("*.yaml"), *(ROOT / "reports").rglob("*.txt"), *(ROOT / "examples").rglob("*.txt")]
    used = {letter for file in files for letter in file.read_text(encoding="utf-8") if not letter.isascii()}

    lost = {
        letter
        for letter in used - set(LETTERS)
        if not unicodedata.normalize("NFKD", letter).encode("ascii", "ignore").strip()
    }

    assert set() == lost


def test_lines_stay_lines() -> None:
    assert "one\n two \n" == plain_lines("one\n\ttwo\r\n")


def test_nothing_in_the_command_line_prints_by_other_means() -> None:
    others = {
        file.name
        for file in (ROOT / "triage/cli").glob("*.py")
        if "click.echo(" in file.read_text(encoding="utf-8") or "print(" in file.read_text(encoding="utf-8")
    }

    assert others <= {"printing.py"}
