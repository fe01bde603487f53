"""Answers are kept from run to run, and only what depends on a change is asked again."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest

from tests.inference.small import presumption, rule
from tests.proof.asking import promise, promised, proved
from triage.knowledge.model import Advice, KnowledgeBase
from triage.knowledge.model.conditions import All, AtLeast, AtMost, Is
from triage.proof.cache import AnswerCache, default_file
from triage.proof.run import Outcome

RIM = Is("zone", ("rim",))
SOFT = rule("soft", AtLeast("give", 2), {"glass": 2})
BROKEN = rule("broken", AtLeast("glass", 2), {"verdict": 2})
HANDS = rule("hands", AtLeast("verdict", 2), {"hands": 1})
PROMISE = promise("p/soft", AtLeast("give", 2), at_least={"verdict": 2})
KB = promised(SOFT, BROKEN, HANDS, PROMISE)


@pytest.fixture
def file(tmp_path: Path) -> Path:
    """A cache in which everything about the small boat has been answered."""
    proved(KB, cache=AnswerCache(tmp_path / "cache" / "proofs.sqlite"))
    return tmp_path / "cache" / "proofs.sqlite"


def asked_again(kb: KnowledgeBase, file: Path) -> Outcome:
    """What became of the promise, asked once more with what is cached."""
    return proved(kb, "promise", cache=AnswerCache(file))["promise", "p/soft"]


def test_what_has_not_changed_is_not_asked_again(file: Path) -> None:
    outcomes = proved(KB, cache=AnswerCache(file))

    assert all(outcome.cached == outcome.asked > 0 for outcome in outcomes.values())


def test_a_rule_that_cannot_reach_the_goal_changes_nothing(file: Path) -> None:
    changed = replace(HANDS, raises=(("hands", 2),))

    outcome = asked_again(promised(SOFT, BROKEN, changed, PROMISE), file)

    assert outcome.asked == outcome.cached


def test_a_rule_that_can_reach_it_is_asked_about_only_where_it_fits(file: Path) -> None:
    added = rule("rim-too", All((RIM, AtLeast("sound", 1))), {"verdict": 1})

    outcome = asked_again(promised(SOFT, BROKEN, HANDS, added, PROMISE), file)

    line_gouge_and_loose = 3  # nothing seen at the rim is not judged by its sound
    assert line_gouge_and_loose == outcome.asked - outcome.cached


@pytest.mark.parametrize(
    "changed",
    [
        promised(SOFT, replace(BROKEN, raises=(("verdict", 1),)), PROMISE),
        promised(SOFT, replace(BROKEN, when=AtLeast("glass", 3)), PROMISE),
        promised(SOFT, BROKEN, replace(PROMISE, at_least=(("verdict", 3),))),
        promised(SOFT, BROKEN, replace(PROMISE, when=AtLeast("give", 1))),
        promised(SOFT, BROKEN, replace(PROMISE, advises=("never",))),
    ],
    ids=["another level", "another condition", "more promised", "promised of more", "a sentence promised"],
)
def test_a_change_that_breaks_the_promise_is_never_missed(changed: KnowledgeBase, file: Path) -> None:
    assert not asked_again(changed, file).holds


def test_a_presumption_is_part_of_what_decides(file: Path) -> None:
    worst = promise("p/soft", RIM, worst_at_least={"verdict": 2})
    passed_by_depth = presumption("deep", AtMost("depth", 0), {"give": 0})
    proved(promised(SOFT, BROKEN, worst), cache=AnswerCache(file))

    assert not asked_again(promised(SOFT, BROKEN, worst, passed_by_depth), file).holds


def test_the_wording_of_a_sentence_decides_nothing(file: Path) -> None:
    said = [replace(SOFT, advises=(Advice("do", text),)) for text in ("Look again.", "Look twice.")]
    proved(promised(said[0], BROKEN, PROMISE), cache=AnswerCache(file))

    outcome = asked_again(promised(said[1], BROKEN, PROMISE), file)

    assert outcome.asked == outcome.cached


def test_a_broken_promise_is_looked_at_again_for_its_example(file: Path) -> None:
    broken = promised(SOFT, PROMISE)
    first = asked_again(broken, file)

    second = asked_again(broken, file)

    assert [answer.examples for answer in first.found] == [answer.examples for answer in second.found]
    assert second.found[0].examples


def test_fresh_means_that_nothing_is_remembered(file: Path) -> None:
    assert {} == AnswerCache(file, fresh=True).answers


def test_a_memory_that_cannot_be_used_is_done_without(tmp_path: Path) -> None:
    spoilt = tmp_path / "proofs.sqlite"
    spoilt.write_bytes(b"not a database" * 100)
    in_the_way = tmp_path / "file"
    in_the_way.write_text("", encoding="utf-8")

    for file in (spoilt, in_the_way / "proofs.sqlite"):
        assert asked_again(KB, file).holds


def test_it_lies_where_everything_else_is_kept_and_is_turned_off_with_it(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("TRIAGE_CACHE_DIR", str(tmp_path))
    there = default_file()
    monkeypatch.setenv("TRIAGE_CACHE_DIR", "")

    assert (tmp_path / "proofs.sqlite", None) == (there, default_file())
