"""The examples: each is assessed and compared with the report that stands beside it, word for word.

After a wanted change, look at what it does to them and write them anew: ``python -m tests.write_examples``.
"""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.conftest import ROOT
from triage.concluding.assess import assess_survey
from triage.knowledge.model import KnowledgeBase
from triage.survey.read import read_survey
from triage.views.report import Format, render

EXAMPLES = sorted((ROOT / "examples").glob("*.yaml"))


SUFFIXES: dict[Format, str] = {"text": ".txt", "full": "-in-full.txt"}
"""How the expected reports of an example end: the short answer, and the one with every reason."""


def without_digest(report: str, kb: KnowledgeBase) -> str:
    """The report without what every edit of the rules would change in all of them."""
    return report.replace(kb.digest[:8], "........")


def test_there_are_at_least_three_examples() -> None:
    assert len(EXAMPLES) >= 3


@pytest.mark.parametrize("example", EXAMPLES, ids=lambda path: path.stem)
def test_an_example_comes_out_as_expected(example: Path, kb: KnowledgeBase) -> None:
    assessment = assess_survey(read_survey(example, kb), kb)

    for form, suffix in SUFFIXES.items():
        expected = (ROOT / "examples/expected" / f"{example.stem}{suffix}").read_text(encoding="utf-8")
        assert expected == without_digest(render(assessment, form), kb)
