"""Somebody thinks that the key to a case is wrong: kept with the run, in their words, and handed out as proposals."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from contextlib import suppress
from dataclasses import dataclass, replace

from triage.app.lessons import played
from triage.app.screen import Program
from triage.errors import BadInput, NoSuch, Place, Problem
from triage.knowledge.model import VERDICT
from triage.log.runs import Run
from triage.phrases import teaching as words
from triage.teaching.classes import nickname
from triage.teaching.disagreement import Disagreement, disagree, proposal

MOST = 20
"""For one run."""


@dataclass(frozen=True)
class Against:
    """What was said against a key, as it is listed; ``rule`` decided, and is empty where none did."""

    run: Run
    by: str
    verdict: str
    key: str
    because: str
    rule: str


def keep_against(asked: Program, run: Run, form: Mapping[str, str]) -> None:
    """Keep what somebody says against the key of a finished run; the key stays. Raises BadInput and NoSuch."""
    state = played(asked, run)
    if state.asks is not None:
        raise NoSuch(words.NOT_YET_JUDGED)
    if len(run.otherwise) >= MOST:
        raise BadInput([Problem(Place("the disagreement"), f"{MOST} are kept already", "Take out the file first.")])
    by = form.get("by", "").strip() or run.name
    one = disagree(asked.kb, state.key, form.get(VERDICT, ""), form.get("because", ""), nickname(by))
    said = {"verdict": form[VERDICT], "because": one.because, "by": one.by}
    if said not in run.otherwise:
        asked.boats.keep_run(replace(run, otherwise=(*run.otherwise, said)))


def said_against(asked: Program, runs: Sequence[Run]) -> Iterator[Against]:
    """All of it, in the order of the runs."""
    for run, one in _disagreements(asked, runs):
        says = asked.kb.level_name(VERDICT, one.verdict)
        yield Against(run, one.by, says, one.key.finding.verdict.worst, one.because, one.key.rule)


def proposals(asked: Program, runs: Sequence[Run]) -> str:
    """All of it as documents for the rules, one after the other; empty where nothing was said."""
    return "---\n".join(proposal(asked.kb, one) for _, one in _disagreements(asked, runs))


def _disagreements(asked: Program, runs: Sequence[Run]) -> Iterator[tuple[Run, Disagreement]]:
    for run in runs:
        for said in run.otherwise:
            with suppress(NoSuch, BadInput):  # the rules have changed since: another case, or mended as was said
                state = played(asked, run)
                read = [scale for finding, scale in state.found if finding == state.case.focus]
                yield run, disagree(asked.kb, state.key, said["verdict"], said["because"], said["by"], read)
