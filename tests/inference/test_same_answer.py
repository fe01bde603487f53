"""The same survey gets the same answer: in another process, in another thread, after other boats."""

from __future__ import annotations

import os
import subprocess
import sys
from concurrent.futures import ThreadPoolExecutor
from itertools import count
from pathlib import Path
from typing import Any

import pytest

from triage.inference.evaluate import evaluate
from triage.inference.experta_rules import InOrder
from triage.inference.forward import forward
from triage.knowledge.model import KnowledgeBase
from triage.survey.model import Survey
from triage.survey.read import read_survey

TELL_EVERYTHING = """
import sys
from triage import assess_survey, load_knowledge, read_survey, render
from triage.inference.evaluate import evaluate
from triage.inference.forward import forward

kb = load_knowledge()
survey = read_survey(sys.argv[1], kb)
for engine in (evaluate, forward):
    for judged in engine(kb, survey.boat, survey.findings):
        for end in (judged.lower, judged.upper):
            print(judged.finding.id, end.levels)
            for firing in end.firings:
                print(firing.rule.id, firing.conjunct.levels, firing.raised, firing.witnesses)
print(render(assess_survey(survey, kb), "json"))
"""
SEEDS = ("0", "1", "2")


@pytest.fixture
def club_boat(root: Path) -> Path:
    """A boat with many findings, some of which other rules connect."""
    return root / "examples/club-boat.yaml"


@pytest.fixture
def survey(club_boat: Path, kb: KnowledgeBase) -> Survey:
    return read_survey(club_boat, kb)


def test_levels_traces_and_assessment_do_not_depend_on_the_hash_seed(club_boat: Path, root: Path) -> None:
    running = [
        subprocess.Popen(
            [sys.executable, "-c", TELL_EVERYTHING, str(club_boat)],
            cwd=root,
            env={**os.environ, "PYTHONHASHSEED": seed},
            stdout=subprocess.PIPE,
        )
        for seed in SEEDS
    ]

    told = [process.communicate()[0] for process in running]

    assert [0] * len(SEEDS) == [process.returncode for process in running]
    assert len(told[0]) > 10_000
    assert {told[0]} == set(told)


def test_threads_with_an_engine_each_agree(kb: KnowledgeBase, survey: Survey) -> None:
    expected = evaluate(kb, survey.boat, survey.findings)

    with ThreadPoolExecutor(max_workers=4) as threads:
        answers = list(threads.map(lambda _: forward(kb, survey.boat, survey.findings), range(40)))

    assert [expected] * 40 == answers


def test_an_engine_remembers_nothing_of_the_boat_before(kb: KnowledgeBase, survey: Survey) -> None:
    expected = [evaluate(kb, survey.boat, [finding]) for finding in survey.findings]

    forward(kb, survey.boat, survey.findings)
    actual = [forward(kb, survey.boat, [finding]) for finding in survey.findings]

    assert expected == actual


def test_an_engine_that_was_interrupted_answers_the_next_question(
    kb: KnowledgeBase, survey: Survey, monkeypatch: pytest.MonkeyPatch
) -> None:
    expected = forward(kb, survey.boat, survey.findings)
    with monkeypatch.context() as broken:
        broken.setattr("triage.inference.forward.fire", _interrupted)
        with pytest.raises(KeyboardInterrupt):
            forward(kb, survey.boat, survey.findings)

    assert expected == forward(kb, survey.boat, survey.findings)


@pytest.mark.parametrize("step", [1, 2, 3, 4, 10, 100])
def test_in_whichever_step_of_its_run_it_was_interrupted(
    kb: KnowledgeBase, survey: Survey, step: int, monkeypatch: pytest.MonkeyPatch
) -> None:
    expected = forward(kb, survey.boat, survey.findings)
    steps, goes_on = count(1), InOrder._update_agenda

    def interrupted(*agenda: Any) -> None:
        _interrupted() if next(steps) == step else goes_on(*agenda)

    with monkeypatch.context() as broken:
        broken.setattr(InOrder, "_update_agenda", interrupted)
        with pytest.raises(KeyboardInterrupt):
            forward(kb, survey.boat, survey.findings)

    assert expected == forward(kb, survey.boat, survey.findings)


def _interrupted(*_: object) -> None:
    raise KeyboardInterrupt
