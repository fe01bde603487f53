"""What another answer would make of a finding: the same boat, judged again with one reading or fact changed.

Only the findings that the answer can rest on are judged again, so that asking many such questions stays quick and the
answers stay exact.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace
from functools import cached_property

import networkx as nx

from triage.inference.bounds import start
from triage.inference.evaluate import State, evaluate, related, satisfies, tests_hold
from triage.inference.outcome import Judged
from triage.inference.outlook import Outlook
from triage.inference.program import Program, program_of
from triage.knowledge.clauses import Probe
from triage.knowledge.model import KnowledgeBase
from triage.survey.model import Boat, Finding, Reading


def rests_on(kb: KnowledgeBase, boat: Boat, findings: Sequence[Finding]) -> list[list[Finding]]:
    """For each finding those that its judgement can rest on, itself among them, in their order.

    A finding rests on others when one of its rules asks about others and enough of them could be the answer, each at
    the worst that it can be; and on whatever these rest on in turn.
    """
    program = program_of(kb)
    states = [_at_worst(program, boat, finding) for finding in findings]
    graph: nx.DiGraph[int] = nx.DiGraph()
    graph.add_nodes_from(range(len(findings)))
    for me, state in enumerate(states):
        for probe in _asked_of_others(program, state.finding):
            could = [n for n, other in enumerate(states) if n != me and _could_be(probe, state, other)]
            if len(could) >= probe.count:
                graph.add_edges_from((me, n) for n in could)
    return [[findings[index] for index in sorted({me} | nx.descendants(graph, me))] for me in graph]


def _at_worst(program: Program, boat: Boat, finding: Finding) -> State:
    """The finding at the worst that its rules can make of it, whatever there is elsewhere."""
    zone = program.kb.zones[finding.zone]
    levels = start(program.kb, boat, finding).ceiling
    state = State(finding, zone.sided, boat.words(zone, finding.side), levels)
    for layer in program.rules_for(finding.zone, finding.sign):
        for compiled in layer:
            if any(tests_hold(clause, state, "ceiling") for clause in compiled.clauses):
                for scale, level in compiled.rule.raises:
                    state.levels[scale] = max(level, state.levels.get(scale, 0))
    return state


def _asked_of_others(program: Program, finding: Finding) -> set[Probe]:
    """What the rules that can hold for a finding ask of the others."""
    return {
        probe
        for layer in program.rules_for(finding.zone, finding.sign)
        for compiled in layer
        for clause in compiled.clauses
        for probe in clause.probes
    }


def _could_be(probe: Probe, state: State, other: State) -> bool:
    return related(probe, state, other, "ceiling") and satisfies(probe.clauses, other, "ceiling")


class WhatIf:
    """Other answers to one finding on one boat."""

    def __init__(self, kb: KnowledgeBase, boat: Boat, finding: Finding, group: Sequence[Finding]) -> None:
        """``group`` holds the finding and the others that it rests on."""
        self.kb, self.boat, self.finding, self.group = kb, boat, finding, group
        self._known: dict[tuple[tuple[str, int | str], ...], Judged] = {}

    def judged(self, answers: Mapping[str, int | str]) -> Judged:
        """The finding with these scales answered so and these facts told so, all else as it is."""
        key = tuple(sorted(answers.items()))
        if key not in self._known:
            boat, readings = self.boat, dict(self.finding.readings)
            for name, answer in answers.items():
                if isinstance(answer, int):
                    readings[name] = Reading(answer, "what if")
                else:
                    boat = boat.knowing(name, answer, self.finding.zone)
            changed = replace(self.finding, readings=readings)
            group = [changed if finding is self.finding else finding for finding in self.group]
            judged = evaluate(self.kb, boat, group)
            self._known[key] = next(one for one in judged if one.finding is changed)
        return self._known[key]

    @cached_property
    def outlook(self) -> Outlook:
        """The same questions asked roughly and by the hundred."""
        return Outlook(self.kb, self.boat, self.finding, self.group)

    @cached_property
    def applicable(self) -> tuple[str, ...]:
        return self.kb.applicable(self.finding.zone, self.finding.sign)

    @cached_property
    def unanswered(self) -> tuple[str, ...]:
        """Scales that apply and were neither answered nor tried in vain."""
        return tuple(scale for scale in self.applicable if scale not in self.finding.readings)

    @cached_property
    def in_vain(self) -> tuple[str, ...]:
        """Scales that apply and of which somebody said that they could not tell."""
        return tuple(s for s in self.applicable if s in self.finding.readings and s not in self.finding.answered)

    def levels(self, scale: str) -> range:
        """Every level that the sign allows on the scale, from the mildest its picture shows."""
        sign = self.finding.sign
        return range(self.kb.best(sign, scale), self.kb.worst(sign, scale) + 1)
