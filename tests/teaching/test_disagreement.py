"""A trainer who thinks otherwise makes a proposal that `rules check` can be asked about."""

from __future__ import annotations

import shutil
from pathlib import Path

import pytest
import yaml
from click.testing import CliRunner

from triage.cli import main
from triage.errors import BadInput
from triage.knowledge.model import KnowledgeBase
from triage.knowledge.store.load import load_knowledge
from triage.lint.cases import wrong_cases
from triage.teaching.disagreement import disagree, proposal
from triage.teaching.drawn import case_named
from triage.teaching.key import key_of

BECAUSE = "The patch is foam behind the coat,\n and it rings the same on the other side"


def test_milder_is_a_case_on_which_the_rule_that_decided_should_be_silent(
    kb: KnowledgeBase, root: Path, tmp_path: Path
) -> None:
    key = key_of(kb, case_named(kb, "177"))
    text = proposal(kb, disagree(kb, key, "cosmetic", BECAUSE, "Ines"))
    assert f"({key.rule}), Ines says cosmetic." in text
    assert "rings the same on the other side." in text
    (case,) = yaml.safe_load(text)
    rules = tmp_path / "rules"
    shutil.copytree(root / "rules", rules)
    file = next(file for file in rules.rglob("*.yaml") if f"id: {key.rule}\n" in file.read_text())
    head, tail = file.read_text().split(f"id: {key.rule}\n")
    before, after = tail.split("cases:\n", 1)
    flow = yaml.safe_dump(case, default_flow_style=True, width=10_000).strip()
    file.write_text(f"{head}id: {key.rule}\n{before}cases:\n      - {flow}\n{after}")

    (problem,) = wrong_cases(load_knowledge(rules))

    assert f"{key.rule}: expected silent, but it fires" in problem.what


def test_graver_is_a_rule_that_is_missing(kb: KnowledgeBase, root: Path, tmp_path: Path) -> None:
    key = key_of(kb, case_named(kb, "177"))
    rules = tmp_path / "rules"
    shutil.copytree(root / "rules", rules)
    (rules / "proposed.yaml").write_text(proposal(kb, disagree(kb, key, "structural", BECAUSE)))

    ours = load_knowledge(rules)

    assert not list(wrong_cases(ours))
    assert "structural" == key_of(ours, key.case).finding.verdict.best


@pytest.mark.parametrize(
    ("verdict", "because", "says"),
    [
        ("monitor", BECAUSE, "says monitor too"),
        ("cosmetik", BECAUSE, "is no verdict"),
        ("cosmetic", " \n", "a reason is needed"),
        ("cosmetic", "x" * 501, "a reason is needed"),
    ],
)
def test_what_proposes_nothing_is_refused(kb: KnowledgeBase, verdict: str, because: str, says: str) -> None:
    with pytest.raises(BadInput, match=says):
        disagree(kb, key_of(kb, case_named(kb, "177")), verdict, because)


def test_nothing_but_a_file_comes_of_it(tmp_path: Path) -> None:
    target = tmp_path / "proposed.yaml"
    said = ["teach", "disagree", "177", "--verdict", "cosmetic", "--because", BECAUSE, "-o", str(target)]

    result = CliRunner().invoke(main, said)

    assert 0 == result.exit_code, result.output
    assert "expect: silent" in target.read_text()


def test_a_rule_is_not_proposed_on_readings_that_nobody_made(kb: KnowledgeBase) -> None:
    key = key_of(kb, case_named(kb, "177"))
    assert {"tap_dull", "extent_access"} <= {scale for scale, level in key.case.mark.upper.items() if level}

    def rule(*read: str) -> tuple[str, dict[str, object]]:
        text = proposal(kb, disagree(kb, key, "structural", BECAUSE, "Ines", read))
        return text, yaml.safe_load(text)["rules"][0]["when"]

    text, when = rule("tap_dull")
    assert {"zone": "bottom", "sign": "dull_tap", "tap_dull": {"at_least": 2}} == when
    assert "Read by them: Sound under a coin." in text
    text, when = rule()
    assert {"zone": "bottom", "sign": "dull_tap"} == when
    assert "judged at sight" in text
