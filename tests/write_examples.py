"""Writes the expected report of every example anew: ``python -m tests.write_examples``; then read the difference."""

from __future__ import annotations

from tests.conftest import ROOT
from tests.test_examples import SUFFIXES, without_digest
from triage import assess_survey, load_knowledge, read_survey, render

kb = load_knowledge(ROOT / "rules")
for example in sorted((ROOT / "examples").glob("*.yaml")):
    assessment = assess_survey(read_survey(example, kb), kb)
    for form, suffix in SUFFIXES.items():
        target = ROOT / "examples/expected" / f"{example.stem}{suffix}"
        target.write_text(without_digest(render(assessment, form), kb), encoding="utf-8")
