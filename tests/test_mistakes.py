"""Each mistake in rules or in a survey is told as written beside it: where it is, what is wrong, what to do."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

import pytest

from tests.mistakes import IN_RULES, IN_SURVEYS, expected, message, problems_of


@pytest.mark.parametrize("mistake", [*IN_RULES, *IN_SURVEYS], ids=lambda path: f"{path.parts[-3]}-{path.stem}")
def test_a_mistake_is_told_as_written_beside_it_with_its_place_and_a_remedy(mistake: Path) -> None:
    problems = problems_of(mistake)

    assert problems
    assert expected(mistake).read_text(encoding="utf-8") == message(problems)
    for problem in problems:
        assert problem.place.source == mistake.name
        assert (problem.place.line > 0 and problem.place.column > 0) or mistake.stem == "empty"
        assert problem.hint


@pytest.mark.parametrize(("mistakes", "least"), [(IN_RULES, 80), (IN_SURVEYS, 30)], ids=["rules", "surveys"])
def test_many_kinds_of_mistakes_are_written_down_and_none_is_left_over(mistakes: Sequence[Path], least: int) -> None:
    written = {file.stem for file in mistakes[0].parent.glob("*.txt")}

    assert len(mistakes) >= least
    assert written == {mistake.stem for mistake in mistakes}
