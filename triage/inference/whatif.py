"""What another answer would make of a finding: the same boat, judged again with one reading or fact changed.

Only the findings that the answer can rest on are judged again, so that asking many such questions stays quick and the
answers stay exact.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace
from functools import cached_property
from itertools import islice

import networkx as nx

from triage.inference.bounds import initial_state
from triage.inference.evaluate import State, evaluate, related, satisfies, state_at, state_of, tests_hold
from triage.inference.evaluation import BOUNDS, Bound, Evaluation
from triage.inference.outlook import Outlook
from triage.inference.program import Program, program_of
from triage.knowledge.compiled.conjuncts import Quantifier
from triage.knowledge.model import KnowledgeBase
from triage.survey.model import Boat, Finding, Reading


def rests_on(kb: KnowledgeBase, boat: Boat, findings: Sequence[Finding]) -> list[list[Finding]]:
    """For each finding those that its judgement can rest on, itself among them, in their order.

    A finding rests on another when one of its rules asks about others and this other could be the answer, at the worst
    that it can be; and on whatever that one rests on in turn.
    """
    program = program_of(kb)
    states = [_at_worst(program, boat, finding) for finding in findings]
    graph: nx.DiGraph[int] = nx.DiGraph()
    graph.add_nodes_from(range(len(findings)))
    for me, state in enumerate(states):
        asked = _asked_of_others(program, state.finding)
        for n, other in enumerate(states):
            if n != me and any(_stands(quantifier, state, other, "upper") for quantifier in asked):
                graph.add_edge(me, n)
    return [[findings[n] for n in sorted({me} | nx.descendants(graph, me))] for me in graph]


def _at_worst(program: Program, boat: Boat, finding: Finding) -> State:
    """The finding at the worst that its rules can make of it, whatever there is elsewhere."""
    state = state_of(program.kb, boat, finding, initial_state(program.kb, boat, finding).upper)
    for stratum in program.rules_for(finding.zone, finding.sign):
        for compiled in stratum:
            if any(tests_hold(conjunct, state, "upper") for conjunct in compiled.conjuncts):
                for scale, level in compiled.rule.raises:
                    state.levels[scale] = max(level, state.levels.get(scale, level))
    return state


def _asked_of_others(program: Program, finding: Finding) -> set[Quantifier]:
    """What the rules that can hold for a finding ask of the others."""
    return {
        quantifier
        for stratum in program.rules_for(finding.zone, finding.sign)
        for compiled in stratum
        for conjunct in compiled.conjuncts
        for quantifier in conjunct.quantifiers
    }


def _stands(quantifier: Quantifier, asking: State, other: State, bound: Bound) -> bool:
    """Whether the other one is what is asked about."""
    return related(quantifier, asking, other, bound) and satisfies(quantifier.conjuncts, other, bound)


def _hangs_on_one(quantifier: Quantifier, asking: State, others: Sequence[State], bound: Bound) -> bool:
    """Whether one more of what is asked about would be just enough."""
    found = (other for other in others if other is not asking and _stands(quantifier, asking, other, bound))
    return sum(1 for _ in islice(found, quantifier.count)) == quantifier.count - 1


class WhatIf:
    """Other answers to one finding on one boat."""

    def __init__(
        self,
        kb: KnowledgeBase,
        boat: Boat,
        finding: Finding,
        group: Sequence[Finding],
        judged: Sequence[Evaluation] = (),
    ) -> None:
        """``group``: the finding and the others that it rests on. ``judged``: how these are judged, if known."""
        self.kb, self.boat, self.finding, self.group = kb, boat, finding, group
        if judged:
            self._as_it_is = judged
        self._known: dict[tuple[tuple[str, int | str], ...], Evaluation] = {}

    def judged(self, answers: Mapping[str, int | str]) -> Evaluation:
        """The finding with these scales answered so and these facts told so, all else as it is."""
        key = tuple(sorted(answers.items()))
        if key not in self._known:
            boat, readings = self.boat, dict(self.finding.readings)
            for name, answer in answers.items():
                if isinstance(answer, int):
                    readings[name] = Reading.at(answer, "what if")
                else:
                    boat = boat.knowing(name, answer, self.finding.zone)
            self._known[key] = self._judge(boat, replace(self.finding, readings=readings))
        return self._known[key]

    def _judge(self, boat: Boat, changed: Finding) -> Evaluation:
        """The changed finding by itself, as far as the others stay as they are; else with all that it rests on."""
        if boat is self.boat:  # what is known of her has not changed
            (judged,) = evaluate(self.kb, boat, [changed], self._others)
            if not any(self._moves_others(judged, bound) for bound in BOUNDS):
                return judged
        group = [changed if finding is self.finding else finding for finding in self.group]
        return next(one for one in evaluate(self.kb, boat, group) if one.finding is changed)

    @cached_property
    def _as_it_is(self) -> Sequence[Evaluation]:
        return evaluate(self.kb, self.boat, self.group)

    @cached_property
    def _others(self) -> list[Evaluation]:
        return [one for one in self._as_it_is if one.finding is not self.finding] if len(self.group) > 1 else []

    @cached_property
    def _states(self) -> Mapping[Bound, list[State]]:
        """The finding as it is, and the others."""
        own = [one for one in self._as_it_is if one.finding is self.finding]
        return {bound: [state_at(self.kb, self.boat, one, bound) for one in (*own, *self._others)] for bound in BOUNDS}

    @cached_property
    def _asking(self) -> Mapping[Quantifier, list[int]]:
        """What the others ask about the findings of the boat, and which of them ask it."""
        found: dict[Quantifier, list[int]] = {}
        for n, other in enumerate(self._others):
            for quantifier in _asked_of_others(program_of(self.kb), other.finding):
                found.setdefault(quantifier, []).append(n)
        return found

    def _moves_others(self, judged: Evaluation, bound: Bound) -> bool:
        """Whether something that another one asks is answered otherwise than it was, with this one judged so."""
        if not self._asking:
            return False
        before, *others = self._states[bound]
        after = state_at(self.kb, self.boat, judged, bound)
        return any(
            satisfies(quantifier.conjuncts, before, bound) != satisfies(quantifier.conjuncts, after, bound)
            and any(_hangs_on_one(quantifier, others[n], others, bound) for n in asking)
            for quantifier, asking in self._asking.items()
        )

    @cached_property
    def outlook(self) -> Outlook:
        """The same questions asked roughly and by the hundred."""
        return Outlook(self.kb, self.boat, self.finding, self.group)

    @cached_property
    def applicable(self) -> tuple[str, ...]:
        return self.kb.applicable(self.finding.zone, self.finding.sign)

    @cached_property
    def unanswered(self) -> tuple[str, ...]:
        """Scales that apply and were neither answered exactly nor tried in vain."""
        lower, upper, readings = self.finding.lower, self.finding.upper, self.finding.readings
        return tuple(
            scale for scale in self.applicable if scale not in readings or lower.get(scale) != upper.get(scale)
        )

    @cached_property
    def attempted(self) -> tuple[str, ...]:
        """Scales that apply and of which somebody said that they could not tell."""
        return tuple(s for s in self.applicable if s in self.finding.readings and s not in self.finding.answered)

    def levels(self, scale: str) -> range:
        """Every level that the sign allows on the scale, from the mildest its picture shows."""
        sign = self.finding.sign
        return range(self.kb.best(sign, scale), self.kb.worst(sign, scale) + 1)

    def possible(self, scale: str) -> range:
        """The levels that the scale may still be at: as the sign allows, and within what was answered."""
        levels = self.levels(scale)
        return range(self.finding.lower.get(scale, levels.start), self.finding.upper.get(scale, levels.stop - 1) + 1)
