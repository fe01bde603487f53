"""Drawn cases were judged by somebody who saw neither rules nor answers: how far the program agrees."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest
import yaml

from tests.conftest import ROOT
from tests.teaching.test_read_cases import GRADES, verdicts
from triage.knowledge.model import KnowledgeBase
from triage.teaching.agreement import kappa

FILE = Path(ROOT) / "tests" / "teaching" / "judged_cases.yaml"
CASES: list[dict[str, Any]] = yaml.safe_load(FILE.read_text(encoding="utf-8"))

MEASURED = 0.56
"""Weighted kappa (linear) on the cases of one verdict, as measured (0.57 with the one taken out); it may not fall."""

DIFFER = {
    "901:middling": ("monitor", "structural"),  # hinges that move and cracks in the stern round them
    "903:easy": ("monitor", "cosmetic"),  # a worn cover: the grades hardly fit it
    "904:middling": ("structural", "monitor"),  # up to three litres an hour in through the pivot
    "909:easy": ("structural", "monitor"),  # a dead lamp keeps her off the road and weakens nothing
    "914:hard": ("monitor", "cosmetic"),  # a corner with a small dull spot
    "918:easy": ("monitor", "cosmetic"),  # a worn cover
    "925:middling": ("monitor", "cosmetic"),  # a small dull spot with no old repair in sight
    "929:hard": ("monitor", "cosmetic"),  # alone it were cosmetic; the mark beside it is not
}
"""Where the reader and the program differ, and neither has been shown to be wrong: reader, program."""


def case_id(case: dict[str, Any]) -> str:
    return str(case["drawn"])


@pytest.mark.parametrize("case", CASES, ids=case_id)
def test_the_program_says_what_was_judged_or_is_known_to_differ(kb: KnowledgeBase, case: dict[str, Any]) -> None:
    judged, told = case["judged"].split(" to "), verdicts(kb, case)

    assert told[0] == told[1], "every check was made"
    if case_id(case) in DIFFER:
        assert DIFFER[case_id(case)] == (case["judged"], told[0])
        assert 1 == abs(GRADES.index(judged[0]) - GRADES.index(told[0]))
    else:
        assert told[0] in judged


def test_agreement_does_not_fall(kb: KnowledgeBase) -> None:
    table = [[0] * len(GRADES) for _ in GRADES]
    for case in CASES:
        if case["judged"] in GRADES:
            table[GRADES.index(case["judged"])][GRADES.index(verdicts(kb, case)[1])] += 1
    found = kappa(table, "linear")

    assert found is not None
    assert 24 == found.n
    assert found.value >= MEASURED
