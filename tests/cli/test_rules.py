"""``triage rules``: what authors are told about their rules, in order, and how the command ends."""

from __future__ import annotations

import shutil
from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from tests.mistakes import small_texts
from triage.cli import main
from triage.cli.comparison import MOST_GROUPS, comparison_lines
from triage.lint.compare import NOTHING, MarkChange, Shift


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


SOFT = (
    "panel_give: {at_least: soft}}\n    raises: {laminate: 1}",
    "panel_give: {at_least: soft}}\n    raises: {laminate: 2}",
)


def test_rules_compared_with_themselves_have_not_changed(tmp_path: Path) -> None:
    before, after = folder_of(tmp_path / "before"), folder_of(tmp_path / "after")

    result = rules("check", after, "--against", before)

    assert 0 == result.exit_code
    assert "Of 11 marks none changed, each taken alone.\n" == result.output


def test_an_edit_is_told_by_what_it_made_of_marks(tmp_path: Path) -> None:
    before, after = folder_of(tmp_path / "before"), folder_of(tmp_path / "after", SOFT)

    result = rules("check", after, "--against", before)

    assert 1 == result.exit_code
    assert "stem: hairline, long_crack, nothing_seen; side_deck: nothing_seen\n" in result.output
    assert (
        "    verdict: structural, was monitor; with only panel_give at 1, with all at\n        worst\n" in result.output
    )
    assert result.output.endswith("Of 11 marks 5 changed, each taken alone.\n")


@pytest.mark.slow
def test_an_edit_of_one_shipped_rule_prints_a_page(tmp_path: Path, root: Path) -> None:
    mine = tmp_path / "mine"
    shutil.copytree(root / "rules", mine)
    file = mine / "damage" / "skins_cracks.yaml"
    file.write_text(file.read_text(encoding="utf-8").replace("raises: {laminate: 1}", "raises: {laminate: 2}", 1))

    result = rules("check", mine, "--against", "shipped")

    assert 1 == result.exit_code
    assert 20 < len(result.output.splitlines()) <= 60
    assert "verdict: structural, was monitor to structural; with only crack_opening at 1" in result.output


def test_what_does_not_fit_on_a_page_is_counted_and_can_be_printed() -> None:
    shift = Shift("tow", "tow", "do not tow", frozenset({NOTHING}), False)
    changes = tuple(MarkChange(("stem", f"sign{n}"), (shift,), judged=(f"scale{n}",)) for n in range(MOST_GROUPS + 2))

    page, book = (list(comparison_lines(changes, everything)) for everything in (False, True))

    assert "Marks that changed in 2 other ways: 2. --all prints them." in page[-1]
    assert MOST_GROUPS + 2 == sum(line.startswith("stem: sign") for line in book)
    assert MOST_GROUPS == sum(line.startswith("stem: sign") for line in page)


def test_a_folder_that_does_not_hold_together_is_not_compared(tmp_path: Path) -> None:
    result = rules("check", folder_of(tmp_path, ("at_least: soft", "at_least: sofft")), "--against", "shipped")

    assert 2 == result.exit_code
    assert result.output.endswith("1 problem; nothing was compared.\n")


def test_the_table_of_bases_is_printed_for_any_folder(tmp_path: Path) -> None:
    result = rules("basis", "--rules", folder_of(tmp_path))

    assert 0 == result.exit_code
    assert [
        ["published", "by", "analogy", "common", "practice", "estimate"],
        ["rules", "1", "0", "5", "2"],
        ["presumptions", "0", "0", "1", "0"],
        ["checks", "0", "0", "0", "4"],
        ["causes", "0", "0", "0", "1"],
    ] == [line.split() for line in result.output.splitlines()]
