"""Writes the expected report of every example anew: ``python -m tests.write_examples``; then read the difference."""

from __future__ import annotations

from tests.conftest import ROOT
from tests.test_examples import without_digest
from triage import assess_survey, load_knowledge, read_survey, render

kb = load_knowledge(ROOT / "rules")
for example in sorted((ROOT / "examples").glob("*.yaml")):
    report = render(assess_survey(read_survey(example, kb), kb), "text")
    (ROOT / "examples/expected" / f"{example.stem}.txt").write_text(without_digest(report, kb), encoding="utf-8")
