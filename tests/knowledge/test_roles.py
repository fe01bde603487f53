"""What levels of the outcomes are called is for the rules to say: the program knows them by the roles they play."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import pytest
from click.testing import CliRunner

from tests.conftest import ROOT
from triage import assess_survey, read_survey, render
from triage.cli import main
from triage.errors import BadRules
from triage.knowledge.model import KnowledgeBase
from triage.knowledge.store.load import knowledge_from_texts, rule_texts
from triage.parsing.documents import read_document

EXAMPLES = sorted((ROOT / "examples").glob("*.yaml"))


def other_words(kb: KnowledgeBase) -> dict[str, dict[str, str]]:
    """By derived scale, another name for each of its levels."""
    return {
        scale.id: {level.name: f"{scale.id} step {number}" for number, level in enumerate(scale.levels)}
        for scale in kb.scales.values()
        if not scale.observed
    }


def renamed(value: Any, names: dict[str, dict[str, str]], within: str = "") -> Any:
    """Rules as they would read with these names."""
    if isinstance(value, list):
        return [renamed(part, names, within) for part in value]
    if isinstance(value, str):
        return names.get(within, {}).get(value, value)
    if not isinstance(value, dict):
        return value
    if within == "gravity":
        return {names["verdict"].get(key, key): part for key, part in value.items()}
    told = {}
    for key, part in value.items():
        scale = key if key in names else within if key in ("at_least", "at_most") else "hands" if key == "who" else ""
        told[key] = renamed(part, names, "gravity" if key == "gravity" else scale)
    return told


def with_other_words(kb: KnowledgeBase) -> dict[str, str]:
    """The shipped rules with every level of every derived scale renamed, as texts of files."""
    names = other_words(kb)
    texts = {}
    for file, text in rule_texts().items():
        if file == "everyday.yaml":
            continue
        value = read_document(text, file).value
        for scale in names:
            for level in (value.get("scales") or {}).get(scale, {}).get("levels", ()):
                level["name"] = names[scale][level["name"]]
        texts[file] = json.dumps(renamed(value, names))
    return texts


def in_our_words(text: str, kb: KnowledgeBase) -> str:
    """The report with the usual names put back."""
    for scale, names in other_words(kb).items():
        for name, other in names.items():
            for ours, theirs in ((name, other), (name.capitalize(), other.capitalize())):
                text = text.replace(f'"{theirs}"', f'"{ours}"').replace(theirs, ours)
        assert scale
    return text


@pytest.fixture(scope="module")
def others(kb: KnowledgeBase) -> KnowledgeBase:
    """The shipped rules in other words."""
    return knowledge_from_texts(with_other_words(kb))


@pytest.mark.parametrize("example", EXAMPLES, ids=lambda path: path.stem)
def test_with_every_level_renamed_nothing_changes_but_the_words(
    kb: KnowledgeBase, others: KnowledgeBase, example: Path
) -> None:
    ours, theirs = (assess_survey(read_survey(example, base), base) for base in (kb, others))

    assert json.loads(render(ours, "json").replace(kb.digest, "")) == json.loads(
        in_our_words(render(theirs, "json"), kb).replace(others.digest, "")
    )
    assert ours.settled_and_fit == theirs.settled_and_fit
    assert bool(ours.keeps_ashore) == bool(theirs.keeps_ashore)


def test_a_boat_that_is_fit_exits_0_whatever_fit_is_called(kb: KnowledgeBase, tmp_path: Path) -> None:
    rules, survey = tmp_path / "rules", tmp_path / "boat.yaml"
    for file, text in with_other_words(kb).items():
        (rules / file).parent.mkdir(parents=True, exist_ok=True)
        (rules / file).write_text(text, encoding="utf-8")
    survey.write_text("boat: {name: Ruff}\nfindings: [{zone: stem, sign: scuff}]", encoding="utf-8")

    codes = [
        CliRunner().invoke(main, ["assess", str(survey), *more]).exit_code for more in ([], ["--rules", str(rules)])
    ]

    assert [0, 0] == codes


@pytest.mark.parametrize(
    ("change", "words"),
    [
        (("role: barred", "role: bared"), 'no role of afloat is called "bared"'),
        (("\n        role: fit\n", "\n"), 'no level plays the role "fit"'),
        (("role: limited", "role: fit"), 'the role "fit" is already played by level 0'),
    ],
)
def test_a_role_that_nobody_plays_or_knows_is_asked_about(change: tuple[str, str], words: str) -> None:
    texts = {name: text.decode("utf-8") for name, text in rule_texts().items()}
    derived = texts["scales/derived.yaml"]
    where = derived.index("\n  afloat:\n")
    texts["scales/derived.yaml"] = derived[:where] + derived[where:].replace(*change, 1)

    with pytest.raises(BadRules) as refused:
        knowledge_from_texts(texts)

    assert words in str(refused.value)
