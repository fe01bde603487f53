"""What somebody who edits the rules is told about each kind of mistake, word for word."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.mistakes import IN_RULES, expected, message, problems_of

KINDS = 80


@pytest.mark.parametrize("mistake", IN_RULES, ids=lambda path: path.stem)
def test_a_mistake_is_told_as_written_beside_it_with_its_place_and_a_remedy(mistake: Path) -> None:
    problems = problems_of(mistake)

    assert problems
    assert expected(mistake).read_text(encoding="utf-8") == message(problems)
    for problem in problems:
        assert problem.place.source == mistake.name
        assert problem.place.line > 0
        assert problem.place.column > 0
        assert problem.hint


def test_many_kinds_of_mistakes_are_written_down_and_none_is_left_over() -> None:
    written = {file.stem for file in IN_RULES[0].parent.glob("*.txt")}

    assert len(IN_RULES) >= KINDS
    assert written == {mistake.stem for mistake in IN_RULES}
