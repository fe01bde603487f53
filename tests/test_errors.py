"""What an error tells of what is wrong."""

from __future__ import annotations

import pytest

from triage.errors import MOST_TOLD, BadInput, Place, Problem


@pytest.mark.parametrize(
    ("problems", "last"),
    [
        (MOST_TOLD, f"here:{MOST_TOLD}:0: wrong"),
        (MOST_TOLD + 1, "… and 1 more problem. Mend these first."),
        (5000, f"… and {5000 - MOST_TOLD} more problems. Mend these first."),
    ],
)
def test_the_first_problems_are_told_and_then_how_many_more_there_are(problems: int, last: str) -> None:
    error = BadInput([Problem(Place("here", line), "wrong") for line in range(1, problems + 1)])

    assert last == str(error).split("\n\n")[-1]
    assert min(problems, MOST_TOLD) == str(error).count("wrong")
    assert problems == len(error.problems)
