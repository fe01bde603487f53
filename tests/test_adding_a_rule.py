"""Adding to the shipped knowledge touches the files that the guide names, and the check is quiet afterwards."""

from __future__ import annotations

import re
import shutil
from pathlib import Path

import pytest
from click.testing import CliRunner

from triage.cli import main
from triage.knowledge.store.load import load_knowledge
from triage.lint import PASSES

RULE = """
  - id: buoyancy/side-tank-with-its-cover-gone
    when: {zone: side_tank, sign: hatch_leak, seal_state: {at_least: 3}}
    raises: {flotation: 3}
    because: A tank along the side is the first to go under, and with its cover gone it fills at once.
    basis: estimate
    cases:
      - {given: {zone: side_tank, sign: hatch_leak, seal_state: 3}, expect: fires}
      - {given: {zone: side_tank, sign: hatch_leak, seal_state: 2}, expect: silent}
      - {given: {zone: side_deck, sign: hatch_leak, seal_state: 3}, expect: silent}
      - {given: {zone: side_tank, sign: hairline, seal_state: 3}, expect: silent}
"""
OFFER = "\n  - {zones: [side_tank], signs: [hatch_leak]}\n"


@pytest.fixture
def mine(tmp_path: Path, root: Path) -> Path:
    """A copy of the shipped rules with one rule more and the offer it needs, in two files."""
    folder = tmp_path / "rules"
    shutil.copytree(root / "rules", folder)
    for name, more in (("damage/openings.yaml", RULE), ("boat/offers.yaml", OFFER)):
        with (folder / name).open("a", encoding="utf-8") as file:
            file.write(more)
    return folder


@pytest.mark.slow
def test_the_check_is_quiet_after_a_rule_and_its_offer_in_two_files(mine: Path, root: Path) -> None:
    before, after = load_knowledge(root / "rules"), load_knowledge(mine)

    assert len(before.rules) + 1 == len(after.rules)
    assert "hatch_leak" not in before.offers["side_tank"]
    assert "hatch_leak" in after.offers["side_tank"]
    assert [] == [problem.what for _, run in PASSES for problem in run(after)]


def test_what_the_rule_made_of_its_mark_can_be_read(mine: Path) -> None:
    result = CliRunner().invoke(main, ["rules", "check", str(mine), "--against", "shipped"])

    assert 1 == result.exit_code
    assert result.output.startswith("side_tank: hatch_leak\n    new; unanswered it comes to ")
    assert result.output.endswith(" 1 changed, each taken alone.\n")


@pytest.mark.slow
def test_the_check_is_quiet_after_the_mark_that_the_guide_adds_in_four_places(tmp_path: Path, root: Path) -> None:
    folder = tmp_path / "rules"
    shutil.copytree(root / "rules", folder)
    guide = (root / "DEVELOPERS.md").read_text(encoding="utf-8")
    (mark,) = re.findall(r"```yaml\n(  paint_run:.+?)```", guide, re.DOTALL)
    usual, words = (re.findall(rf"`(paint_run: {{{word}: .+?}})`", guide)[0] for word in ("damaged", "said"))
    for name, before, more in (
        ("signs/1_surface.yaml", "signs:\n", mark),
        ("boat/offers.yaml", "offers:\n", "  - {zones: [topside], signs: [paint_run]}\n"),
        ("frequencies/marks.yaml", "  signs:\n", f"    {usual}\n"),
        ("words/marks_surface.yaml", "  signs:\n", f"    {words}\n"),
    ):
        text = (folder / name).read_text(encoding="utf-8")
        (folder / name).write_text(text.replace(before, before + more, 1), encoding="utf-8")

    kb = load_knowledge(folder)

    assert "paint_run" in kb.offers["topside"]
    assert [] == [problem.what for _, run in PASSES for problem in run(kb)]


@pytest.mark.parametrize("document", ["README.md", "DEVELOPERS.md", "rules/README.md"])
def test_no_document_counts_the_rules(document: str, root: Path) -> None:
    kb = load_knowledge(root / "rules")
    numbers = {len(kb.rules), len(kb.presumptions), len(kb.all_rules)}
    said = re.findall(r"\b(\d+) (?:rules|presumptions)\b", (root / document).read_text(encoding="utf-8"))

    assert [] == [number for number in said if int(number) in numbers]
