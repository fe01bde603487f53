"""``triage teach``: what it lists, what it writes, and what it says when it cannot."""

from __future__ import annotations

from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from tests.mistakes import SMALL
from triage.cli import main


def teach(*arguments: str) -> Result:
    return CliRunner().invoke(main, ["teach", *arguments])


def test_lessons_are_listed_with_their_minutes() -> None:
    result = teach("lessons")

    assert 0 == result.exit_code
    assert "1  What a dinghy is made of (50 min)" in result.output
    assert max(map(len, result.output.splitlines())) <= 80


@pytest.mark.parametrize(
    "command", [["lesson", "2"], ["lesson", "2", "--for", "trainer"], ["cards"], ["quiz"], ["sheet"]]
)
def test_a_page_is_written_whole(command: list[str], tmp_path: Path) -> None:
    page = tmp_path / "page.html"

    result = teach(*command, "-o", str(page))

    assert 0 == result.exit_code
    assert f"Written to {page}" in result.output
    assert page.read_text(encoding="utf-8").rstrip().endswith("</html>")


@pytest.mark.parametrize("command", [["lesson", "2"], ["cards"], ["quiz"]])
def test_for_a_projector_one_thing_is_on_a_screen(command: list[str], tmp_path: Path) -> None:
    page = tmp_path / "page.html"

    teach(*command, "--projector", "-o", str(page))

    assert 'class="screen"' in page.read_text(encoding="utf-8")


@pytest.mark.parametrize(
    ("arguments", "says"),
    [
        (["lesson", "7", "-o", "x.html"], "There is no lesson 7: they go from 1 to 6. See triage teach lessons."),
        (["cards", "-o", "x.doc"], "x.doc should end in .html or .pdf"),
        (["quiz"], "Missing option '--output'"),
    ],
)
def test_what_cannot_be_written_is_told(arguments: list[str], says: str) -> None:
    result = teach(*arguments)

    assert 2 == result.exit_code
    assert says in result.output


def test_rules_without_lessons_are_told() -> None:
    result = teach("lessons", "--rules", str(SMALL))

    assert 2 == result.exit_code
    assert "These rules hold no lessons." in result.output
