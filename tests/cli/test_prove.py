"""``triage rules prove`` as a rule author meets it."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

import pexpect
import pytest
from click.testing import CliRunner, Result

from tests.conftest import ROOT
from tests.mistakes import small_texts
from triage.cli import main
from triage.inference.evaluate import evaluate
from triage.inference.forward import forward
from triage.knowledge.model import VERDICT
from triage.knowledge.store.load import load_knowledge
from triage.survey.read import survey_from_text

KEPT = """
promises:
  - id: stem/promise
    says: A stem that gives is never cosmetic.
    when: {zone: stem, panel_give: {at_least: soft}}
    at_least: {verdict: monitor}
    because: Waves hit it first.
"""
IDLE = """
rules:
  - id: tank/drips-too
    when: {zone: tank, leak_rate: {at_least: 1}}
    raises: {afloat: 1}
    because: It says what another rule says.
    basis: estimate
    cases:
      - {given: {zone: tank, leak_rate: 1}, expect: fires}
      - {given: {zone: tank, leak_rate: 0}, expect: silent}
"""


@pytest.fixture(autouse=True)
def cache_folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Every test remembers for itself."""
    monkeypatch.setenv("TRIAGE_CACHE_DIR", str(tmp_path / "cache"))


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    """The small base with a promise that it keeps."""
    (tmp_path / "rules").mkdir()
    for name, text in {**small_texts(), "promises.yaml": KEPT}.items():
        (tmp_path / "rules" / name).write_text(text, encoding="utf-8")
    return tmp_path / "rules"


def run(*arguments: str | Path) -> Result:
    return CliRunner().invoke(main, [str(argument) for argument in arguments])


def change(file: Path, old: str, new: str) -> None:
    text = file.read_text(encoding="utf-8")
    assert old in text
    file.write_text(text.replace(old, new), encoding="utf-8")


def test_what_holds_is_told_promise_by_promise(folder: Path) -> None:
    result = run("rules", "prove", folder, "--workers", "1")

    assert 0 == result.exit_code
    assert "  proved  A stem that gives is never cosmetic.\n" in result.stdout
    assert "  proved  Worse answers, and more found elsewhere, never give a milder end.\n" in result.stdout
    assert "1 promise and 5 laws, " in result.stdout


def test_a_broken_promise_is_shown_as_a_survey_that_can_be_assessed(folder: Path, tmp_path: Path) -> None:
    change(folder / "promises.yaml", "monitor", "structural")

    result = run("rules", "prove", folder, "--workers", "1")

    assert 2 == result.exit_code
    assert "  BROKEN  A stem that gives is never cosmetic.\n" in result.stdout
    assert "stem/promise (promises.yaml:3:5)" in result.stdout
    assert "stem.hairline: verdict: monitor for certain" in result.stdout
    survey = tmp_path / "example.yaml"
    survey.write_text(example(result), encoding="utf-8")
    assert "EXAMPLE" in run("assess", survey, "--rules", folder).stdout


def example(result: Result) -> str:
    """The first survey that is shown, as it would be copied out of the terminal."""
    lines = result.stdout.splitlines()
    start = next(number for number, line in enumerate(lines) if line.strip() == "survey: 1")
    end = next(number for number in range(start, len(lines)) if not lines[number].strip())
    return "\n".join(line.removeprefix(" " * 10) for line in lines[start:end])


BREAKS = {
    "a promise that asks for more": ("promises.yaml", "monitor", "structural"),
    "a rule that raises too little": (
        "rules.yaml",
        "laminate: {at_least: 1}}\n    raises: {verdict: 1",
        "laminate: {at_least: 2}}\n    raises: {verdict: 1",
    ),
}


@pytest.mark.parametrize("broken", BREAKS)
def test_the_engines_say_of_the_survey_what_the_proof_says_of_it(folder: Path, broken: str) -> None:
    name, old, new = BREAKS[broken]
    change(folder / name, old, new)

    result = run("rules", "prove", folder, "--workers", "1")

    kb = load_knowledge(folder)
    survey = survey_from_text(example(result), kb)
    for engine in (evaluate, forward):
        (judged,) = engine(kb, survey.boat, survey.findings)
        best, worst = (kb.level_name(VERDICT, level) for level in judged.interval(VERDICT))
        told = f"{best} for certain" if best == worst else f"between {best} and {worst}"
        assert f"          {judged.finding.id}: verdict: {told}\n" in result.stdout


def test_a_rule_that_says_nothing_new_is_told(folder: Path) -> None:
    (folder / "idle.yaml").write_text(IDLE, encoding="utf-8")

    result = run("rules", "prove", folder, "--workers", "1")

    assert 2 == result.exit_code
    assert "  IDLE    tank/drips-too (idle.yaml:3:5)" in result.stdout


def test_the_second_run_asks_nothing_and_a_fresh_one_everything(folder: Path) -> None:
    totals = [run("rules", "prove", folder, "--workers", "1", *more).stdout for more in ([], [], ["--fresh"])]

    asked = [line for text in totals for line in text.splitlines() if "answered before" in line]
    assert [" 0 answered before" in line for line in asked] == [True, False, True]


def test_rules_that_cannot_be_used_are_refused_with_the_reason(folder: Path) -> None:
    change(folder / "promises.yaml", "zone: stem", "zone: steem")

    result = run("rules", "prove", folder)

    assert 2 == result.exit_code
    assert 'Did you mean "stem"?' in result.stderr


def test_the_work_can_be_shared_out(folder: Path) -> None:
    alone, shared = (run("rules", "prove", folder, "--fresh", "--workers", workers) for workers in ("1", "2"))

    assert alone.stdout.splitlines()[:-1] == shared.stdout.splitlines()[:-1]


@pytest.mark.skipif(sys.platform == "win32", reason="there are no pseudo-terminals")
def test_progress_is_shown_in_a_terminal_and_stays_out_of_what_is_told(folder: Path) -> None:
    child = pexpect.spawn(sys.executable, ["-m", "triage", "rules", "prove", str(folder), "--workers", "1"], timeout=30)

    child.expect("Proving.*100%")
    child.expect(pexpect.EOF)
    child.close()

    assert 0 == child.exitstatus
    assert "%" not in run("rules", "prove", folder, "--workers", "1").stdout


def test_without_the_extra_it_is_told_what_to_install() -> None:
    code = "import sys; sys.modules['z3'] = None; from triage.cli import main; main(['rules', 'prove'])"

    done = subprocess.run([sys.executable, "-c", code], cwd=ROOT, capture_output=True, text=True)

    assert 2 == done.returncode
    assert done.stderr.endswith("needs an extra: pip install 'dinghy-triage[prove]'\n")
    assert "Traceback" not in done.stderr
