"""The formulas mean what `evaluate` means: on random surveys of random and shipped rules every level is the same."""

from __future__ import annotations

from collections.abc import Sequence

from hypothesis import given, settings
from hypothesis import strategies as st

from tests.strategies import boats_with_findings, knowledge_bases
from triage.inference.evaluate import evaluate
from triage.inference.logic import Formula, Solver, either, no
from triage.inference.outcome import BOUNDS
from triage.inference.prove import OpenBoat, OpenFinding, open_ends
from triage.knowledge.model import KnowledgeBase
from triage.survey.model import Boat, Finding


def pinned(open_boat: OpenBoat, open_finding: OpenFinding, boat: Boat, finding: Finding) -> list[Formula]:
    """That the open finding is this one, and the open boat this boat."""
    said: list[Formula] = []
    for scale, answered in open_finding.answered.items():
        level = finding.answered.get(scale)
        said.append(no(answered) if level is None else answered)
        for (read, step), reading in open_finding.reading.items():
            if level is not None and read == scale:
                said.append(reading if step <= level else no(reading))
    for fact, choice in open_boat.facts.items():
        said.extend(one if boat.facts.get(fact) == value else no(one) for value, one in choice.items())
    for zone, choice in open_boat.encloses_buoyancy.items():
        said.extend(one if boat.encloses_buoyancy.get(zone) == value else no(one) for value, one in choice.items())
    said.extend(one if finding.side == side else no(one) for side, one in open_finding.side.items())
    return said


def check_agreement(kb: KnowledgeBase, boat: Boat, found: Sequence[Finding]) -> None:
    open_boat = OpenBoat(kb)
    open_findings = [
        OpenFinding(kb, open_boat, one.zone, one.sign, f"{number} ") for number, one in enumerate(found)
    ]
    ends = {bound: open_ends(kb, open_findings, bound) for bound in BOUNDS}
    limits = [*open_boat.limits, *(limit for one in open_findings for limit in one.limits)]
    this = [part for one, finding in zip(open_findings, found, strict=True) for part in pinned(open_boat, one, boat, finding)]

    judged = evaluate(kb, boat, found)

    solver = Solver([*limits, *this])
    truth = solver.find(True)
    assert truth is not None
    for bound in BOUNDS:
        for end, one in zip(ends[bound], judged, strict=True):
            for scale in kb.scales.values():
                for level in range(scale.top + 1):
                    assert truth(end.level(scale.id, level)) == (one.end(bound).level(scale.id) >= level)
            fired = {rule for rule, fires in end.fires.items() if truth(fires)}
            assert fired == {firing.rule for firing in one.end(bound).firings}


@settings(max_examples=100)
@given(data=st.data())
def test_formulas_agree_with_evaluate_on_random_rules(data: st.DataObject) -> None:
    kb = data.draw(knowledge_bases())
    boat, found = data.draw(boats_with_findings(kb, most=4))

    check_agreement(kb, boat, found)


@settings(max_examples=60)
@given(data=st.data())
def test_formulas_agree_with_evaluate_on_the_shipped_rules(kb: KnowledgeBase, data: st.DataObject) -> None:
    boat, found = data.draw(boats_with_findings(kb, most=3))

    check_agreement(kb, boat, found)
