"""``triage rules``: what authors are told about their rules, in order, and how the command ends."""

from __future__ import annotations

from pathlib import Path

from click.testing import CliRunner, Result

from tests.mistakes import small_texts
from triage.cli import main


def rules(*arguments: str | Path) -> Result:
    return CliRunner().invoke(main, ["rules", *map(str, arguments)])


def folder_of(folder: Path, *changes: tuple[str, str], **more: str) -> Path:
    """The small base as files, with passages changed (old, new) and more files beside them."""
    folder.mkdir(parents=True, exist_ok=True)
    for name, text in {**small_texts(), **{f"{name}.yaml": text for name, text in more.items()}}.items():
        changed = text
        for old, new in changes:
            changed = changed.replace(old, new)
        (folder / name).write_text(changed, encoding="utf-8")
    return folder


IDLE = """
rules:
  - id: stem/gives-again
    when: {zone: stem, panel_give: {at_least: 1}}
    raises: {laminate: 1}
    because: It gives.
    basis: estimate
    cases:
      - {given: {zone: stem, panel_give: 1}, expect: fires}
      - {given: {zone: stem}, expect: silent}
      - {given: {zone: tank, panel_give: 1}, expect: silent}
"""


def test_a_clean_folder_is_said_to_be_clean(tmp_path: Path) -> None:
    result = rules("check", folder_of(tmp_path))

    assert 0 == result.exit_code
    assert result.output.endswith("8 rules, 1 presumption, 32 cases: no problems.\n")
    assert "" == result.stderr


def test_each_problem_stands_under_its_pass_with_its_line_and_a_caret(tmp_path: Path) -> None:
    result = rules("check", folder_of(tmp_path, idle=IDLE))

    lines = result.stdout.splitlines()
    at = lines.index("rules that never matter: 1 problem")
    assert [
        "",
        "  idle.yaml:3:5: stem/gives-again never matters: whenever it holds, other rules already say as much",
        "         3 |   - id: stem/gives-again",
        "                 ^",
        "      Drop it, or say what it adds.",
        "",
    ] == lines[at + 1 : at + 7]
    assert 2 == result.exit_code
    assert "" == result.stderr


def test_what_is_wrong_with_a_word_is_shown_where_the_word_stands(tmp_path: Path) -> None:
    result = rules("check", folder_of(tmp_path, chip="signs:\n  chip: {name: Chip, picture: A piece is gone.}\n"))

    assert 'chip.yaml:2:3: the sign "chip" is offered nowhere' in result.stdout
    assert "   2 |   chip: {name: Chip, picture: A piece is gone.}" in result.stdout


def test_a_folder_that_does_not_hold_together_is_told_in_one_stream(tmp_path: Path) -> None:
    result = rules("check", folder_of(tmp_path, ("panel_give: {at_least: soft}", "panel_giv: {at_least: soft}")))

    assert 2 == result.exit_code
    assert 'unknown word "panel_giv"\n' in result.stdout
    assert result.stdout.endswith("1 problem; nothing else was checked.\n")
