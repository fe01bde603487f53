"""The meaning of the rules, in one page: every other engine must agree with this one.

Each finding is judged twice, from the best and from the worst that its unanswered scales can be. Rules only raise, so
applying them stratum by stratum gives the least fixpoint: the mildest conclusion that satisfies every rule.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Protocol

from triage.inference.bounds import initial_state
from triage.inference.evaluation import BOUNDS, Bound, Evaluation, Firing, Fixpoint
from triage.inference.program import CompiledRule, Program, program_of
from triage.knowledge.compiled.conjuncts import Conjunct, Quantifier
from triage.knowledge.model import KnowledgeBase, Rule
from triage.survey.model import Boat, Finding, opposite
from triage.survey.validity import admit

Hits = Mapping[Quantifier, Sequence["State"]]


class State:
    """One finding while it is being judged, at one end of its range."""

    def __init__(self, finding: Finding, sided: bool, words: Mapping[str, str], levels: Mapping[str, int]) -> None:
        self.finding = finding
        self.sided = sided
        self.words = words
        self.levels = dict(levels)
        self.firings: list[Firing] = []


def evaluate(kb: KnowledgeBase, boat: Boat, findings: Sequence[Finding]) -> tuple[Evaluation, ...]:
    """Judge the findings of one boat together, at both ends of their ranges.

    Raises BadSurvey for words and levels that the knowledge does not have.
    """
    admit(kb, boat, findings)
    program = program_of(kb)
    starts = [initial_state(kb, boat, finding) for finding in findings]
    ends = {}
    for bound in BOUNDS:
        states = [state_of(kb, boat, one, begun.levels(bound)) for one, begun in zip(findings, starts, strict=True)]
        raise_levels(program, states, bound)
        ends[bound] = [Fixpoint(state.levels, tuple(state.firings)) for state in states]
    return tuple(
        Evaluation(finding, lower, upper, begun.presumed, begun.defeated)
        for finding, lower, upper, begun in zip(findings, ends["lower"], ends["upper"], starts, strict=True)
    )


def state_of(kb: KnowledgeBase, boat: Boat, finding: Finding, levels: Mapping[str, int]) -> State:
    """The finding at these levels, with what is known of the boat."""
    zone = kb.zones[finding.zone]
    return State(finding, zone.sided, boat.words(zone, finding.side), levels)


def state_at(kb: KnowledgeBase, boat: Boat, judged: Evaluation, bound: Bound) -> State:
    """A judged finding as it stood when judging ended."""
    return state_of(kb, boat, judged.finding, judged.end(bound).levels)


def raise_levels(program: Program, states: Sequence[State], bound: Bound) -> None:
    """Apply every rule to every finding, stratum after stratum."""
    here = [program.rules_for(state.finding.zone, state.finding.sign) for state in states]
    for index in range(len(program.strata)):
        hits = satisfied(program, index, states, bound)
        for state, strata in zip(states, here, strict=True):
            for compiled in strata[index]:
                conjunct = first_holding(compiled, state, bound, hits)
                if conjunct is not None:
                    state.firings.append(fire(compiled.rule, conjunct, state, bound, hits))


def satisfied(program: Program, stratum: int, states: Sequence[State], bound: Bound) -> Hits:
    """For each quantifier of the stratum the findings that satisfy it."""
    hits: dict[Quantifier, list[State]] = {}
    for state in states:
        for quantifier, conjuncts in program.quantifiers_for(state.finding.zone, state.finding.sign)[stratum]:
            if any(tests_hold(conjunct, state, bound) for conjunct in conjuncts):
                hits.setdefault(quantifier, []).append(state)
    return hits


def first_holding(compiled: CompiledRule, state: State, bound: Bound, hits: Hits) -> Conjunct | None:
    """The first conjunct of the rule that holds here, if one does."""
    for conjunct in compiled.conjuncts:
        if tests_hold(conjunct, state, bound) and (
            not conjunct.quantifiers  # as most, which saves asking
            or all(
                len(witnesses(quantifier, state, bound, hits)) >= quantifier.count
                for quantifier in conjunct.quantifiers
            )
        ):
            return conjunct
    return None


def fire(rule: Rule, conjunct: Conjunct, state: State, bound: Bound, hits: Hits) -> Firing:
    """Raise what the rule raises and keep a record of it."""
    raised = []
    for scale, level in rule.raises:
        before = state.levels.get(scale, 0)
        if level > before:
            state.levels[scale] = level
            raised.append((scale, before, level))
    if not conjunct.quantifiers:
        return Firing(rule, conjunct, tuple(raised))
    seen = (
        other.finding.id for quantifier in conjunct.quantifiers for other in witnesses(quantifier, state, bound, hits)
    )
    return Firing(rule, conjunct, tuple(raised), tuple(dict.fromkeys(seen)))


def satisfies(conjuncts: Sequence[Conjunct], state: State, bound: Bound) -> bool:
    """Whether one of a quantifier's conjuncts holds for this finding."""
    zone, sign = state.finding.zone, state.finding.sign
    return any(conjunct.fits(zone, sign) and tests_hold(conjunct, state, bound) for conjunct in conjuncts)


def tests_hold(conjunct: Conjunct, state: State, bound: Bound) -> bool:
    """Levels and words. A word nobody knows matches nothing at the lower bound and anything at the upper bound."""
    levels, words = state.levels, state.words
    for scale, level in conjunct.levels:
        if levels.get(scale, 0) < level:
            return False
    for word, values in conjunct.words:
        if word in words:
            if words[word] not in values:
                return False
        elif bound == "lower":
            return False
    return True


def witnesses(quantifier: Quantifier, state: State, bound: Bound, hits: Hits) -> list[State]:
    """The other findings that satisfy the quantifier and stand to this one as it asks."""
    return [
        other for other in hits.get(quantifier, ()) if other is not state and related(quantifier, state, other, bound)
    ]


class Placed(Protocol):
    """A finding, and whether its zone has two sides."""

    @property
    def finding(self) -> Finding:
        """The finding itself."""

    @property
    def sided(self) -> bool:
        """Whether its zone has two sides."""


def related(quantifier: Quantifier, state: Placed, other: Placed, bound: Bound) -> bool:
    """Twin: same zone, other side. Same side: not known to be opposite. An unknown side counts at the upper bound."""
    if quantifier.where == "anywhere":
        return True
    mine, its = state.finding.side, other.finding.side
    unknown = mine is None or its is None
    if quantifier.where == "twin":
        if not state.sided or state.finding.zone != other.finding.zone:
            return False
        return bound == "upper" if unknown else its == opposite(mine)
    if not (state.sided and other.sided):
        return True
    return bound == "upper" if unknown else its == mine
