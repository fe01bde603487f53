"""The lesson of examples/lesson, played again from the answers that three learners gave.

`python -m tests.teaching.lesson_played` writes the file of the class anew, after rules or cases have changed. What is
then no longer offered is left out (a check) or answered with the last choice, which is "nothing", "not yet" or "none".
"""

from __future__ import annotations

import tempfile
from collections.abc import Iterator, Mapping
from pathlib import Path
from typing import Any

import yaml

from tests.conftest import ROOT
from triage.knowledge.model import KnowledgeBase
from triage.knowledge.store.load import load_knowledge
from triage.teaching.classes import Class, class_file, keep, read_class, result_of
from triage.teaching.drawn import case_named
from triage.teaching.questions import CHECK, CONFIDENCE, FROM_MARK, NEXT, STOP
from triage.teaching.run import State, begin, step
from triage.teaching.sheet import mark_run

FOLDER = ROOT / "examples" / "lesson"


def played() -> dict[str, Any]:
    """What was answered, as it stands in the example."""
    read: dict[str, Any] = yaml.safe_load((FOLDER / "played.yaml").read_text(encoding="utf-8"))
    return read


def runs(kb: KnowledgeBase) -> Iterator[tuple[str, State]]:
    """Every run with the nickname of who made it, case by case."""
    for name, learners in played()["cases"].items():
        case = case_named(kb, name)
        for nick, said in learners.items():
            yield nick, _run(kb, begin(kb, case), said)


def kept_in(kb: KnowledgeBase, folder: Path) -> Class:
    """The class, with its file in this folder."""
    code = played()["class"]
    for nick, state in runs(kb):
        keep(result_of(kb, mark_run(kb, state), nick), code, folder)
    return read_class(code, folder)


def _run(kb: KnowledgeBase, state: State, said: Mapping[str, Any]) -> State:
    wanted = [_whole(state, one) for one in said["checks"]]
    while (question := state.asks) is not None:
        ids = [one.id for one in question.choices]
        if question.about == CONFIDENCE:
            state, _ = step(kb, state, said[CONFIDENCE])
            continue
        if question.about == CHECK:
            answer = next((one for one in wanted if one in ids), STOP)
            wanted = [one for one in wanted if one != answer]
        else:
            answer = _whole(state, said[NEXT]) if question.about == NEXT else said[question.about]
        state, _ = step(kb, state, ids.index(answer) if answer in ids else len(ids) - 1)
    return state


def _whole(state: State, check: str) -> str:
    """A check as it is kept: with the finding at which it is made, which is the one to judge where none is named."""
    return check if check == STOP or FROM_MARK in check else f"{state.case.focus}{FROM_MARK}{check}"


if __name__ == "__main__":
    with tempfile.TemporaryDirectory() as made:
        kept_in(load_knowledge(ROOT / "rules"), Path(made))
        file = class_file(played()["class"], Path(made))
        (FOLDER / file.name).write_bytes(file.read_bytes())
