"""experta runs the rules forward: the engine behind every interactive answer."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from triage.inference.bounds import initial_state_given
from triage.inference.evaluate import State, fire
from triage.inference.evaluation import BOUNDS, Bound, Evaluation, Fixpoint
from triage.inference.experta_rules import UNKNOWN, Engine, Told, engine_of
from triage.inference.program import Program, program_of
from triage.inference.standing import Asked, Hits
from triage.knowledge.compiled.conjuncts import Quantifier
from triage.knowledge.model import KnowledgeBase, Presumption, Rule
from triage.survey.model import Boat, Finding
from triage.survey.validity import admit


def forward(kb: KnowledgeBase, boat: Boat, findings: Sequence[Finding]) -> tuple[Evaluation, ...]:
    """Judge the findings of one boat together, at both ends of their ranges. Agrees with `evaluate` on every input."""
    admit(kb, boat, findings)
    program = program_of(kb)
    engine = engine_of(kb)
    engine.reset()
    zones = [kb.zones[finding.zone] for finding in findings]
    words = [boat.words(zone, finding.side) for zone, finding in zip(zones, findings, strict=True)]
    holding = _presume(engine, findings, words)
    starts = [initial_state_given(kb, finding, held) for finding, held in zip(findings, holding, strict=True)]
    ends: dict[Bound, list[Fixpoint]] = {}
    for bound in BOUNDS:
        states = [
            State(finding, zone.sided, known, begun.levels(bound))
            for finding, zone, known, begun in zip(findings, zones, words, starts, strict=True)
        ]
        _raise_levels(engine, program, states, bound)
        ends[bound] = [Fixpoint(state.levels, tuple(state.firings)) for state in states]
    return tuple(
        Evaluation(finding, lower, upper, begun.presumed, begun.defeated)
        for finding, lower, upper, begun in zip(findings, ends["lower"], ends["upper"], starts, strict=True)
    )


def _presume(
    engine: Engine, findings: Sequence[Finding], words: Sequence[Mapping[str, str]]
) -> list[list[Presumption]]:
    """For each finding the presumptions whose condition holds on its answers, each once, in order."""
    facts = [
        engine.presuming(k=k, zone=finding.zone, sign=finding.sign, **known, **finding.upper)
        for k, (finding, known) in enumerate(zip(findings, words, strict=True))
    ]
    held: list[dict[Presumption, None]] = [{} for _ in findings]
    for k, presumption in engine.ask(facts):
        held[k][presumption] = None
    return [list(found) for found in held]


def _raise_levels(engine: Engine, program: Program, states: Sequence[State], bound: Bound) -> None:
    for stratum, (look, stage) in zip(program.strata, engine.strata, strict=True):
        hits: dict[Quantifier, list[State]] = {quantifier: [] for quantifier in stratum.quantifiers}
        asked = [Asked(number, quantifier) for number, quantifier in enumerate(stratum.quantifiers)]
        numbers = {one.quantifier: one.number for one in asked}
        satisfied = [0] * len(states)
        if stratum.quantifiers and len(states) > 1:
            facts = [look(**_attributes(program, k, state, bound, look)) for k, state in enumerate(states)]
            for k, quantifier in engine.ask(facts):
                if not satisfied[k] >> numbers[quantifier] & 1:
                    satisfied[k] |= 1 << numbers[quantifier]
                    hits[quantifier].append(states[k])
        standing = Hits(states, satisfied, bound)
        facts = []
        for k, state in enumerate(states):
            answers = {f"quantifier{one.number}": 1 for one in asked if standing.enough(one, k, {})}
            facts.append(stage(**_attributes(program, k, state, bound, stage), **answers))
        fired: set[tuple[int, Rule]] = set()
        for k, (rule, conjunct) in engine.ask(facts):
            if (k, rule) not in fired:  # of several conjuncts that hold, the first one speaks
                fired.add((k, rule))
                states[k].firings.append(fire(rule, conjunct, states[k], bound, hits))


def _attributes(program: Program, k: int, state: State, bound: Bound, kind: type[Told]) -> dict[str, Any]:
    """One finding at one end of its range, as the attributes of a fact: those that are read, without levels of 0."""
    known: dict[str, Any] = {"zone": state.finding.zone, "sign": state.finding.sign}
    if bound == "upper":
        known |= dict.fromkeys(program.words, UNKNOWN)
    known |= state.words
    known |= state.levels
    return {"k": k, "bound": bound} | {name: known[name] for name in kind.reads & known.keys() if known[name] != 0}
