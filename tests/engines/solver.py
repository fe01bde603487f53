"""The rules as formulas, asked about one survey: every choice is pinned, and the solver says what each level is."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from tests.oracle import Naive
from triage.inference.evaluation import BOUNDS
from triage.knowledge.model import KnowledgeBase
from triage.proof.symbolic import Formula, Solver, no
from triage.proof.symbolic_finding import SymbolicBoat, SymbolicFinding
from triage.proof.symbolic_state import SymbolicState, symbolic_states
from triage.survey.model import Boat, Finding


def judge(kb: KnowledgeBase, boat: Boat, findings: Sequence[Finding]) -> list[dict[str, Naive]]:
    """For each finding both ends, out of the formulas that stand for every such survey."""
    open_boat = SymbolicBoat(kb)
    opened = [SymbolicFinding(kb, open_boat, one.zone, one.sign, f"{number} ") for number, one in enumerate(findings)]
    states = {bound: symbolic_states(kb, opened, bound) for bound in BOUNDS}
    said = [part for one, finding in zip(opened, findings, strict=True) for part in _readings(one, finding)]
    solver = Solver(
        [*open_boat.limits, *(limit for one in opened for limit in one.limits), *said, *_facts(open_boat, boat)]
    )
    model = solver.find(True)
    assert model is not None, "the formulas know no such survey"

    def told(state: SymbolicState) -> Naive:
        levels = {scale: 0 for scale, _ in state.levels}
        for (scale, level), reached in state.levels.items():
            if model(reached):
                levels[scale] = max(levels[scale], level)
        return Naive(levels, {rule.id for rule, fires in state.fires.items() if model(fires)})

    return [{bound: told(states[bound][number]) for bound in BOUNDS} for number in range(len(findings))]


def _readings(opened: SymbolicFinding, finding: Finding) -> Iterator[Formula]:
    """That the finding is this one."""
    for scale, answered in opened.answered.items():
        yield _so(answered, scale in finding.answered)
    for end, levels in ((opened.reading, finding.lower), (opened.high, finding.upper)):
        for (scale, level), reading in end.items():
            if scale in levels:
                yield _so(reading, levels[scale] >= level)
    for side, one in opened.side.items():
        yield _so(one, finding.side == side)


def _facts(opened: SymbolicBoat, boat: Boat) -> Iterator[Formula]:
    """That the boat is this one."""
    for known, choices in ((boat.facts, opened.facts), (boat.encloses_buoyancy, opened.encloses_buoyancy)):
        for word, choice in choices.items():
            for value, one in choice.items():
                yield _so(one, known.get(word) == value)


def _so(formula: Formula, is_so: bool) -> Formula:
    return formula if is_so else no(formula)
